import { describe, expect, it } from 'vitest';
import { gaussLegendre } from '../../../../sim/study/stats/gauss-legendre.ts';

function integrate(order: number, f: (x: number) => number): number {
  const rule = gaussLegendre(order);
  let sum = 0;
  for (let i = 0; i < order; i++) sum += rule.weight[i] * f(rule.x[i]);
  return sum;
}

describe('gaussLegendre', () => {
  it('gives the closed-form three-point rule: 0 and ±sqrt(3/5), weights 8/9 and 5/9', () => {
    const { x, weight } = gaussLegendre(3);
    expect(x[0]).toBeCloseTo(-Math.sqrt(3 / 5), 14);
    expect(x[1]).toBeCloseTo(0, 14);
    expect(x[2]).toBeCloseTo(Math.sqrt(3 / 5), 14);
    expect(weight[0]).toBeCloseTo(5 / 9, 14);
    expect(weight[1]).toBeCloseTo(8 / 9, 14);
    expect(weight[2]).toBeCloseTo(5 / 9, 14);
  });

  it.each([1, 2, 5, 16, 64])('of order %i is exact up to degree 2 * order - 1 and no further', (order) => {
    const degree = 2 * order - 2;
    expect(integrate(order, (x) => x ** degree + x ** (degree + 1))).toBeCloseTo(2 / (degree + 1), 13);
    if (order <= 5) {
      const beyond = 2 * order;
      expect(Math.abs(integrate(order, (x) => x ** beyond) - 2 / (beyond + 1))).toBeGreaterThan(1e-4);
    }
  });
});
