import type { Settings } from '../../firmware/chain/settings.ts';
import { wordGain, wordOffset } from '../../firmware/chain/word-scale.ts';
import {
  NUMBER_BAND_SQUARED,
  NUMBER_BASE,
  NUMBER_GAIN,
  NUMBER_HALF,
  NUMBER_LIMIT,
  NUMBER_RISE,
  NUMBER_WORD_GAIN,
  NUMBER_WORD_OFFSET,
} from '../../protocol/commands.ts';
import { nominalEnds } from '../../sim/board/nominal-readings.ts';
import { FINGER_NAMES, type Rig } from '../../sim/rig/rig.ts';
import { type CommandTaker, oversamplingOf, setNumber } from './read-ends.ts';

/** Time constant of the low-pass during a capture, s: as slow as a hand that has to get there allows. Assumed. */
const SLOW_S = 0.2;
/** Largest step to a new reading where the chain limits it, share of the planned travel. Assumed. */
const LIMIT = 0.15;

/**
 * Makes a board's chain fit for a capture. Its words stand for the whole range of readings (travel 0 is a reading of 0,
 * travel 1 one of 1), so that none is at its limit however far off the ends are that the board has. Its low-pass is slow,
 * so that a wrong reading hardly moves the level that may become an end, and nothing keeps a level from where it
 * belongs. All of it lasts until the board starts anew.
 * @throws TautlineError `calibrate/refused`
 */
export async function calmChain(rig: Rig, board: CommandTaker): Promise<void> {
  const oversampling = oversamplingOf(rig);
  for (const finger of rig.fingers) {
    const { open, closed } = nominalEnds(rig, finger);
    const numbers: [index: number, value: number][] = [
      [NUMBER_WORD_GAIN, wordGain(0, 1, oversampling)],
      [NUMBER_WORD_OFFSET, wordOffset(0, 1)],
      ...stages(rig.settings!, 1 / rig.frameRateHz, Math.abs(closed - open) * oversampling),
    ];
    for (const [index, value] of numbers)
      await setNumber(board, FINGER_NAMES.indexOf(finger.name), index, value);
  }
}

/** Numbers of the stages that a chain has. @param span planned travel in sums of readings */
function stages(settings: Settings, periodS: number, span: number): [index: number, value: number][] {
  const { despike, lowPass, hysteresis } = settings;
  const base = 1 + periodS / SLOW_S;
  const numbers: [number, number][] = [];
  if (despike.kind === 'clip') numbers.push([NUMBER_LIMIT, LIMIT * span]);
  if (lowPass.kind === 'exponential') numbers.push([NUMBER_GAIN, 1 - 1 / base]);
  else if (lowPass.kind !== 'none') numbers.push([NUMBER_BASE, base], [NUMBER_RISE, 0]);
  if (hysteresis.kind === 'still' || 'stillPct' in hysteresis) numbers.push([NUMBER_BAND_SQUARED, 0]);
  if (hysteresis.kind === 'drag' || hysteresis.kind === 'step') numbers.push([NUMBER_HALF, 0]);
  return numbers;
}
