import { describe, expect, it } from 'vitest';
import { rnd } from '../../../sim/seed/mix.ts';
import { FileStore } from '../../../sim/storage/file-store.ts';
import { Flash } from '../../../sim/storage/flash.ts';
import { noInterpreter, runOnInterpreter } from '../../interpreter.ts';

// The Linux build: 256 kB in pages of 1 kB.
const PAGE = 1024;
const BYTES = 256 * PAGE;

interface Step {
  name: string;
  length: number;
  first: number;
}

function steps(count: number, seed: number, longest: number): Step[] {
  return Array.from({ length: count }, (_, i) => ({
    name: `f${rnd(3 * i, seed, 1) % 6}`,
    length: 1 + (rnd(3 * i + 1, seed, 1) % longest),
    first: rnd(3 * i + 2, seed, 1) % 4,
  }));
}

const content = ({ length, first }: Step) => Uint8Array.from({ length }, (_, i) => (first + 7 * i) & 0xff);

/** Does the steps on both, starting from one image, and compares answers, contents and the whole flash. */
function expectSame(list: Step[], start?: Uint8Array): { flash: Flash; answers: string[] } {
  const files = new FileStore(new Flash(BYTES, PAGE, start));
  files.boot();
  const answers = list.map((step) => {
    let answer: string;
    try {
      answer = String(files.write(step.name, content(step)));
    } catch {
      answer = 'throws';
    }
    return `${answer} ${files.read(step.name)?.length ?? 'none'} ${files.freeBytes()}`;
  });
  const program = `var S=require("Storage"),L=${JSON.stringify(list)};
L.forEach(function(s){var u=new Uint8Array(s.length),i,r;for(i=0;i<s.length;i++)u[i]=s.first+7*i;
try{r=S.write(s.name,u)}catch(e){r="throws"}
var b=S.read(s.name);print(r+" "+(b===undefined?"none":b.length)+" "+S.getFree());});`;
  const run = runOnInterpreter(program, start);
  expect(run.lines.filter((line) => !line.startsWith('Compacting'))).toEqual(answers);
  const firstDifference = run.flash!.findIndex((byte, at) => byte !== files.flash.bytes[at]);
  expect(firstDifference).toBe(-1);
  return { flash: files.flash, answers };
}

describe.skipIf(noInterpreter)('against the interpreter, the simulated file store has the same flash', () => {
  it.each([1, 2, 3])('after writes, rewrites and repeats (seed %d)', (seed) => {
    expectSame(steps(60, seed, 500));
  });

  it('after compactions', () => {
    const { flash } = expectSame(steps(16, 9, 60_000));
    expect(flash.erases).toBeGreaterThan(20);
  });

  it('behind a header whose size word is too large: true, and nothing to read', () => {
    const files = new FileStore(new Flash(BYTES, PAGE));
    files.write('f0', Uint8Array.of(1, 2, 3));
    files.flash.program(36, [0, 0, 0xf0, 0]);
    const { answers } = expectSame([{ name: 'f1', length: 20, first: 1 }], files.flash.bytes);
    expect(answers[0]).toMatch(/^true none /);
  });

  it.each([2, 5, 20, 33, 37, 50])('after a power cut %d bytes into a write, and writes behind it', (cut) => {
    const files = new FileStore(new Flash(BYTES, PAGE));
    files.write('f0', Uint8Array.of(1, 2, 3, 4));
    files.write('f1', new Uint8Array(30).fill(5));
    files.flash.cutAfter(cut, 0);
    expect(() => files.write('f1', new Uint8Array(30).fill(6))).toThrow();
    expectSame(steps(8, cut, 60), files.flash.bytes);
  });

  it('after a boot that finds the first header broken', () => {
    const files = new FileStore(new Flash(BYTES, PAGE));
    files.write('f0', Uint8Array.of(1, 2, 3, 4));
    files.flash.program(0, [0, 0, 0, 0]);
    expectSame(steps(3, 4, 60), files.flash.bytes);
  });
});
