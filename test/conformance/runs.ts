/** One case run three ways. Each gives its frames and, now and then, the numbers that it remembers. */
import { createContext, runInContext } from 'node:vm';
import type { Program } from '../../firmware/main/program.ts';
import { textCrc32 } from '../../protocol/command-packet.ts';
import { crc32 } from '../../protocol/crc32.ts';
import { type HostProgram, startHostProgram } from '../../sim/board/host-program.ts';
import type { BoardText } from '../../workbench/bundle/make-program.ts';
import { runOnInterpreter } from '../interpreter.ts';
import type { Case } from './plans.ts';
import { WORLD, type World } from './world.ts';

export interface Outcome {
  /** Frames as hexadecimal, in order. */
  frames: string[];
  /** Every so many steps: bytes of all remembered doubles, as hexadecimal, in the order of `slotHints`. */
  states: string[];
  /** Files at the end: name and bytes as hexadecimal. */
  files: string[];
  /** Readings taken. */
  reads: number;
}

/** Steps from one look at the state to the next. */
const LOOK = 50;

/** Numbers that the program remembers, in a fixed order. */
export function slotHints(text: BoardText): string[] {
  return Object.keys(text.slots).sort();
}

const makeWorld = new Function(`${WORLD}; return makeWorld`)() as (spec: Case['world']) => World;

function hexOf(bytes: Uint8Array): string {
  return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString('hex');
}

function bytesOf(numbers: number[]): string {
  return hexOf(new Uint8Array(Float64Array.from(numbers).buffer));
}

/** The value that a hint stands for, in the host's objects. */
function hintValue(program: Program, hint: string): number {
  const [owner, key] = hint.split('.') as [string, string | undefined];
  if (key === undefined) return program.buttons.counts[Number(owner.slice('button'.length))]!;
  const at = owner.startsWith('finger') ? Number(owner.slice('finger'.length)) : 0;
  const owners: { [owner: string]: object } = { run: program.run, buttons: program.buttons };
  const all = owners[owner] ?? { ...program.constants[at], ...program.fingers[at] };
  const value = (all as { [key: string]: number | boolean })[key];
  if (value === undefined) throw new Error(`the host's program has no ${hint}`);
  return Number(value);
}

/** (a) The functions as they are. */
export function runHost(one: Case, steps: number, hints: string[]): Outcome {
  const world = makeWorld(one.world);
  const out: Outcome = { frames: [], states: [], files: [], reads: 0 };
  let isTicking = false;
  let isReloading = false;
  let host: HostProgram;
  const start = () => {
    isTicking = false;
    isReloading = false;
    host = startHostProgram(one.plan, {
      analogRead: world.analogRead,
      digitalRead: world.digitalRead,
      digitalWrite: world.digitalWrite,
      getTime: world.getTime,
      write(frame) {
        world.sending();
        out.frames.push(hexOf(frame));
      },
      storage: world.storage,
      programCrc: () => 0,
      setTicking(on) {
        isTicking = on;
      },
      reload() {
        isReloading = true;
      },
    });
    return host;
  };
  host = start();
  for (let step = 0; step < steps; step++) {
    const packet = world.advance(step);
    if (packet !== undefined) host.packet(packet);
    if (isTicking) host.tick();
    if (step % LOOK === LOOK - 1)
      out.states.push(bytesOf(hints.map((hint) => hintValue(host.program, hint))));
    if (isReloading) start();
  }
  out.files = world.files().map(({ name, bytes }) => `${name} ${hexOf(bytes)}`);
  out.reads = world.reads();
  return out;
}

/** What the interpreter has and the sandbox lacks, in the sandbox's own terms. */
const SHIMS = `
var global = globalThis;
var E = {
  sum: function (a) { var s = 0; for (var i = 0; i < a.length; i++) s += a[i]; return s; },
  mapInPlace: function (from, to, f) { for (var i = 0; i < from.length; i++) to[i] = f(from[i]); },
  CRC32: function (x) { return typeof x === "string" ? textCrc(x) : bytesCrc(x); }
};
`;
/** The same for both runs of the text: line, timer, packets, start. `emit`, `look` and `PROGRAM` come from outside. */
const AROUND = `
var LINE = { write: function (u) { WORLD.sending(); emit(u); }, setup: function (baud, pins) { SETUP.push("setup " + baud + " " + pins.tx); } };
var SETUP = [], TIMER = 0, PACKETS = 0, LATER = 0, IS_RELOADING = false;
var Serial2 = LINE, ESP32 = { setAtten: function (pin, mv) { SETUP.push("setAtten " + pin + " " + mv); } };
E.getConsole = function () { return CONSOLE; };
E.on = function (name, f) { if (name === "packet") PACKETS = f; };
E.enableWatchdog = function (s) { SETUP.push("watchdog " + s); };
function setInterval(f, ms) { SETUP.push("every " + Math.round(ms * 1000) + " us"); TIMER = f; return 1; }
function clearInterval() { TIMER = 0; }
function setTimeout(f) { LATER = f; }
function pinMode(pin, mode) { SETUP.push("pinMode " + pin + " " + mode); }
function echo(on) { SETUP.push("echo " + on); }
function load() { IS_RELOADING = true; }
var WORLD = makeWorld(SPEC);
function analogRead(pin) { return WORLD.analogRead(pin); }
function digitalRead(pins) { return WORLD.digitalRead(pins); }
function digitalWrite(pins, value) { WORLD.digitalWrite(pins, value); }
function getTime() { return WORLD.getTime(); }
function require() { return WORLD.storage; }
function STEP(n) {
  var t = WORLD.advance(n);
  if (t !== undefined) PACKETS({ t: t });
  if (TIMER) TIMER();
  if (n % ${LOOK} === ${LOOK - 1}) look();
  if (LATER) { LATER(); LATER = 0; }
  if (!IS_RELOADING) return false;
  IS_RELOADING = false;
  TIMER = 0;
  return true;
}
`;

