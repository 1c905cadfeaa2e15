import { gaussLegendre } from './gauss-legendre.ts';
import { normalDensity, upperTail } from './normal.ts';

/** Half-widths beyond this many sd: less than one toggle in 10^18 samples, taken as none. */
const NEVER_SD = 9;
/** The integrand has fallen to exp(-7.5²/2) = 6e-13 of its peak here. */
const NEGLIGIBLE_SD = 7.5;
const RULE = gaussLegendre(16);

/**
 * Probability that a Gaussian sequence with sd 1 stands below `level` at one sample and above it at the
 * next: 2·T(level, √((1−ρ)/(1+ρ))) with Owen's T function.
 * @param level in sd, any sign
 * @param lag1 correlation ρ of neighbouring samples, -1 to 1 inclusive
 * Source: computed; Owen, Ann. Math. Statist. 27 (1956) 1075. Relative error below 1e-10 for |level| <= 9.
 */
export function upCrossings(level: number, lag1: number): number {
  if (lag1 >= 1) return 0;
  const h = Math.abs(level);
  if (lag1 >= 0) return 2 * owenT(h, Math.sqrt((1 - lag1) / (1 + lag1)));
  // Owen's reflection brings a slope above 1 back below it, where the integrand is short and smooth.
  const q = upperTail(h);
  if (lag1 <= -1) return q;
  const slope = Math.sqrt((1 - lag1) / (1 + lag1));
  const p = upperTail(h * slope);
  return q + p - 2 * q * p - 2 * owenT(h * slope, 1 / slope);
}

/** Owen's T(h, a) for h >= 0 and 0 <= a <= 1. */
function owenT(h: number, a: number): number {
  const end = a * h > NEGLIGIBLE_SD ? NEGLIGIBLE_SD / h : a;
  const half = 0.5 * end;
  const x = RULE.x;
  const weight = RULE.weight;
  let sum = 0;
  for (let i = 0; i < x.length; i++) {
    const t = half * (x[i] + 1);
    sum += (weight[i] * Math.exp(-0.5 * h * h * t * t)) / (1 + t * t);
  }
  return (normalDensity(h) * half * sum) / Math.sqrt(2 * Math.PI);
}

/** Chance per sample of leaving the state below `level`: an up-crossing, given that the last sample was below. */
function flipChance(level: number, lag1: number): number {
  return upCrossings(level, lag1) / upperTail(-level);
}

/**
 * Toggles per sample of a two-threshold trigger fed with a resting signal plus Gaussian noise.
 * @param halfWidth half the distance of the thresholds, >= 0, any unit
 * @param sd standard deviation of the noise that reaches the trigger, same unit, >= 0; 0 = no toggles
 * @param lag1 correlation of neighbouring samples, -1 to 1 inclusive
 * @param offset distance of the resting signal from the middle of the thresholds, same unit, either sign
 * @returns both directions counted, 0-1; NaN if an input is NaN
 *
 * Exact for white noise, where it is Q(halfWidth/sd) at offset 0. For correlated noise each sample is taken
 * to depend on the last one only, and the state on nothing but being on this side of the threshold.
 * Source: computed. Counted toggles on first-order autoregressive noise, 10^7 samples a cell, as a share of
 * the formula (offset 0):
 *
 *     correlation   half-width 1 sd   2 sd   3 sd
 *        -0.6             1.19        1.18   1.09
 *        -0.3             1.09        1.05   1.01
 *         0               1.00        1.00   0.99
 *         0.3             0.90        0.95   0.98
 *         0.6             0.77        0.87   0.96
 *         0.9             0.48        0.60   0.79
 *         0.97            0.30        0.38   0.56
 *
 * So positive correlation makes the formula err to the safe side, by less the rarer the toggles are; for
 * negative correlation it promises up to a fifth too few. Off the middle it errs less, either way.
 */
export function toggleRate(halfWidth: number, sd: number, lag1: number, offset: number): number {
  if (sd === 0 || lag1 >= 1) return 0;
  const near = Math.abs(offset);
  // The rarer of the two crossings bounds the rate: 2·p1·p2/(p1+p2) <= 2·min.
  if (halfWidth + near > NEVER_SD * sd) return 0;
  const up = flipChance((halfWidth - near) / sd, lag1);
  if (near === 0) return up;
  const down = flipChance((halfWidth + near) / sd, lag1);
  return (2 * up * down) / (up + down);
}

/**
 * Toggles an hour.
 * @param perSample from `toggleRate`
 * @param sampleRateHz samples a second that reach the trigger
 */
export function togglesPerHour(perSample: number, sampleRateHz: number): number {
  return perSample * sampleRateHz * 3600;
}
