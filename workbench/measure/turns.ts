import type { Turn } from './lost-motion.ts';

/** Least way between two turns: this many times the noise, and this many mm. Assumed. */
const LEAST_SIGMAS = 30;
const LEAST_MM = 5;
/** Share of the way to the neighbouring turns that is looked at: beyond lies the other turn's own standstill. */
const REACH = 0.45;

/** Turns of a movement to and fro that have another one before and behind them. */
export function turnsOf(timesS: Float64Array, mm: Float64Array, noiseMm: number): Turn[] {
  const least = Math.max(LEAST_MM, LEAST_SIGMAS * noiseMm);
  const tops: { at: number; side: 1 | -1 }[] = [];
  let [lowest, highest] = [0, 0];
  let side: 1 | -1 | 0 = 0;
  for (let i = 0; i < mm.length; i++) {
    if (mm[i]! > mm[highest]!) highest = i;
    if (mm[i]! < mm[lowest]!) lowest = i;
    if (side >= 0 && mm[highest]! - mm[i]! > least) {
      if (side > 0 || highest > 0) tops.push({ at: highest, side: 1 });
      side = -1;
      lowest = i;
    } else if (side <= 0 && mm[i]! - mm[lowest]! > least) {
      if (side < 0 || lowest > 0) tops.push({ at: lowest, side: -1 });
      side = 1;
      highest = i;
    }
  }
  const turns: Turn[] = [];
  for (let k = 1; k + 1 < tops.length; k++) {
    const [before, top, behind] = [tops[k - 1]!, tops[k]!, tops[k + 1]!];
    const reachS =
      REACH * Math.min(timesS[top.at]! - timesS[before.at]!, timesS[behind.at]! - timesS[top.at]!);
    let from = top.at;
    let to = top.at;
    while (from > before.at && timesS[from - 1]! > timesS[top.at]! - reachS) from--;
    while (to < behind.at && timesS[to]! < timesS[top.at]! + reachS) to++;
    const wayMm = Math.abs(mm[top.at]! - (mm[before.at]! + mm[behind.at]!) / 2);
    const strokeS = (timesS[behind.at]! - timesS[before.at]!) / 2;
    const swingMmPerS2 = (wayMm / 2) * (Math.PI / strokeS) ** 2;
    turns.push({ ...top, before: before.at, from, to, strokeS, swingMmPerS2 });
  }
  return turns;
}
