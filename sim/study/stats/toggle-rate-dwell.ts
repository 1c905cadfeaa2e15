import { upperTail } from './normal.ts';
import { toggleRate, upCrossings } from './toggle-rate.ts';

/**
 * Toggles per sample of a two-threshold trigger that flips only after the signal has stayed beyond the
 * threshold for `dwellFrames` more samples.
 * @param dwellFrames whole number >= 0; 0 gives `toggleRate`
 * @returns both directions counted, 0-1; other parameters as in `toggleRate`
 *
 * Exact for white noise. For correlated noise the signal is taken as a two-state chain (beyond or not) with
 * the chances of one step: mean wait for n in a row 1/rate = (1/p + S)/r^(n−1), S = (1 − r^(n−1))/(1 − r), p the
 * chance to go beyond and r to stay there. Source: computed.
 * Counted toggles on first-order autoregressive noise, 10^7 samples a cell, as a share of the formula
 * (offset 0; cells with fewer than 100 toggles left out):
 *
 *     correlation   dwell 1: half-width 1 sd   2 sd   3 sd   dwell 3: 1 sd   2 sd   3 sd
 *        -0.3                 1.00             1.02    -              1.08    -      -
 *         0                   1.00             1.00    -              1.02    -      -
 *         0.3                 0.96             1.00   0.93            1.05   1.16    -
 *         0.6                 0.83             0.93   0.96            1.05   1.27    -
 *         0.9                 0.49             0.62   0.77            0.61   0.84   1.09
 */
export function toggleRateWithDwell(
  halfWidth: number,
  sd: number,
  lag1: number,
  offset: number,
  dwellFrames: number,
): number {
  const free = toggleRate(halfWidth, sd, lag1, offset);
  if (free === 0 || dwellFrames === 0) return free;
  const near = Math.abs(offset);
  const up = dwellChance((halfWidth - near) / sd, lag1, dwellFrames);
  if (near === 0) return up;
  const down = dwellChance((halfWidth + near) / sd, lag1, dwellFrames);
  return up + down > 0 ? (2 * up * down) / (up + down) : 0;
}

/** 1 over the mean wait until `dwellFrames` + 1 samples in a row lie above `level`. */
function dwellChance(level: number, lag1: number, dwellFrames: number): number {
  const crossings = upCrossings(level, lag1);
  const go = crossings / upperTail(-level);
  const leave = Math.min(1, crossings / upperTail(level));
  const stayed = (1 - leave) ** dwellFrames;
  return stayed / (1 / go + (1 - stayed) / leave);
}
