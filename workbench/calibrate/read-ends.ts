import type { Ends } from '../../firmware/chain/word-scale.ts';
import type { CommandOutcome } from '../../protocol/command-sender.ts';
import { COMMAND_GET, COMMAND_SET, NUMBER_WORD_GAIN, NUMBER_WORD_OFFSET } from '../../protocol/commands.ts';
import { TautlineError } from '../../sim/errors.ts';
import { FINGER_NAMES, type Rig } from '../../sim/rig/rig.ts';
import { endsOfLiveNumbers } from '../diagnose/board-ends.ts';

/** What it takes to ask a board; a session is one. */
export interface CommandTaker {
  command(code: number, subject: number, index: number, value: number): Promise<CommandOutcome>;
}

/**
 * Ends that the board's words refer to now, in the order of the rig's fingers, as mean readings 0-1.
 * @param rig the build that the board's program was made from, with its settings
 * @throws TautlineError `calibrate/refused` when the board does not tell
 */
export async function readEnds(rig: Rig, board: CommandTaker): Promise<Ends[]> {
  const oversampling = oversamplingOf(rig);
  const ends: Ends[] = [];
  for (const { name } of rig.fingers) {
    const slot = FINGER_NAMES.indexOf(name);
    const gain = await liveNumber(board, slot, NUMBER_WORD_GAIN);
    ends.push(endsOfLiveNumbers(gain, await liveNumber(board, slot, NUMBER_WORD_OFFSET), oversampling));
  }
  return ends;
}

/** @throws TautlineError `calibrate/refused` */
export async function setNumber(
  board: CommandTaker,
  slot: number,
  index: number,
  value: number,
): Promise<void> {
  const { result } = await board.command(COMMAND_SET, slot, index, value);
  if (result !== 0) throw refused('take a number', result);
}

/** @throws TautlineError `calibrate/no-settings` */
export function oversamplingOf(rig: Rig): number {
  if (rig.settings) return rig.settings.oversampling;
  throw new TautlineError('calibrate/no-settings', `${rig.name}: no settings are chosen yet.`, {
    detail: 'The board’s numbers count sums of readings. Run "tautline choose <rig> --write" first.',
  });
}

/**
 * One live number of a finger, all 64 bits of it.
 * @throws TautlineError `calibrate/refused`
 */
export async function liveNumber(board: CommandTaker, slot: number, index: number): Promise<number> {
  const halves = new DataView(new ArrayBuffer(8));
  for (const half of [0, 1]) {
    const { result, answer } = await board.command(COMMAND_GET, slot, index, half);
    if (result !== 0) throw refused('tell its numbers', result);
    halves.setUint32(4 * half, answer, true);
  }
  return halves.getFloat64(0, true);
}

/** The error for a command that was not done. @param what the board was asked to do */
export function refused(what: string, result: number): TautlineError {
  const why = result < 0 ? 'it did not answer' : result === 3 ? 'not now, it says' : `it answered ${result}`;
  return new TautlineError('calibrate/refused', `The board would not ${what}: ${why}.`, {
    detail: 'Let hand frames come for a second (no raw readings), then try again.',
  });
}
