import { fingerLengthMm } from '../../../sim/hand/phalanges.ts';
import type { Finger } from '../../../sim/rig/rig.ts';
import type { SpoolSize } from '../../../sim/sizing/strings/spool-size.ts';
import type { FingerWiring } from '../../../sim/sizing/wiring/wiring-size.ts';
import { drawing, label } from '../svg.ts';
import { dividerDrawing } from './divider-drawing.ts';
import { fingerDrawing, scaleBar } from './finger-drawing.ts';
import { spoolDrawing } from './spool-drawing.ts';

/** From the first joint back to the spool, mm, for the drawing. */
const BACK_MM = 62;
/** Width of the divider's drawing, px. */
const DIVIDER_PX = 300;

export interface ScaleView {
  finger: Finger;
  spool: SpoolSize;
  wiring: FingerWiring;
  /** Voltage at the pin with the finger open and closed, V. */
  endsV: readonly [number, number];
  handScale: number;
  supplyV: number;
  rangeV: readonly [number, number];
}

/**
 * One finger to scale: straight and closed with string, guides and spool, and the divider with its voltages.
 * @param width px; below 600 the divider stands under the finger
 */
export function scaleDrawing(view: ScaleView, width: number, id: string): string {
  const { finger } = view;
  const isSlim = width < 600;
  const pot = finger.potentiometer;
  const ringMm = finger.spoolRadiusMm + 7;
  const isThumb = finger.name === 'thumb';
  const reachMm = fingerLengthMm(finger.name, view.handScale) + (isThumb ? 46.22 * view.handScale : 0);
  const leftMm = BACK_MM + ringMm;
  const fingerPx = isSlim ? width : width - DIVIDER_PX;
  const perMm = (fingerPx - 24) / (leftMm + reachMm + 4);
  const arm = finger.momentArmsMm[0];
  const topPx = 30 + (arm + finger.spoolRadiusMm + ringMm) * perMm;
  const dropMm = Math.max(30, reachMm * 0.66);
  const fingerHeight = topPx + dropMm * perMm + 36;
  const height = isSlim ? fingerHeight + 300 : Math.max(fingerHeight, 330);
  const origin = { x: 12 + leftMm * perMm, y: topPx, perMm };
  const spool = spoolDrawing(
    {
      radiusMm: finger.spoolRadiusMm,
      electricalTravelDeg: pot.electricalTravelDeg,
      mechanicalTravelDeg: pot.mechanicalTravelDeg,
      travelShare: view.spool.worstShare,
    },
    { x: origin.x - BACK_MM * perMm, y: origin.y - (arm + finger.spoolRadiusMm) * perMm },
    perMm,
  );
  const box = isSlim
    ? { left: 8, right: width - 8, top: fingerHeight + 26, bottom: height - 24 }
    : { left: fingerPx + 8, right: width - 8, top: 30, bottom: height - 30 };
  return drawing(
    {
      id,
      title: `The ${finger.name} finger to scale`,
      description: `A full closure draws ${view.spool.strokesMm[0].toFixed(1)} to ${view.spool.strokesMm[1].toFixed(1)} mm of string over a spool of ${finger.spoolRadiusMm} mm radius, at worst ${(100 * view.spool.worstShare).toFixed(0)} % of the potentiometer's travel. The pin is at ${view.endsV[0].toFixed(2)} V open and ${view.endsV[1].toFixed(2)} V closed; straight range ${view.rangeV.join(' to ')} V.`,
      size: { width, height },
      class: 'plot scale',
    },
    [
      ...fingerDrawing(finger, view.handScale, BACK_MM, origin),
      ...spool.parts,
      label(
        origin.x - (BACK_MM - ringMm - 3) * perMm,
        origin.y - (arm + 6) * perMm - 4,
        `string ${finger.stringDiameterMm} mm`,
        {
          class: 'tick',
        },
      ),
      ...scaleBar(12, (isSlim ? fingerHeight : height) - 14, perMm),
      ...dividerDrawing(
        {
          supplyV: view.supplyV,
          topOhm: finger.wiring.topOhm,
          potOhm: pot.resistanceOhm,
          bottomOhm: finger.wiring.bottomOhm,
          endsV: view.endsV,
          cornersV: view.wiring.cornersV,
          rangeV: view.rangeV,
        },
        box,
      ),
    ],
  );
}
