import type { CommandOutcome } from '../../protocol/command-sender.ts';
import { COMMAND_VERSION } from '../../protocol/commands.ts';
import type { SessionEvent, SessionOptions } from './session-types.ts';

type Ask = (code: number, subject: number, index: number, value: number) => Promise<CommandOutcome>;

const LOAD = 'Run "tautline bundle" and "tautline load", or open the rig file that the board was made from.';

/** Asks the board for its program and its build, and tells what is not the rig file's. Asks nothing that nobody expects. */
export async function askWhatRuns(
  wanted: Pick<SessionOptions, 'programId' | 'settingsId'>,
  ask: Ask,
  tell: (kind: SessionEvent['kind'], seen: string, next: string) => void,
): Promise<void> {
  const { programId, settingsId } = wanted;
  try {
    if (programId !== undefined) {
      const { result, answer } = await ask(COMMAND_VERSION, 0, 0, 0);
      if (result < 0) {
        tell(
          'no-reply',
          'Frames come, but the board does not answer.',
          'Calibrating needs it: look whether the console’s port is the one that is open.',
        );
        return;
      }
      if ((answer & 255) !== programId) {
        tell(
          'wrong-program',
          `The board runs program ${answer & 255}, the rig file makes ${programId}.`,
          LOAD,
        );
        return;
      }
    }
    if (settingsId === undefined) return;
    const { result, answer } = await ask(COMMAND_VERSION, 1, 0, 0);
    if (result === 0 && answer !== settingsId >>> 0) {
      tell(
        'wrong-program',
        `The board was made for the build ${answer}, the rig file describes ${settingsId >>> 0}: pins, parts, supply or hand differ.`,
        LOAD,
      );
    }
  } catch {
    // The board went away before it answered; it is asked again when it is back.
  }
}
