import { describe, expect, it } from 'vitest';
import { gaussAt } from '../../../sim/seed/gauss.ts';
import { keys, STREAMS, uniformAt } from '../../../sim/seed/mix.ts';
import { openStream } from '../../../sim/seed/stream.ts';

const key = keys(2, 9, STREAMS.parameters);

describe('stream', () => {
  it('reads counters one after the other, one a call', () => {
    const stream = openStream(key);
    expect(stream.uniform()).toBe(uniformAt(0, ...key));
    expect(stream.normal()).toBe(gaussAt(1, ...key));
    expect(stream.between(-2, 6)).toBe(-2 + 8 * uniformAt(2, ...key));
    expect(stream.uniform()).toBe(uniformAt(3, ...key));
  });

  it('starts again with the same numbers', () => {
    const first = openStream(key);
    const second = openStream(key);
    for (let i = 0; i < 20; i++) expect(second.normal()).toBe(first.normal());
  });

  it('spreads between its limits evenly', () => {
    const stream = openStream(key);
    const draws = Array.from({ length: 10_000 }, () => stream.between(900, 1100));
    expect(Math.min(...draws)).toBeGreaterThan(900);
    expect(Math.max(...draws)).toBeLessThan(1100);
    // mean 1000, standard error 200/√12/100
    expect(Math.abs(draws.reduce((a, b) => a + b) / 10_000 - 1000)).toBeLessThan(4 * 0.577);
  });
});