/** One expression that is a list of all remembered numbers. */
function numbersText(text: BoardText, hints: string[]): string {
  return `[${hints.map((hint) => `+${text.slots[hint]}`).join(',')}]`;
}

/**
 * (b) The program's text in a script sandbox.
 * @param program another text than the one that was made
 * @param more is run after what stands in for the interpreter
 */
export function runSandbox(
  one: Case,
  text: BoardText,
  steps: number,
  hints: string[],
  program = text.text,
  more = '',
): Outcome & { setUp: string[] } {
  const out: Outcome = { frames: [], states: [], files: [], reads: 0 };
  const context = createContext({
    emit: (u: Uint8Array) => out.frames.push(hexOf(u)),
    textCrc: textCrc32,
    bytesCrc: crc32,
    SPEC: structuredClone(one.world),
    CONSOLE: 'LINE',
  });
  const run = (code: string) => runInContext(code, context) as unknown;
  run(SHIMS);
  run(WORLD);
  run(AROUND);
  if (more !== '') run(more);
  run(program);
  run(`function NUMBERS() { return ${numbersText(text, hints)}; }`);
  const numbers = run('NUMBERS') as () => number[];
  Object.assign(context, { look: () => out.states.push(bytesOf([...numbers()])) });
  const step = run('STEP') as (n: number) => boolean;
  for (let n = 0; n < steps; n++) if (step(n)) run(program);
  const world = run('WORLD') as World;
  out.files = world.files().map(({ name, bytes }) => `${name} ${hexOf(bytes)}`);
  out.reads = world.reads();
  return { ...out, setUp: [...(run('SETUP') as string[])] };
}

/** Its Linux build now and then ends by an assertion of its own. */
const TRIES = 3;
/** Two to six seconds for a thousand steps on a machine that does nothing else. */
const LIMIT_MS = 90_000;

/** (c) The program's text on the interpreter. */
export function runInterpreter(
  one: Case,
  text: BoardText,
  steps: number,
  hints: string[],
  program = text.text,
): Outcome & { version: string } {
  const spec = { ...one.world, packets: one.world.packets.filter(([step]) => step < steps) };
  const whole = `
var SPEC = ${JSON.stringify(spec)}, CONSOLE = "LINE";
${WORLD}
function emit(u) { print("F" + btoa(u)); }
function look() { print("S" + btoa(new Uint8Array(new Float64Array(${numbersText(text, hints)}).buffer))); }
${AROUND}
var PROGRAM = ${JSON.stringify(program)};
eval(PROGRAM);
for (var STEPS = 0; STEPS < ${steps}; STEPS++) if (STEP(STEPS)) eval(PROGRAM);
WORLD.files().forEach(function (file) { print("T" + file.name + " " + btoa(file.bytes)); });
print("N" + WORLD.reads());
print("V" + process.version + " " + process.env.GIT_COMMIT);
`;
  const lines = linesOf(whole);
  const hex = (line: string) => Buffer.from(line, 'base64').toString('hex');
  const all = (kind: string) => lines.filter((line) => line[0] === kind).map((line) => line.slice(1));
  return {
    frames: all('F').map(hex),
    states: all('S').map(hex),
    files: all('T').map((line) => line.replace(/\S+$/, hex)),
    reads: Number(all('N')[0]),
    version: all('V')[0]!,
  };
}

function linesOf(whole: string): string[] {
  for (let left = TRIES; ; left--) {
    try {
      const { lines } = runOnInterpreter(whole, undefined, LIMIT_MS);
      const stray = lines.filter((line) => !/^[FSTNV]/.test(line));
      if (stray.length > 0) throw new Error(`the interpreter printed: ${stray.slice(0, 5).join(' | ')}`);
      return lines;
    } catch (error) {
      if (left <= 1 || !/stopped early.*ASSERT/s.test(String(error))) throw error;
    }
  }
}
