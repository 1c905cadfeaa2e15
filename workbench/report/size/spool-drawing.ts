import { travelVerdict } from '../../../sim/spool/radius.ts';
import { coordinate, element, label } from '../svg.ts';

/** What the drawing of a spool shows. */
export interface SpoolView {
  radiusMm: number;
  electricalTravelDeg: number;
  mechanicalTravelDeg: number;
  /** Share of the electrical travel that the largest hand uses, every part at its worst. */
  travelShare: number;
}

/** More than this cannot be told apart on one turn. */
const MOST_DEG = 330;
/** Between spool and dial, mm. */
const GAP_MM = 4;

/**
 * The spool from the side, to scale, with a dial of the potentiometer round it: its electrical travel, what the
 * largest hand uses of it, the dead ends and the stops. The dial is open at the foot.
 */
export function spoolDrawing(
  view: SpoolView,
  centre: { x: number; y: number },
  perMm: number,
): { parts: string[]; outerPx: number } {
  const radius = view.radiusMm * perMm;
  const dial = radius + GAP_MM * perMm;
  // A potentiometer of several turns is drawn as one turn of the same shares.
  const whole = Math.min(view.mechanicalTravelDeg, MOST_DEG);
  const electrical = (whole * view.electricalTravelDeg) / view.mechanicalTravelDeg;
  const used = electrical * view.travelShare;
  const kind = { ok: 'used', tight: 'used is-tight', 'end stop': 'used is-bad' }[
    travelVerdict(view.travelShare)
  ];
  const parts = [
    element('circle', { cx: centre.x, cy: centre.y, r: radius, class: 'spool' }),
    element('circle', { cx: centre.x, cy: centre.y, r: 3 * perMm, class: 'shaft' }),
    element('path', { d: arc(centre, dial, whole), class: 'dead' }),
    element('path', { d: arc(centre, dial, electrical), class: 'travel' }),
    element('path', { d: arc(centre, dial, Math.min(used, 355)), class: kind }),
    ...[-1, 1].map((side) => {
      const [inner, outer] = [dial - 2.4 * perMm, dial + 2.4 * perMm].map((r) =>
        onDial(centre, r, (side * whole) / 2),
      );
      return element('line', { x1: inner!.x, y1: inner!.y, x2: outer!.x, y2: outer!.y, class: 'stop' });
    }),
    label(
      centre.x,
      centre.y - dial - 2.6 * perMm - 5,
      `${(100 * view.travelShare).toFixed(0)} % of the travel`,
      {
        anchor: 'middle',
        class: 'strong',
      },
    ),
  ];
  return { parts, outerPx: dial + 2.6 * perMm };
}

/** Angle counted clockwise from the top, deg. */
function onDial(centre: { x: number; y: number }, radius: number, deg: number): { x: number; y: number } {
  const rad = (deg * Math.PI) / 180;
  return { x: centre.x + radius * Math.sin(rad), y: centre.y - radius * Math.cos(rad) };
}

/** So many degrees of the dial, half of them on either side of the top. */
function arc(centre: { x: number; y: number }, radius: number, deg: number): string {
  const [from, to] = [onDial(centre, radius, -deg / 2), onDial(centre, radius, deg / 2)];
  const r = coordinate(radius);
  return `M${coordinate(from.x)} ${coordinate(from.y)}A${r} ${r} 0 ${deg > 180 ? 1 : 0} 1 ${coordinate(to.x)} ${coordinate(to.y)}`;
}
