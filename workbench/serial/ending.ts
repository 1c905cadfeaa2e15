import { TautlineError } from '../../sim/errors.ts';

/** Everything that ends a piece of work from outside: an unplugged port, stuck flow control, too much time. */
export interface Ending {
  /** Makes every `until` reject, now and later. The first reason counts. */
  end(reason: unknown): void;
  /** The value of the work, or the reason of the end if that comes first. */
  until<T>(work: Promise<T>): Promise<T>;
}

export function createEnding(): Ending {
  let end: (reason: unknown) => void = () => {};
  const ended = new Promise<never>((_, reject) => {
    end = reject;
  });
  ended.catch(() => {});
  return { end, until: (work) => Promise.race([work, ended]) };
}

/** @returns what to call when the work is done */
export function endAfter(ending: Ending, limitMs: number, name: string, during: () => string): () => void {
  const timer = setTimeout(() => {
    ending.end(
      new TautlineError('port/too-long', `${name}: ${limitMs / 1000} s passed while ${during()}.`, {
        detail: 'Press RESET (EN) on the board and try again; a longer --timeout helps where a line is slow.',
      }),
    );
  }, limitMs);
  return () => clearTimeout(timer);
}
