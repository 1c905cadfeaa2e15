/*
 * What the ADC pin adds to a reading, one plain function a source, for the inner loop of a trace: no state, no
 * allocation; whatever is random comes in as a number drawn by the caller.
 */

/** Reading up to which an ESP32's noise stays level, counts (about 2.7 V at 11 dB). */
const LEVEL_TO_COUNTS = 3150;
/** Reading from which it has fully grown, counts. */
const GROWN_AT_COUNTS = 3800;

/**
 * How much an ESP32 at 11 dB gains in noise towards the top of its curve, as `growth` of sdAt: fully grown
 * noise is 2.25 times that of mid range.
 * Source: measured, kisel/esp32_adc_test e2d8cc9: 1.1 counts at 150-2700 mV, 2.2-2.9 from 2.9 V on.
 */
export const ESP32_TOP_GROWTH = 1.25;

/**
 * Standard deviation of a single reading, counts.
 * @param counts expected reading, held or not
 * @param baseCounts standard deviation in the middle of the range
 * @param growth ESP32_TOP_GROWTH, or 0 for chips and attenuations whose noise is not known to grow
 */
export function sdAt(counts: number, baseCounts: number, growth: number): number {
  if (counts <= LEVEL_TO_COUNTS) return baseCounts;
  if (counts >= GROWN_AT_COUNTS) return baseCounts * (1 + growth);
  return baseCounts * (1 + (growth * (counts - LEVEL_TO_COUNTS)) / (GROWN_AT_COUNTS - LEVEL_TO_COUNTS));
}

/**
 * The habit of some silicon to give odd codes: an even code becomes the odd one above it.
 * @param code whole, 0-4094 or 4095
 * @param u one uniform draw, 0-1
 * @param share of even codes that turn odd; 0.7-0.82 gives the 85-91 % odd codes of espressif/esp-idf#164
 */
export function oddCode(code: number, u: number, share: number): number {
  return u < share ? code | 1 : code;
}

/**
 * An isolated wrong reading: 0 for most readings, else a size evenly between the two limits, either sign.
 * One draw decides all three, so `share` below 1e-6 would coarsen the sizes.
 * @param u one uniform draw, 0-1
 */
export function spikeCounts(u: number, share: number, minCounts: number, maxCounts: number): number {
  if (u >= share) return 0;
  const signed = (2 * u) / share - 1;
  return signed < 0
    ? -(minCounts + (maxCounts - minCounts) * -signed)
    : minCounts + (maxCounts - minCounts) * signed;
}

/** Mains hum at time `tS`; `phaseRad` is the scenario's draw. */
export function humCounts(amplitudeCounts: number, hz: number, phaseRad: number, tS: number): number {
  return amplitudeCounts * Math.sin(2 * Math.PI * hz * tS + phaseRad);
}

/** Correlation time of the slow pick-up at the wiper, s; assumed. */
export const WANDER_CORRELATION_S = 0.05;

/** Factor that the wander keeps over one step. */
export function wanderKeep(stepS: number): number {
  return Math.exp(-stepS / WANDER_CORRELATION_S);
}

/**
 * Next value of the wander: a first-order low-passed noise with standard deviation 1 at any step.
 * Start it with a normal draw.
 * @param keep wanderKeep of the step
 * @param normal one normal draw
 */
export function nextWander(wander: number, keep: number, normal: number): number {
  return keep * wander + Math.sqrt(1 - keep * keep) * normal;
}

/**
 * Size of the wander at a wiper position: in proportion to the source impedance x(1 - x), so none at the ends.
 * Source: 16-19 counts at mid travel, 1-2 near the stops in ATOVproject/faderpunk#556; the law is computed.
 * @param wiper 0-1
 */
export function wanderScale(wiper: number, midCounts: number): number {
  return midCounts * 4 * wiper * (1 - wiper);
}

/**
 * What is left of the channel read before, at the first reading after a channel change.
 * @param residue share, 0-0.2 (about 50 counts less after a grounded channel in arduino/Arduino#3064)
 */
export function withResidue(value: number, previousChannel: number, residue: number): number {
  return value + residue * (previousChannel - value);
}

/** Time from one deepest sag to the next, s; assumed, as of a radio or a motor at work now and then. */
export const SAG_PERIOD_S = 7;

/**
 * Factor on the supply voltage under a slow sag.
 * @param sag deepest, share of the voltage
 * @param phaseRad the scenario's draw
 */
export function sagFactor(sag: number, phaseRad: number, tS: number): number {
  return 1 - sag * 0.5 * (1 - Math.cos((2 * Math.PI * tS) / SAG_PERIOD_S + phaseRad));
}
