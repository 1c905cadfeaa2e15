import type { Unjudged } from './finding.ts';
import type { HandLook } from './look.ts';
import { MOVES } from './movement.ts';

/** Fewest frames of a passage that can be judged: half a second at 100 Hz. Assumed. */
const LEAST_ROWS = 50;

/** What the evidence is too thin for. */
export function unjudgedOf(hand: HandLook): Unjudged[] {
  const { evidence } = hand;
  const all: Unjudged[] = [];
  const tell = (what: string, next: string) => all.push({ what, next });
  if ((evidence.hand.rest?.timesS.length ?? 0) < LEAST_ROWS) {
    tell('Drift and sag: no passage at rest.', 'Record 10 s with the hand relaxed and still.');
  }
  if ((evidence.hand.slow?.timesS.length ?? 0) < LEAST_ROWS) {
    tell(
      'Ends, play, dead ends and direction: no slow passage.',
      'Record two slow closings of all fingers together.',
    );
  } else if (!hand.fingers.some((f) => f.hand.slow!.range.high - f.hand.slow!.range.low > MOVES)) {
    tell(
      'Movement: no finger moved in the slow passage.',
      'Repeat it: close and open all fingers slowly, twice.',
    );
  }
  if ((evidence.hand.flick?.timesS.length ?? 0) < LEAST_ROWS) {
    tell(
      'Order, crosstalk and slipping: no passage of flicks.',
      'Record each finger flicked in turn, thumb first.',
    );
  }
  const held = hand.fingers.filter(({ hand: { slow } }) => slow && (slow.isHeldLow || slow.isHeldHigh));
  if (held.length > 0) {
    tell(
      `Flat ends of ${held.map((f) => f.plan.name).join(', ')}: the travel runs beyond what a frame can hold.`,
      'Capture the ends and record again.',
    );
  }
  const without = hand.fingers.filter((finger) => !finger.rawRest || finger.rawRest.frames < LEAST_ROWS);
  if (without.length > 0) {
    tell(
      `Noise, odd codes, hum and spikes of ${without.map((f) => f.plan.name).join(', ')}: no raw frames at rest.`,
      'Record 4 s of raw frames of each channel: hand frames are smoothed.',
    );
  }
  const unmoved = hand.fingers.filter((finger) => !finger.rawSlow || finger.rawSlow.frames < LEAST_ROWS);
  if (unmoved.length > 0) {
    tell(
      `Dirt on the track of ${unmoved.map((f) => f.plan.name).join(', ')}: no raw frames of a slow movement.`,
      'Record raw frames of each channel while the finger closes and opens slowly.',
    );
  }
  return all;
}
