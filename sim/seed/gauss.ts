import { rnd, uniformAt } from './mix.ts';

/*
 * Normal numbers by counter: a 256-layer ziggurat (Marsaglia and Tsang 2000, constants from memory; the
 * distribution is tested here). Extra draws, needed for about 1 % of the numbers, use counters 2^22 apart,
 * so that the main draws of other numbers stay untouched.
 */
const LAYERS = 256;
const R = 3.6541528853610088;
const V = 0.00492867323399;
const M = 8388608;
const EXTRA_SHIFT = 22;

/** Inner edge of each layer, as |j| below which the draw is accepted at once. */
const inside = new Int32Array(LAYERS);
const width = new Float64Array(LAYERS);
const height = new Float64Array(LAYERS);
fillTables();

function density(x: number): number {
  return Math.exp(-0.5 * x * x);
}

function fillTables(): void {
  const top = V / density(R);
  inside[0] = Math.trunc((R / top) * M);
  inside[1] = 0;
  width[0] = top / M;
  width[255] = R / M;
  height[0] = 1;
  height[255] = density(R);
  let outer = R;
  for (let i = LAYERS - 2; i > 0; i--) {
    const edge = Math.sqrt(-2 * Math.log(V / outer + density(outer)));
    inside[i + 1] = Math.trunc((edge / outer) * M);
    height[i] = density(edge);
    width[i] = edge / M;
    outer = edge;
  }
}

/** The 1 % of draws that the first comparison does not settle; `u0` is the number's first draw. */
function settle(counter: number, k0: number, k1: number, u0: number): number {
  let u = u0;
  let extra = 0;
  for (;;) {
    const layer = u & 255;
    const j = u >> 8;
    if (Math.abs(j) < inside[layer]) return j * width[layer];
    if (layer === 0) {
      let x: number;
      let y: number;
      do {
        x = -Math.log(uniformAt(counter + (++extra << EXTRA_SHIFT), k0, k1)) / R;
        y = -Math.log(uniformAt(counter + (++extra << EXTRA_SHIFT), k0, k1));
      } while (y + y < x * x);
      return j > 0 ? R + x : -R - x;
    }
    const x = j * width[layer];
    const share = uniformAt(counter + (++extra << EXTRA_SHIFT), k0, k1);
    if (height[layer] + share * (height[layer - 1] - height[layer]) < density(x)) return x;
    u = rnd(counter + (++extra << EXTRA_SHIFT), k0, k1);
  }
}

/**
 * Normal number of one counter: mean 0, standard deviation 1.
 * @param counter 0 to 2^22 - 1 for numbers independent of each other's extra draws
 */
export function gaussAt(counter: number, k0: number, k1: number): number {
  const u = rnd(counter, k0, k1) | 0;
  const j = u >> 8;
  const layer = u & 255;
  return (j < 0 ? -j : j) < inside[layer] ? j * width[layer] : settle(counter, k0, k1, u >>> 0);
}

/**
 * Fills `out` with gaussAt(firstCounter), gaussAt(firstCounter + 1), ... without allocating.
 * The mixer of mix.ts is written out here in signed integers: calls made it five times slower.
 */
export function fillGauss(
  out: Float32Array | Float64Array,
  firstCounter: number,
  k0: number,
  k1: number,
): void {
  const limit = inside;
  const scale = width;
  const first = (firstCounter + k0) | 0;
  const count = out.length;
  for (let n = 0; n < count; n++) {
    let x = (first + n) | 0;
    x = Math.imul(x ^ (x >>> 16), 0x21f0aaad) ^ k1;
    x = Math.imul(x ^ (x >>> 15), 0xd35a2d97);
    x ^= x >>> 15;
    const j = x >> 8;
    const layer = x & 255;
    const sign = j >> 31;
    out[n] = (j ^ sign) - sign < limit[layer] ? j * scale[layer] : settle(firstCounter + n, k0, k1, x >>> 0);
  }
}
