import {
  type CommandOutcome,
  type CommandSender,
  createCommandSender,
} from '../../protocol/command-sender.ts';
import { TAG_MAX } from '../../protocol/commands.ts';
import type { Frame } from '../../protocol/frame.ts';
import { TautlineError } from '../../sim/errors.ts';

/** A reply comes within a few frames; a board that stores takes longer. */
const PATIENCE_S = 0.5;
const TRIES = 4;
/** Commands that may wait. */
const MOST_WAITING = 64;

interface Waiting {
  order: [code: number, subject: number, index: number, value: number];
  resolve: (outcome: CommandOutcome) => void;
  reject: (error: Error) => void;
}

/** Commands, one after the other. */
export interface CommandQueue {
  add(code: number, subject: number, index: number, value: number): Promise<CommandOutcome>;
  frame(frame: Frame): void;
  tick(nowS: number): void;
  /** The port is gone: nothing that waits, or was sent and not answered, will be done any more. */
  drop(): void;
}

export function createCommandQueue(firstTag: number, write: (packet: Uint8Array) => void): CommandQueue {
  let waiting: Waiting[] = [];
  let current: Waiting | undefined;
  let nextTag = firstTag;
  let sender = newSender();

  function newSender(): CommandSender {
    return createCommandSender(nextTag, PATIENCE_S, TRIES, write, (outcome) => {
      const done = current;
      current = undefined;
      done?.resolve(outcome);
    });
  }

  return {
    add(...order) {
      if (waiting.length >= MOST_WAITING) {
        const error = new TautlineError(
          'live/too-many',
          `${MOST_WAITING} commands wait for the board already.`,
          {
            detail: 'It does not answer. Look whether its program runs, then try again.',
          },
        );
        return Promise.reject(error);
      }
      return new Promise((resolve, reject) => void waiting.push({ order, resolve, reject }));
    },
    frame: (frame) => sender.frame(frame),
    tick(nowS) {
      sender.tick(nowS);
      if (sender.isWaiting() || current) return;
      current = waiting.shift();
      if (!current) return;
      try {
        const tag = sender.send(...current.order, nowS);
        nextTag = tag === TAG_MAX ? 0 : tag + 1;
      } catch (error) {
        // A field that no command can have: this one alone is refused.
        const refused = current;
        current = undefined;
        refused.reject(error instanceof Error ? error : new Error(String(error)));
      }
    },
    drop() {
      const error = new TautlineError('live/gone', 'The board went away before it answered.', {
        detail: 'Whether the command was done is not known. Try again once frames come.',
      });
      const all = current ? [current, ...waiting] : waiting;
      waiting = [];
      current = undefined;
      sender = newSender();
      for (const one of all) one.reject(error);
    },
  };
}
