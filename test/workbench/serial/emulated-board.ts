import vm from 'node:vm';
import { crc32Of } from '../../../protocol/crc32.ts';
import type { FarEnd, Plug } from '../../../workbench/serial/memory-link.ts';

/**
 * A stand-in for a board with the interpreter's console, written from the public description of its protocol
 * (README_Protocol.md of espruino/Espruino) and from what the interpreter's Linux build was seen to answer: prompt and
 * echo, lines without echo after 0x10, packets with acknowledgement, storage, load(). Programs run in a Node context
 * with the few natives that the tests' programs use. Not modelled: time per statement, memory, the interpreter's
 * deviations from JavaScript.
 */
export interface Faults {
  /** Takes so many bytes of the host, then loses all that follow. */
  bytesTaken?: number;
  /** Loses this byte of the host (counted from 1), once. */
  losesByte?: number;
  /** Sends XOFF after so many bytes of the host, and never XON. */
  xoffAfterBytes?: number;
  /**
   * Sends XOFF after so many bytes, and XON after this many ms; then again. Of what comes in between it keeps 40
   * bytes, the rest is lost.
   */
  xoffForMs?: { afterBytes: number; ms: number };
  /** load() does nothing. */
  startsNothing?: true;
  /** Restarts when opened: prints boot text and hears nothing for this many ms; `forever` does so again and again. */
  restartMs?: number;
  restartsForever?: true;
  /** Prints this on opening, before anything else. */
  onOpen?: Uint8Array;
  /** Talks at another rate: all that it hears and sends is unreadable. */
  foreignBaud?: true;
  /** Never answers. */
  silent?: true;
  release?: string;
  freeVariables?: number;
  /** One byte of a stored file comes out wrong. */
  damagesFiles?: true;
  /** Pulls the cable when so many bytes of the host have come. */
  pullAfterBytes?: number;
}

export interface EmulatedBoard extends FarEnd {
  storage: Map<string, string>;
  /** Bytes of the host so far. */
  heard(): number;
  /** Every byte of the host. */
  bytes(): number[];
  /** Ends timers. */
  stop(): void;
  /** Runs a program as if it had been there before. */
  run(code: string): void;
}

const ROM_TEXT =
  'ets Jul 29 2019 12:21:46\r\n\r\nrst:0x1 (POWERON_RESET),boot:0x13 (SPI_FAST_FLASH_BOOT)\r\n';
const ACK = '\x06';
const NAK = '\x15';

