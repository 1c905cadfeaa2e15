import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DIMENSIONS, type Dimension } from '../../../workbench/rig/unit-table.ts';
import { formatQuantity, parseQuantity } from '../../../workbench/rig/units.ts';

const dimension = fc.constantFrom(...(Object.keys(DIMENSIONS) as Dimension[]));

describe('quantities', () => {
  it('are read back exactly as they were written', () => {
    fc.assert(
      fc.property(dimension, fc.double({ min: 1e-12, max: 1e9, noNaN: true }), (kind, value) => {
        expect(parseQuantity(formatQuantity(value, kind), kind)).toEqual({ ok: true, value });
      }),
      { numRuns: 500 },
    );
  });

  it('are finite numbers or a reason, whatever the text', () => {
    const text = fc.oneof(
      fc.string(),
      fc.tuple(fc.double(), fc.string({ maxLength: 6 })).map(([number, unit]) => `${number}${unit}`),
    );
    fc.assert(
      fc.property(dimension, text, (kind, input) => {
        const read = parseQuantity(input, kind);
        if (read.ok) expect(Number.isFinite(read.value)).toBe(true);
        else expect(read.seen.length * read.expected.length * read.next.length).toBeGreaterThan(0);
      }),
      { numRuns: 500 },
    );
  });
});
