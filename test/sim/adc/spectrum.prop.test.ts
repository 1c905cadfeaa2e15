import fc from 'fast-check';
import { expect, it } from 'vitest';
import { fourier } from '../../../sim/adc/spectrum.ts';

const signal = fc.array(
  fc.tuple(fc.double({ min: -9, max: 9, noNaN: true }), fc.double({ min: -9, max: 9, noNaN: true })),
  {
    minLength: 1,
    maxLength: 70,
  },
);

it('equals the defining sum at every length, both ways', () => {
  fc.assert(
    fc.property(signal, fc.constantFrom<[-1, 1][number]>(-1, 1), (points, sign) => {
      const n = points.length;
      const re = Float64Array.from(points, (p) => p[0]);
      const im = Float64Array.from(points, (p) => p[1]);
      fourier(re, im, sign);
      for (let f = 0; f < n; f++) {
        let x = 0;
        let y = 0;
        points.forEach(([a, b], t) => {
          const angle = (sign * 2 * Math.PI * f * t) / n;
          x += a * Math.cos(angle) - b * Math.sin(angle);
          y += a * Math.sin(angle) + b * Math.cos(angle);
        });
        expect(Math.abs(re[f] - x)).toBeLessThan(1e-9 * n);
        expect(Math.abs(im[f] - y)).toBeLessThan(1e-9 * n);
      }
    }),
    { numRuns: 60 },
  );
});