export function createEmulatedBoard(plug: Pick<Plug, 'send' | 'pull'>, faults: Faults = {}): EmulatedBoard {
  const storage = new Map<string, string>();
  /** Of the program. */
  const timers = new Set<NodeJS.Timeout>();
  /** Of the board itself. */
  const own = new Set<NodeJS.Timeout>();
  const all: number[] = [];
  let heard = 0;
  let heardSinceXoff = 0;
  let deafUntilMs = 0;
  let echo = true;
  let quietLine = false;
  let line = '';
  let packet: number[] | undefined;
  let dle = false;
  let file: { fn: string; s: number } | undefined;
  let wasOpened = false;

  const send = (text: string): void => {
    const bytes = Buffer.from(text, 'latin1');
    plug.send(faults.foreignBaud ? bytes.map((byte) => (byte * 37) | 0x80) : bytes);
  };

  function clearTimers(): void {
    for (const timer of timers) clearInterval(timer);
    timers.clear();
  }

  function stopAll(): void {
    clearTimers();
    for (const timer of own) clearTimeout(timer);
    own.clear();
  }

  let context = makeContext();
  function makeContext(): vm.Context {
    return vm.createContext({
      process: {
        env: { VERSION: faults.release ?? '2v29.277', BOARD: 'EMULATED' },
        memory: () => ({ free: faults.freeVariables ?? 4000 }),
      },
      require: () => ({
        read: (name: string) => {
          const text = storage.get(name);
          return faults.damagesFiles && name.startsWith('taut.') && text ? `${text.slice(0, -1)}?` : text;
        },
        write: (name: string, text: string) => {
          storage.set(name, text);
          return true;
        },
        erase: (name: string) => void storage.delete(name),
        getFree: () => 900_000,
      }),
      E: { CRC32: (text: string) => crc32Of(Buffer.from(text, 'latin1'), 0, text.length) >>> 0 },
      Serial1: { write: (bytes: Uint8Array) => plug.send(Uint8Array.from(bytes)) },
      print: (...words: unknown[]) => send(`${words.map(String).join(' ')}\r\n`),
      echo: (on: unknown) => {
        echo = Boolean(on);
      },
      setInterval: (task: () => void, ms: number) => {
        const timer = setInterval(task, ms);
        timers.add(timer);
      },
      clearInterval: clearTimers,
      clearWatch: () => {},
      load: () => {
        if (!faults.startsNothing) own.add(setTimeout(start, 20));
      },
    });
  }

  function start(): void {
    clearTimers();
    context = makeContext();
    const code = storage.get('.bootcde');
    if (code !== undefined) run(code);
  }

  function run(code: string): void {
    try {
      vm.runInContext(code, context);
    } catch (error) {
      send(`Uncaught ${String(error)}\r\n at line 1 col 1\r\n`);
    }
  }

  function answer(value: unknown): void {
    const text = JSON.stringify(value ?? null);
    send(`\x10\x01${String.fromCharCode(text.length >> 8, text.length & 255)}${text}`);
  }

  function takePacket(kind: number, body: string): void {
    if (kind === 0x2000) {
      try {
        const value = vm.runInContext(body, context);
        send(ACK);
        answer(value);
      } catch (error) {
        send(`${NAK}Uncaught ${String(error)}\r\n`);
      }
    } else if (kind === 0x6000) {
      try {
        file = JSON.parse(body);
      } catch {
        file = undefined;
      }
      if (file) storage.set(file.fn, '');
      send(file?.s ? ACK : NAK);
    } else if (kind === 0x8000 && file) {
      storage.set(file.fn, (storage.get(file.fn) ?? '') + body);
      if ((storage.get(file.fn) ?? '').length >= file.s) file = undefined;
      send(ACK);
    } else send(NAK);
  }

  function takeByte(byte: number): void {
    const char = String.fromCharCode(byte);
    if (packet) {
      packet.push(byte);
      if (packet.length < 2) return;
      const flags = ((packet[0] as number) << 8) | (packet[1] as number);
      if (packet.length < 2 + (flags & 0x1fff)) return;
      const body = Buffer.from(packet.slice(2)).toString('latin1');
      packet = undefined;
      takePacket(flags & 0xe000, body);
    } else if (byte === 0x10) {
      dle = true;
      if (line === '') quietLine = true;
    } else if (byte === 0x01 && dle) {
      dle = false;
      quietLine = false;
      packet = [];
    } else if (byte === 0x0a || byte === 0x0d) {
      const text = line;
      line = '';
      if (echo && !quietLine) send('\r\n');
      if (text !== '') run(text);
      if (echo) send('>');
      quietLine = false;
      dle = false;
    } else {
      line += char;
      dle = false;
      if (echo && !quietLine) send(char);
    }
  }

  function boot(): void {
    send(ROM_TEXT);
    if (faults.restartsForever) own.add(setTimeout(boot, faults.restartMs ?? 100));
    else own.add(setTimeout(() => run(storage.get('.bootcde') ?? 'print("ready")'), faults.restartMs ?? 0));
  }

  return {
    storage,
    heard: () => heard,
    bytes: () => all,
    stop: stopAll,
    run,
    lines() {
      if (wasOpened) return;
      wasOpened = true;
      if (faults.onOpen) plug.send(faults.onOpen);
      if (faults.restartMs !== undefined) {
        deafUntilMs = faults.restartsForever
          ? Number.POSITIVE_INFINITY
          : performance.now() + faults.restartMs;
        boot();
      }
      if (faults.foreignBaud) send(ROM_TEXT);
    },
    receive(bytes) {
      for (const byte of bytes) {
        heard++;
        all.push(byte);
        heardSinceXoff++;
        if (heard === faults.pullAfterBytes) plug.pull();
        if (performance.now() < deafUntilMs || faults.silent) continue;
        if (heard > (faults.bytesTaken ?? Number.POSITIVE_INFINITY)) continue;
        if (heard === faults.losesByte) continue;
        if (heard === faults.xoffAfterBytes) send('\x13');
        if (faults.xoffForMs && heardSinceXoff === faults.xoffForMs.afterBytes) {
          send('\x13');
          own.add(
            setTimeout(() => {
              heardSinceXoff = 0;
              send('\x11');
            }, faults.xoffForMs.ms),
          );
        }
        if (faults.xoffForMs && heardSinceXoff > faults.xoffForMs.afterBytes + 40) continue;
        if (faults.foreignBaud) {
          send('?');
          continue;
        }
        takeByte(byte);
      }
    },
    closed: stopAll,
  };
}
