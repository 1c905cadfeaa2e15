import { describe, it } from 'vitest';
import { realClock } from '../../../workbench/live/clock.ts';
import { createPortFinder } from '../../../workbench/live/find-port.ts';
import { createSerialLink } from '../../../workbench/serial/serial-link.ts';
import { HAS_PTY, openPty, PTY_NOTE, type Pty } from '../serial/pty.ts';
import { sessionConformance } from './session-conformance.ts';
import { createStreamingBoard } from './streaming-board.ts';

const waitMs = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

if (HAS_PTY) {
  sessionConformance('a pseudo-terminal', async () => {
    const clock = realClock();
    const board = createStreamingBoard((bytes) => pty?.send(bytes));
    let pty: Pty | undefined;
    /** A board whose port is not open is not heard; what it sends meanwhile must not wait in the terminal. */
    let isOpen = false;
    let timer: NodeJS.Timeout | undefined;
    async function plug(): Promise<void> {
      const made = await openPty();
      if (!made) throw new Error('no pseudo-terminal');
      pty = made;
      made.onData((bytes) => board.receive(bytes));
    }
    await plug();
    const find = () => {
      const path = pty?.path;
      return createPortFinder({
        wanted: path,
        list: async () => ({ ports: [], trouble: '' }),
        exists: () => path !== undefined,
        make(at) {
          const link = createSerialLink(at);
          const open = link.open.bind(link);
          link.open = async (baud, lines) => {
            await open(baud, lines);
            isOpen = true;
          };
          return link;
        },
      })();
    };
    const startS = clock.nowS();
    timer = setInterval(() => {
      if (isOpen) {
        board.isOn = true;
        board.advance(clock.nowS() - startS);
      } else {
        board.isOn = false;
        board.advance(clock.nowS() - startS);
      }
    }, 5);
    return {
      clock,
      framePeriodS: 0.01,
      answers: true,
      isRealTime: true,
      find,
      pass: (seconds) => waitMs(1000 * seconds).then(() => {}),
      pull() {
        isOpen = false;
        const old = pty;
        pty = undefined;
        void old?.destroy();
      },
      plug,
      async tidy() {
        clearInterval(timer);
        await pty?.destroy();
      },
    };
  });
} else {
  describe.skip(`a session over a pseudo-terminal${PTY_NOTE}`, () => {
    it('runs the suite', () => {});
  });
}
