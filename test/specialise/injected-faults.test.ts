import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CASES } from './cases.ts';
import { FAULTS } from './faults.ts';
import { type FaultyTools, faultyTools } from './faulty.ts';
import { read, someDoubles } from './literal-model.ts';
import { choices, programOf } from './random-program.ts';
import { faultOf, type Sample } from './sample.ts';

const IS_LONG = process.env.TAUTLINE_VERIFY === '1';

function notices(tools: FaultyTools, sample: Sample): boolean {
  try {
    return faultOf(tools, sample) !== '';
  } catch {
    return true;
  }
}

function literalsNotice(tools: FaultyTools): boolean {
  let state = 1;
  const random = () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
  return someDoubles(500, random).some((value) => !Object.is(read(tools.exactLiteral(value)), value));
}

/** The first check that notices a fault, in the order of the cases; '' = none does. */
function noticedBy(tools: FaultyTools, names: readonly string[]): string {
  const name = names.find((one) => notices(tools, CASES[one]!));
  return name ?? (literalsNotice(tools) ? 'literals' : '');
}

describe('a fault in the specialiser', () => {
  it.each(FAULTS.map((fault) => [fault.name, fault] as const))('is noticed: %s', (_, fault) => {
    const tools = faultyTools(fault);
    const all = Object.keys(CASES);
    const names = IS_LONG ? all : all.filter((name) => name === fault.by);
    expect(noticedBy(tools, names)).toBe(fault.by);
  });

  it('none: the copy does what the original does', () => {
    const tools = faultyTools({ name: 'none', file: 'fold.ts', from: 'a + b', to: 'b + a', by: '' });
    expect(noticedBy(tools, Object.keys(CASES))).toBe('');
  });

  it('somewhere else is an error', () => {
    const fault = { name: 'none', file: 'fold.ts', from: 'not there', to: '', by: '' };
    expect(() => faultyTools(fault)).toThrow('not once in specialise/fold.ts');
    expect(() => faultyTools({ ...fault, file: 'no-such-file.ts' })).toThrow('is not used');
  });

  it.skipIf(!IS_LONG)(
    'is noticed by 300 random programs in half of the kinds, without a case for it',
    { timeout: 300_000 },
    () => {
      const samples = fc.sample(choices, { numRuns: 300, seed: 3 }).map(programOf);
      const noticed = FAULTS.filter((fault) => {
        const tools = faultyTools(fault);
        return samples.some((sample) => notices(tools, sample));
      });
      expect(noticed.length).toBeGreaterThan(FAULTS.length / 2);
    },
  );
});
