import { existsSync } from 'node:fs';
import { SerialPort } from 'serialport';
import type { Link, LinkEnd } from './link.ts';
import { endError, openError } from './port-errors.ts';

/** How often to look whether the port is still there, ms: some drivers do not tell (serialport/node-serialport#2351). */
const WATCH_MS = 200;
/** A driver that does not close within this time is left to the end of the process, ms. */
const CLOSE_LIMIT_MS = 2000;

/**
 * A port of the operating system. Only for a process's main thread: the driver ends the process when it is used in a
 * worker (seen with serialport 13.0.0).
 * @param path as the system names it: /dev/ttyUSB0, COM3
 */
export function createSerialLink(path: string): Link {
  let port: SerialPort | undefined;
  let watch: NodeJS.Timeout | undefined;
  let ended: LinkEnd | undefined;
  let hearData: ((bytes: Uint8Array) => void) | undefined;
  const hearEnd: ((end: LinkEnd) => void)[] = [];

  function end(reason: LinkEnd['reason'], detail = ''): void {
    if (ended) return;
    ended = { reason, detail };
    clearInterval(watch);
    for (const listener of hearEnd.splice(0)) listener(ended);
  }

  function lost(error: Error): void {
    const away = /EIO|ENXIO|ENODEV|EBADF|device not configured|no such device|disconnected|closing/i;
    end(away.test(error.message) || !existsSync(path) ? 'gone' : 'failed', error.message);
  }

  function opened(): SerialPort {
    if (ended || !port) {
      throw endError(
        path,
        ended ?? { reason: 'failed', detail: 'not open' },
        'it was in use',
        'Plug it in again.',
      );
    }
    return port;
  }

  return {
    name: path,
    async open(baud, lines) {
      // Without hupcl the lines stay as they are when the port closes: closing does not reset the board.
      const made = new SerialPort({ path, baudRate: baud, autoOpen: false, hupcl: false, lock: true });
      await new Promise<void>((resolve, reject) =>
        made.open((error) => (error ? reject(openError(path, error)) : resolve())),
      );
      port = made;
      made.on('data', (bytes: Uint8Array) => hearData?.(bytes));
      made.on('error', lost);
      made.on('close', (error?: Error | null) => (error ? lost(error) : end('closed')));
      if (existsSync(path)) {
        watch = setInterval(() => {
          if (!existsSync(path)) end('gone');
        }, WATCH_MS);
        watch.unref();
      }
      await this.setLines(lines);
    },
    async write(bytes) {
      const target = opened();
      await new Promise<void>((resolve, reject) => {
        target.write(Buffer.from(bytes), (error) => {
          if (!error) resolve();
          else {
            lost(error);
            reject(endError(path, ended ?? { reason: 'failed', detail: error.message }, 'writing', ''));
          }
        });
      });
    },
    async setLines(lines) {
      const target = opened();
      return new Promise((resolve) => target.set(lines, (error) => resolve(!error)));
    },
    async setBaud(baud) {
      const target = opened();
      await new Promise<void>((resolve, reject) =>
        target.update({ baudRate: baud }, (error) => (error ? reject(openError(path, error)) : resolve())),
      );
    },
    onData(listener) {
      hearData = listener;
    },
    onEnd(listener) {
      if (ended) listener(ended);
      else hearEnd.push(listener);
    },
    async close() {
      end('closed');
      const target = port;
      port = undefined;
      hearData = undefined;
      if (!target?.isOpen) return;
      let timer: NodeJS.Timeout | undefined;
      await Promise.race([
        new Promise<void>((resolve) => target.close(() => resolve())),
        new Promise<void>((resolve) => {
          timer = setTimeout(resolve, CLOSE_LIMIT_MS);
        }),
      ]);
      clearTimeout(timer);
    },
  };
}
