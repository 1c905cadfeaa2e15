import { TautlineError } from '../../../sim/errors.ts';
import { bootError, type Evidence, memoryError, quote } from './load-errors.ts';
import type { RunningWatch } from './running.ts';

export function fullError(name: string, room: number, needed: number): TautlineError {
  return new TautlineError(
    'load/storage-full',
    `The board on ${name} has ${room} bytes of storage left; needed: ${needed}.`,
    {
      detail:
        'Other files fill it. Erase them on the board’s console with require("Storage").eraseAll(), calibration included, then load again. RESET (EN) runs the old program again.',
    },
  );
}

export function damagedError(name: string, seen: unknown[], expected: unknown[]): TautlineError {
  return new TautlineError(
    'load/damaged',
    `What the board on ${name} read back is not what was sent: length and CRC ${seen.join(', ')}; expected ${expected.join(', ')}.`,
    {
      detail:
        'Load again, with --slow if it comes back. The old program was left in place: RESET (EN) runs it again.',
    },
  );
}

export function notRunningError(evidence: Evidence, watch: RunningWatch, rightWords: string): TautlineError {
  const known = memoryError(evidence) ?? bootError(evidence);
  if (known) return known;
  const { port, text } = evidence;
  const ids = watch.programIds();
  if (ids.length > 0) {
    return new TautlineError(
      'load/wrong-program',
      `Frames of program version ${ids.join(' and ')} come from ${port}; expected ${rightWords}.`,
      {
        detail:
          'Program and the JSON beside it do not belong together, or the board runs another start program. Bundle and load again.',
      },
    );
  }
  const frames = watch.frames();
  const seen = frames === 0 ? 'no frame came' : `${frames} frames came, but none that tells the version`;
  return new TautlineError(
    'load/not-running',
    `The program is on the board on ${port} but does not run: ${seen}${quote(text)}.`,
    {
      detail:
        'Is it a program for this board? Its own words, if any, are above; the console shows more after RESET (EN).',
    },
  );
}
