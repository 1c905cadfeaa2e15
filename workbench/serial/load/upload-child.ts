/**
 * Runs the interpreter's own upload tools (npm `espruino`) in a process of its own: they define globals, patch
 * built-ins and print a lot. The port stays with the parent, which hands bytes in and out; ending this process at
 * any time is safe.
 */
import { createRequire } from 'node:module';
import type { FromUpload, ToUpload } from './upload-messages.ts';

interface Connection {
  espruinoSendFile(
    name: string,
    data: string,
    options: { chunkSize: number; progress(done: number, total: number): void },
  ): Promise<unknown>;
  espruinoEval(text: string, options: { timeout: number }): Promise<unknown>;
}

interface Device {
  name: string;
  init(): void;
  getPorts(callback: (ports: { path: string }[], instant: boolean) => void): void;
  open(
    path: string,
    opened: (info: object | undefined) => void,
    received: (bytes: ArrayBuffer) => void,
    closed: () => void,
  ): void;
  write(data: string, written: () => void): void;
  close(): void;
}

interface Tools {
  Config: { [name: string]: unknown };
  callProcessor(name: string, data: unknown, callback: (data: unknown) => void): void;
  Core: {
    Serial: {
      devices: Device[];
      connection: Connection;
      open(path: string, connected: (info: unknown) => void, disconnected: () => void): void;
      setSlowWrite(on: boolean, force: boolean): void;
    };
  };
}

const PORT = 'tautline';
/** The tools count this much for the announcement of a file, before its bytes. */
const ANNOUNCED = 100;

const require = createRequire(import.meta.url);
let receive: (bytes: ArrayBuffer) => void = () => {};
const waiting = new Map<number, () => void>();
let writes = 0;

function tell(message: FromUpload): void {
  // The parent may have gone first; then there is nobody to tell.
  if (process.connected) process.send?.(message);
}

const device: Device = {
  name: PORT,
  init() {},
  getPorts: (callback) => callback([{ path: PORT }], true),
  open(_path, opened, received) {
    receive = received;
    opened({ portName: PORT });
  },
  write(data, written) {
    writes++;
    waiting.set(writes, written);
    tell({ kind: 'write', number: writes, bytes: Buffer.from(data, 'latin1') });
  },
  close() {},
};

async function run(tools: Tools, message: ToUpload): Promise<void> {
  const { connection } = tools.Core.Serial;
  if (message.kind === 'received') {
    receive(Uint8Array.from(message.bytes).buffer);
  } else if (message.kind === 'written') {
    waiting.get(message.number)?.();
    waiting.delete(message.number);
  } else {
    const { number } = message;
    try {
      const value =
        message.kind === 'evaluate'
          ? await connection.espruinoEval(message.text, { timeout: message.limitMs })
          : await connection.espruinoSendFile(message.name, message.data, {
              chunkSize: message.packetBytes,
              progress: (done) =>
                tell({
                  kind: 'progress',
                  doneBytes: Math.min(message.data.length, Math.max(0, done - ANNOUNCED)),
                }),
            });
      tell({ kind: 'done', number, value: JSON.stringify(value ?? null) });
    } catch (error) {
      tell({ kind: 'failed', number, reason: error instanceof Error ? error.message : String(error) });
    }
  }
}

require('espruino').init(() => {
  const tools = (globalThis as unknown as { Espruino: Tools }).Espruino;
  Object.assign(tools.Config, {
    BLUETOOTH_LOW_ENERGY: false,
    BLUETOOTH_LOW_ENERGY_DBUS: false,
    WEB_BLUETOOTH: false,
    BAUD_RATE: 115200,
    BOARD_JSON_URL: '',
    MODULE_URL: '',
    SERIAL_IGNORE: '',
  });
  const { Serial } = tools.Core;
  // On connecting the tools would ask the board by Ctrl-C (0x03) and wait 3.4 s; it has been asked already.
  const { callProcessor } = tools;
  tools.callProcessor = (name, data, callback) =>
    name === 'connected' ? callback(data) : callProcessor(name, data, callback);
  // No other device, so that nothing looks for ports or radios.
  Serial.devices.length = 0;
  Serial.devices.push(device);
  process.on('message', (message: ToUpload) => void run(tools, message));
  process.on('disconnect', () => process.exit(0));
  Serial.open(
    PORT,
    (info) =>
      tell(info ? { kind: 'ready' } : { kind: 'failed', number: 0, reason: 'the tools did not connect' }),
    () => {},
  );
});
