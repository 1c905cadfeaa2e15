import { TautlineError } from '../../sim/errors.ts';
import type { Link, LinkEnd } from '../serial/link.ts';

/** Whether this browser talks to serial ports by itself. */
export function hasWebSerial(): boolean {
  return 'serial' in navigator;
}

/** A port that the user picked in the browser, without any server between. */
export function createWebSerialLink(port: SerialPort): Link {
  let hearData: ((bytes: Uint8Array) => void) | undefined;
  const hearEnd: ((end: LinkEnd) => void)[] = [];
  let ended: LinkEnd | undefined;
  let reader: ReadableStreamDefaultReader<Uint8Array> | undefined;
  let pump: Promise<void> | undefined;

  function end(how: LinkEnd): void {
    if (ended) return;
    ended = how;
    for (const listener of hearEnd.splice(0)) listener(how);
  }

  async function read(): Promise<void> {
    while (port.readable && !ended) {
      reader = port.readable.getReader();
      try {
        for (;;) {
          const { value, done } = await reader.read();
          if (done) return;
          hearData?.(value);
        }
      } catch (error) {
        // A framing error ends the stream, not the port: the loop takes the next one.
        if (!port.readable) end({ reason: 'gone', detail: String(error) });
      } finally {
        reader.releaseLock();
      }
    }
  }

  return {
    name: 'port of the browser',
    async open(baud, lines) {
      try {
        await port.open({ baudRate: baud, bufferSize: 65_536 });
        await port.setSignals({ dataTerminalReady: lines.dtr, requestToSend: lines.rts });
      } catch (error) {
        throw new TautlineError('port/busy', 'The browser could not open the port.', {
          detail: `Close other programs and pages that use it, then pick it again. (${String(error)})`,
        });
      }
      port.addEventListener('disconnect', () => end({ reason: 'gone', detail: '' }));
      pump = read();
    },
    async write(bytes) {
      const writer = port.writable?.getWriter();
      if (!writer) return;
      try {
        await writer.write(Uint8Array.from(bytes));
      } finally {
        writer.releaseLock();
      }
    },
    async setLines(lines) {
      await port.setSignals({
        ...(lines.dtr !== undefined && { dataTerminalReady: lines.dtr }),
        ...(lines.rts !== undefined && { requestToSend: lines.rts }),
      });
      return true;
    },
    async setBaud() {
      throw new TautlineError('port/baud', 'A browser cannot change the rate of an open port.', {
        detail: 'Close it and open it anew.',
      });
    },
    onData(listener) {
      hearData = listener;
    },
    onEnd(listener) {
      if (ended) listener(ended);
      else hearEnd.push(listener);
    },
    async close() {
      end({ reason: 'closed', detail: '' });
      await reader?.cancel().catch(() => {});
      await pump?.catch(() => {});
      await port.close().catch(() => {});
    },
  };
}
