/*
 * What an ideal converter and plain averaging can give: the yardstick for the modelled one.
 */

/** Signal to noise of a full-scale sine on an ideal converter, dB: 6.02·bits + 1.76 (textbook formula). */
export function idealSnrDb(bits: number): number {
  return 20 * bits * Math.log10(2) + 10 * Math.log10(1.5);
}

/** Effective bits from a measured signal to noise and distortion ratio (the same formula backwards). */
export function effectiveBits(sinadDb: number): number {
  return (sinadDb - 10 * Math.log10(1.5)) / (20 * Math.log10(2));
}

/**
 * Bits gained by summing `readings` readings whose noise is white and at least half a count: 4 readings a bit.
 * Source: datasheet, Atmel application note AVR121.
 */
export function extraBits(readings: number): number {
  return Math.log2(readings) / 2;
}

/** Standard deviation of the mean of `readings` readings with white noise: sd/√N. Hum and bends stay. */
export function meanSd(sdCounts: number, readings: number): number {
  return sdCounts / Math.sqrt(readings);
}

/**
 * Largest error that rounding leaves in the mean of many readings whose noise spreads them over codes:
 * exp(-2π²σ²)/π counts, the first harmonic of the rounding saw-tooth. Below σ = 0.2 the others are not yet
 * gone: then the bound of half a count is given.
 */
export function ditherResidualCounts(sdCounts: number): number {
  return sdCounts < 0.2 ? 0.5 : Math.exp(-2 * Math.PI * Math.PI * sdCounts * sdCounts) / Math.PI;
}

/**
 * Differential nonlinearity by code density: how much wider than the average each code is.
 * @param codes readings of a slow even ramp that covers all codes counted
 * @param first and `last` (inclusive) code to look at, inside the ramp
 * @returns LSB by code, from `first`; -1 = missing code
 */
export function codeDensityDnl(codes: ArrayLike<number>, first: number, last: number): Float64Array {
  const hits = new Float64Array(last - first + 1);
  let counted = 0;
  for (let i = 0; i < codes.length; i++) {
    if (codes[i] < first || codes[i] > last) continue;
    hits[codes[i] - first]++;
    counted++;
  }
  const even = counted / hits.length;
  return hits.map((count) => count / even - 1);
}

/**
 * A reading as it would have been at the nominal supply, from the supply's own reading through a divider.
 * The chip's reference is internal: without this, 3 % less supply is 3 % less reading.
 */
export function railCompensated(counts: number, railCounts: number, nominalRailCounts: number): number {
  return (counts * nominalRailCounts) / railCounts;
}
