import { DEFAULT_ATTENUATION_DB } from '../../firmware/boards/adc-curve.ts';
import { buildCurveTable, countsAt } from '../../sim/adc/curve.ts';
import type { Finger, Rig } from '../../sim/rig/rig.ts';
import { createChannel, pinVolts, wiperAt } from '../../sim/study/channel.ts';
import { nominalFinger } from '../../sim/study/draw-parts.ts';

/** Steps of the table over the travel and a tenth beyond on either side. */
const STEPS = 600;

/**
 * String that is out when a channel reads so many counts, mm, by the rig's nominal parts. A build's own parts make its
 * scale a few percent longer or shorter; the chip's reference up to 9 % (Espressif's ADC documentation).
 */
export function stringOfCounts(rig: Rig, finger: Finger): (counts: number) => number {
  const parts = nominalFinger(rig, finger);
  const channel = createChannel(finger, parts);
  const curve = buildCurveTable(rig.board, DEFAULT_ATTENUATION_DB, 1, 0);
  const mm = new Float64Array(STEPS + 1);
  const counts = new Float64Array(STEPS + 1);
  for (let i = 0; i <= STEPS; i++) {
    mm[i] = parts.fullMm * ((1.2 * i) / STEPS - 0.1);
    counts[i] = countsAt(curve, pinVolts(channel, wiperAt(channel, mm[i]!), rig.supply.volts));
  }
  return (value) => {
    let [low, high] = [0, STEPS];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (counts[middle]! <= value) low = middle;
      else high = middle;
    }
    const rise = counts[high]! - counts[low]!;
    return rise > 0 ? mm[low]! + ((value - counts[low]!) / rise) * (mm[high]! - mm[low]!) : mm[low]!;
  };
}
