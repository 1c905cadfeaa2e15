import { describe, expect, it } from 'vitest';
import { SOBOL_AXES, sobol } from '../../../../sim/study/stats/sobol.ts';

// SciPy 1.17.1 qmc.Sobol(16, scramble=False, bits=32).
/** First 8 points times 1024, [point][axis]. */
const FIRST = [
  [0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0],
  [512, 512, 512, 512, 512, 512, 512, 512, 512, 512, 512, 512, 512, 512, 512, 512],
  [768, 256, 256, 256, 768, 768, 256, 768, 768, 768, 768, 768, 256, 256, 768, 256],
  [256, 768, 768, 768, 256, 256, 768, 256, 256, 256, 256, 256, 768, 768, 256, 768],
  [384, 384, 640, 896, 384, 128, 384, 896, 896, 640, 896, 384, 384, 640, 384, 896],
  [896, 896, 128, 384, 896, 640, 896, 384, 384, 128, 384, 896, 896, 128, 896, 384],
  [640, 128, 896, 640, 640, 896, 128, 128, 128, 384, 128, 640, 128, 896, 640, 640],
  [128, 640, 384, 128, 128, 384, 640, 640, 640, 896, 640, 128, 640, 384, 128, 128],
];
/** Per axis: h = (31·h + 1024·value) mod 1000003 over the first 1024 points, from h = 0. */
const HASHES = [
  106441, 581320, 370505, 159167, 771915, 824612, 355857, 38123, 50011, 180505, 446652, 97232, 257967, 346028,
  771108, 678974,
];
/** Point 123456 times 2^32: reaches 17 of the direction numbers. */
const FAR = [
  113803264, 784891904, 1319665664, 1934065664, 726630400, 872972288, 3074457600, 1993113600, 3034218496,
  1069711360, 2143649792, 3355148288, 2370732032, 1204518912, 3278536704, 2840559616,
];

describe('sobol', () => {
  it('starts with the known eight points on every axis', () => {
    const own = FIRST.map((row, i) => row.map((_, axis) => 1024 * sobol(i, axis)));
    expect(own).toEqual(FIRST);
    expect(SOBOL_AXES).toBe(16);
  });

  it.each(HASHES.map((hash, axis): [number, number] => [axis, hash]))(
    'has the first 1024 points of SciPy on axis %i',
    (axis, hash) => {
      let h = 0;
      for (let i = 0; i < 1024; i++) h = (31 * h + 1024 * sobol(i, axis)) % 1_000_003;
      expect(h).toBe(hash);
    },
  );

  it('gives a far point alone', () => {
    expect(FAR.map((_, axis) => sobol(123_456, axis) * 2 ** 32)).toEqual(FAR);
  });

  it('refuses an axis outside its table', () => {
    expect(() => sobol(1, 16)).toThrow(/axis 16; expected 0 to 15/);
    expect(() => sobol(1, -1)).toThrow(RangeError);
  });
});
