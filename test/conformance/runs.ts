/** One case run three ways. Each gives its frames and, now and then, the numbers that it remembers. */
import { runInContext, createContext } from 'node:vm';
import { crc32 } from '../../protocol/crc32.ts';
import { textCrc32 } from '../../protocol/command-packet.ts';
import { startHostProgram } from '../../sim/board/host-program.ts';
import type { BoardText } from '../../workbench/bundle/make-program.ts';
import type { Program } from '../../firmware/main/program.ts';
import { runOnInterpreter } from '../interpreter.ts';
import type { Case } from './plans.ts';
import { WORLD, type World } from './world.ts';

export interface Outcome {
  /** Frames as hexadecimal, in order. */
  frames: string[];
  /** Every so many steps: bytes of all remembered doubles, as hexadecimal, in the order of `slotHints`. */
  states: string[];
  /** Readings taken. */
  reads: number;
}

/** Steps from one look at the state to the next. */
const LOOK = 50;

/** Numbers of the fingers that the program remembers, in a fixed order. */
export function slotHints(text: BoardText): string[] {
  return Object.keys(text.slots)
    .filter((hint) => /^(finger\d|hand)\./.test(hint))
    .sort();
}

const makeWorld = new Function(`${WORLD}; return makeWorld`)() as (spec: Case['world']) => World;

function hexOf(bytes: Uint8Array): string {
  return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString('hex');
}

function bytesOf(numbers: number[]): string {
  return hexOf(new Uint8Array(Float64Array.from(numbers).buffer));
}

/** The value that a hint stands for, in the host's objects. */
function valueOf(program: Program, hint: string): number {
  const [owner, key] = hint.split('.') as [string, string];
  const at = owner === 'hand' ? 0 : Number(owner.slice(6));
  const both = { ...program.constants[at], ...program.fingers[at] } as unknown as { [key: string]: number };
  return both[key]!;
}

/** (a) The functions as they are. */
export function runHost(one: Case, steps: number, hints: string[]): Outcome {
  const world = makeWorld(one.world);
  const out: Outcome = { frames: [], states: [], reads: 0 };
  let isTicking = false;
  const host = startHostProgram(one.plan, {
    analogRead: world.analogRead,
    digitalRead: world.digitalRead,
    digitalWrite: world.digitalWrite,
    getTime: world.getTime,
    write: (frame) => out.frames.push(hexOf(frame)),
    storage: world.storage,
    programCrc: () => 0,
    setTicking: (on) => {
      isTicking = on;
    },
    reload: () => {},
  });
  for (let step = 0; step < steps; step++) {
    const packet = world.advance(step);
    if (packet !== undefined) host.packet(packet);
    if (isTicking) host.tick();
    if (step % LOOK === LOOK - 1) out.states.push(bytesOf(hints.map((hint) => valueOf(host.program, hint))));
  }
  out.reads = world.reads();
  return out;
}

/** What the interpreter has and the sandbox lacks, in the sandbox's own terms. */
const SHIMS = `
var E = {
  sum: function (a) { var s = 0; for (var i = 0; i < a.length; i++) s += a[i]; return s; },
  mapInPlace: function (from, to, f) { for (var i = 0; i < from.length; i++) to[i] = f(from[i]); },
  CRC32: function (x) { return typeof x === "string" ? textCrc(x) : bytesCrc(x); },
};
`;
/** The same for all programs: line, timer, packets. */
const AROUND = `
var LINE = { write: function (u) { emit(u); } }, TIMER = 0, PACKETS = 0;
E.getConsole = function () { return "LINE"; };
E.on = function (name, f) { PACKETS = f; };
function setInterval(f) { TIMER = f; return 1; }
function clearInterval() { TIMER = 0; }
function setTimeout() {}
function pinMode() {}
function echo() {}
function load() {}
var WORLD = makeWorld(SPEC);
function analogRead(pin) { return WORLD.analogRead(pin); }
function digitalRead(pins) { return WORLD.digitalRead(pins); }
function digitalWrite(pins, value) { WORLD.digitalWrite(pins, value); }
function getTime() { return WORLD.getTime(); }
function require() { return WORLD.storage; }
`;

/** (b) The program's text in a script sandbox. */
export function runSandbox(one: Case, text: BoardText, steps: number, hints: string[], program = text.text): Outcome {
  const out: Outcome = { frames: [], states: [], reads: 0 };
  const context = createContext({
    emit: (u: Uint8Array) => out.frames.push(hexOf(u)),
    textCrc: textCrc32,
    bytesCrc: crc32,
    SPEC: one.world,
  });
  const run = (code: string) => runInContext(code, context) as unknown;
  run('var global = globalThis;');
  run(SHIMS);
  run(WORLD);
  run(AROUND);
  run(program);
  run(`function STEP(n) { var t = WORLD.advance(n); if (t !== undefined) PACKETS({ t: t }); if (TIMER) TIMER(); }`);
  const names = hints.map((hint) => text.slots[hint]!);
  run(`function LOOKS() { return [${names.join(',')}]; }`);
  const step = run('STEP') as (n: number) => void;
  const looks = run('LOOKS') as () => number[];
  for (let n = 0; n < steps; n++) {
    step(n);
    if (n % LOOK === LOOK - 1) out.states.push(bytesOf([...looks()]));
  }
  out.reads = run('WORLD.reads()') as number;
  return out;
}

/** (c) The program's text on the interpreter. */
export function runInterpreter(
  one: Case,
  text: BoardText,
  steps: number,
  hints: string[],
  program = text.text,
): Outcome & { version: string } {
  const names = hints.map((hint) => text.slots[hint]!);
  // The program comes first in the scope, as on a board; what stands around it must be there before it all the same.
  const lines = runOnInterpreter(`
var SPEC = ${JSON.stringify(one.world)};
${WORLD}
function emit(u) { print("F" + btoa(u)); }
${AROUND}
${program}
for (var STEP = 0; STEP < ${steps}; STEP++) {
  var PACKET = WORLD.advance(STEP);
  if (PACKET !== undefined) PACKETS({ t: PACKET });
  if (TIMER) TIMER();
  if (STEP % ${LOOK} === ${LOOK - 1}) print("S" + btoa(new Uint8Array(new Float64Array([${names.join(',')}]).buffer)));
}
print("N" + WORLD.reads());
print("V" + process.version + " " + process.env.GIT_COMMIT);
`).lines;
  const hex = (line: string) => Buffer.from(line.slice(1), 'base64').toString('hex');
  const stray = lines.filter((line) => !/^[FSNV]/.test(line));
  if (stray.length > 0) throw new Error(`the interpreter printed: ${stray.slice(0, 5).join(' | ')}`);
  return {
    frames: lines.filter((line) => line[0] === 'F').map(hex),
    states: lines.filter((line) => line[0] === 'S').map(hex),
    reads: Number(lines.find((line) => line[0] === 'N')!.slice(1)),
    version: lines.find((line) => line[0] === 'V')!.slice(1),
  };
}
