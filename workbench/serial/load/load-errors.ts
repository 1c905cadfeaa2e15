import type { StreamCounters } from '../../../protocol/reassemble.ts';
import { TautlineError } from '../../../sim/errors.ts';

/** Oldest release whose console takes acknowledged packets (ChangeLog of espruino/Espruino, 2v25). */
export const OLDEST_RELEASE = '2v25';

/** What was heard of a board, to tell why it does not do what it should. */
export interface Evidence {
  port: string;
  baud: number;
  /** Printable text between the frames. */
  text: string;
  counters: StreamCounters;
}

/** A board that did not answer the first question. */
export function silenceError(evidence: Evidence): TautlineError {
  const { port, baud, text, counters } = evidence;
  const known = bootError(evidence);
  if (known) return known;
  const outside = counters.textBytes + counters.garbageBytes;
  if (counters.garbageBytes >= 16 && counters.garbageBytes > 0.3 * outside) {
    return new TautlineError(
      'load/baud',
      `What comes from ${port} is no text at ${baud} baud: ${counters.garbageBytes} of ${outside} bytes are unreadable.`,
      {
        detail:
          'The board talks at another rate. The interpreter’s console uses 115200 unless a program changed it: leave --baud away, or name the rate that the board uses.',
      },
    );
  }
  if (counters.framesGood > 0) {
    return new TautlineError(
      'load/no-console',
      `The board on ${port} sends frames (${counters.framesGood}) but its interpreter does not answer.`,
      {
        detail:
          'Its program moved the console elsewhere, or set a password. Flash the interpreter again to get it back: tautline flash --erase.',
      },
    );
  }
  const heard =
    outside > 0 ? `It sent ${outside} bytes, none of them an answer${quote(text)}.` : 'It sent nothing.';
  return new TautlineError('load/no-interpreter', `No interpreter answers on ${port}. ${heard}`, {
    detail:
      'Check that this is the board’s port (tautline ports) and that its interpreter was flashed (tautline flash). Pressing RESET (EN) may help.',
  });
}

/** Boards that do not come as far as their interpreter. ROM texts as in the chip maker's boot mode documentation. */
export function bootError(evidence: Evidence): TautlineError | undefined {
  const { port, text } = evidence;
  if (/waiting for download/i.test(text)) {
    return new TautlineError(
      'load/flash-mode',
      `The board on ${port} waits for an image instead of running.`,
      {
        detail:
          'Its boot pin was low at reset. Let go of BOOT, disconnect what pulls GPIO 0 (9 on a C3) low, press RESET (EN).',
      },
    );
  }
  const restarts = text.match(/rst:0x[0-9a-f]+/gi)?.length ?? 0;
  if (restarts >= 2 || /brownout/i.test(text)) {
    const count = restarts >= 2 ? `restarted ${restarts} times` : 'was restarted by its brown-out detector';
    return new TautlineError('load/restarts', `The board on ${port} ${count} instead of answering.`, {
      detail: `Its supply breaks down or its program crashes. Disconnect motors and potentiometers, try another cable and a port without hub; if it goes on, erase it: tautline flash --erase.${quote(text)}`,
    });
  }
  return undefined;
}

/** A board that answered before and does not any more. @param what was being done */
export function lostError(evidence: Evidence, what: string, said: string): TautlineError {
  const known = bootError(evidence) ?? memoryError(evidence);
  if (known) return known;
  return new TautlineError(
    'load/bytes-lost',
    `The board on ${evidence.port} answered at first, then not: ${what}. ${said}`,
    {
      detail: `Bytes get lost on the way to it. Try --slow, a shorter cable, a port without hub; releases of the interpreter up to 2v29 lose bytes on an ESP32 (espruino/Espruino#2718), so a newer one may help.${quote(evidence.text)}`,
    },
  );
}

/** The interpreter ran out of variables. */
export function memoryError(evidence: Evidence): TautlineError | undefined {
  if (!/out of memory|\bMEMORY\b/i.test(evidence.text)) return undefined;
  return new TautlineError(
    'load/memory',
    `The interpreter on ${evidence.port} ran out of memory${quote(evidence.text)}.`,
    {
      detail:
        'The program is too large for this board, or one before it left too much behind. Press RESET (EN) and load again; if it comes back, use fewer fingers or less oversampling, or a board with more memory.',
    },
  );
}

/** Too few variables to begin with. */
export function tightError(port: string, free: number, needed: number): TautlineError {
  return new TautlineError(
    'load/memory',
    `The interpreter on ${port} has ${free} variables free; needed to take a program: ${needed}.`,
    { detail: 'What ran before left too much behind. Press RESET (EN) and load again at once.' },
  );
}

/** @param release as the board tells it, for instance 2v29.277 */
export function checkRelease(port: string, release: string): void {
  const [, major, minor] = /^(\d+)v(\d+)/.exec(release) ?? [];
  const number = Number(major) * 1000 + Number(minor);
  if (major !== undefined && number >= 2025) return;
  throw new TautlineError(
    'load/too-old',
    `The interpreter on ${port} is release ${release}; expected ${OLDEST_RELEASE} or newer.`,
    {
      detail:
        'Older ones cannot take acknowledged packets. Flash a newer image: tautline flash --image-dir DIR.',
    },
  );
}

/** The board's own words, cut short, for the end of a sentence. */
export function quote(text: string): string {
  const short = text.replace(/\s+/g, ' ').trim();
  if (short === '') return '';
  return `: it said "${short.length > 160 ? `…${short.slice(-160)}` : short}"`;
}
