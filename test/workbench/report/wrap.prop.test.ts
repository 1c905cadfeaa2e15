import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { columnsOf, wrapWords } from '../../../workbench/report/wrap.ts';

describe('wrapWords', () => {
  it('keeps every character but the spaces, and every line within the width', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), fc.integer({ min: 2, max: 30 }), (text, columns) => {
        const lines = wrapWords(text, columns);
        expect(lines.join('').replaceAll(' ', '')).toBe(text.replaceAll(' ', ''));
        for (const line of lines) expect(columnsOf(line)).toBeLessThanOrEqual(columns);
      }),
    );
  });

  it('breaks as late as it can', () => {
    expect(wrapWords('one two three four', 9)).toEqual(['one two', 'three', 'four']);
    expect(wrapWords('', 9)).toEqual(['']);
  });

  it('counts wide characters twice', () => {
    expect(columnsOf('人形a')).toBe(5);
  });
});
