import { boardFacts } from '../../../firmware/boards/boards.ts';
import { nominalVolts } from '../../../sim/board/nominal-readings.ts';
import type { Finger, Rig } from '../../../sim/rig/rig.ts';
import type { RigSize } from '../../../sim/sizing/size-rig.ts';
import { escapeHtml } from '../escape.ts';
import { section } from '../html.ts';
import { scaleDrawing } from './scale-drawing.ts';

const WIDE = 910;
const SLIM = 340;

/** A drawing to scale of each build that the hand has; fingers that are built alike share one. */
export function drawingSection(rig: Rig, size: Pick<RigSize, 'strings' | 'wiring'>): string {
  const [low, high] = boardFacts(rig.board).adcRangeMv;
  const figures = alike(rig.fingers).map((fingers, index) => {
    const [finger] = fingers;
    const { spool } = size.strings.fingers.find((one) => one.name === finger!.name)!;
    const wiring = size.wiring.fingers.find((one) => one.name === finger!.name)!;
    const { openV, closedV } = nominalVolts(rig, finger!);
    const view = {
      finger: finger!,
      spool,
      wiring,
      endsV: [openV, closedV] as const,
      handScale: rig.hand.scale,
      supplyV: rig.supply.volts,
      rangeV: [low / 1000, high / 1000] as const,
    };
    const names = fingers.map(({ name }) => name).join(', ');
    const caption = `${names[0]!.toUpperCase()}${names.slice(1)}: straight (faint) and closed, joints, guides and string to scale for a hand of size ${rig.hand.scale}; a full closure of the hands asked for draws ${spool.strokesMm[0].toFixed(1)} to ${spool.strokesMm[1].toFixed(1)} mm. The dial is the potentiometer: dark what the largest hand uses of it, thin the rest, ticks the end stops. On the right heights are volts: the resistors, the range in which the ${rig.board} reads straight, the worst corners (line) and the pin's way from open to closed (bar).`;
    return `<figure><div class="wide">${scaleDrawing(view, WIDE, `scale-${index}-wide`)}</div><div class="slim">${scaleDrawing(view, SLIM, `scale-${index}-slim`)}</div><figcaption>${escapeHtml(caption)}</figcaption></figure>`;
  });
  return section('drawing', 'To scale', ...figures);
}

/** Fingers in groups of the same build. */
function alike(fingers: readonly Finger[]): Finger[][] {
  const groups = new Map<string, Finger[]>();
  for (const finger of fingers) {
    const { name, pin: _, channel: __, ...build } = finger;
    const key = JSON.stringify([name === 'thumb', build]);
    const group = groups.get(key);
    if (group) group.push(finger);
    else groups.set(key, [finger]);
  }
  return [...groups.values()];
}
