import { parse } from 'acorn';
import { describe, expect, it } from 'vitest';
import { shortNames } from '../../specialise/names.ts';
import { INTERPRETER_NAMES } from '../../specialise/subset.ts';

/** Reserved words of the language and of the interpreter's lexer (jslex.c, espruino/Espruino c5ff787). */
const WORDS =
  `if else do while for break continue function return var let const this throw try catch finally true
  false null undefined new in instanceof switch case default delete typeof void debugger class extends super static of
  await async yield enum export import with eval arguments int NaN PI fs E Pin SPI I2C`.split(/\s+/);

function first(count: number, prefix: '' | '$'): string[] {
  const names = shortNames(prefix);
  return Array.from({ length: count }, () => names.next().value);
}

describe.each(['', '$'] as const)('short names with prefix "%s"', (prefix) => {
  const names = first(12_000, prefix);

  it('are all different, and shortest first', () => {
    expect(new Set(names).size).toBe(names.length);
    const lengths = names.map((name) => name.length);
    expect(lengths).toEqual([...lengths].sort((a, b) => a - b));
    expect(names.filter((name) => name.length === prefix.length + 1).length).toBeGreaterThan(50);
    expect(Math.max(...lengths)).toBe(prefix.length + 3);
  });

  it('are names of the language', () => {
    expect(() => parse(`var ${names.join()};`, { ecmaVersion: 2022, sourceType: 'script' })).not.toThrow();
  });

  it('are neither words nor globals of the interpreter', () => {
    expect(names.filter((name) => WORDS.includes(name) || INTERPRETER_NAMES.has(name))).toEqual([]);
  });

  it('are no pins: a letter and a number', () => {
    expect(names.filter((name) => /^[A-Z]\d+$/.test(name))).toEqual([]);
  });

  it('leave the catch its own name', () => {
    expect(names).not.toContain('_');
  });
});

describe('names in a program', () => {
  it('with a prefix never meet those without', () => {
    const both = first(5000, '').filter((name) => name.startsWith('$'));
    expect(both).toEqual([]);
  });
});
