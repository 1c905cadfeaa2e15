import { quantileOf, sortedOf, type Values } from './statistics.ts';

/** Share of odd codes, 0-1. */
export function oddShareOf(codes: Values): number {
  let odd = 0;
  for (let i = 0; i < codes.length; i++) odd += codes[i]! & 1;
  return odd / codes.length;
}

/**
 * By how much the share of odd codes may lie off its expectation by chance: noise of few counts favours one parity by
 * up to (2/π)·e^(-π²σ²/2) (first harmonic of the parity's square wave under a normal law, computed), and `sigmas` standard deviations of
 * a share over so many readings.
 */
export function oddMargin(sdCounts: number, readings: number, sigmas: number): number {
  return (2 / Math.PI) * Math.exp(-0.5 * (Math.PI * sdCounts) ** 2) + (0.5 * sigmas) / Math.sqrt(readings);
}

/** Fewest readings that each code of the middle half should have had before a missing one is called missing. */
const LEAST_EACH = 25;

/**
 * Codes of the middle half of the readings that never came: gaps of the converter. None are named where there are too
 * few readings for each code.
 */
export function missingCodesOf(codes: Values): number[] {
  const sorted = sortedOf(codes);
  const low = Math.ceil(quantileOf(sorted, 0.25));
  const high = Math.floor(quantileOf(sorted, 0.75));
  if (high - low < 2 || (0.5 * sorted.length) / (high - low + 1) < LEAST_EACH) return [];
  const seen = new Set(sorted);
  const missing: number[] = [];
  for (let code = low; code <= high; code++) if (!seen.has(code)) missing.push(code);
  return missing;
}

/** Share of readings at the lowest and at the highest code of a 12-bit converter. */
export function saturationOf(codes: Values): { atBottom: number; atTop: number } {
  let bottom = 0;
  let top = 0;
  for (let i = 0; i < codes.length; i++) {
    if (codes[i] === 0) bottom++;
    else if (codes[i]! >= 4095) top++;
  }
  return { atBottom: bottom / codes.length, atTop: top / codes.length };
}

/** Longest run of equal readings, and the share of readings equal to the one before. */
export function repeatsOf(codes: Values): { longest: number; share: number; value: number } {
  let longest = codes.length > 0 ? 1 : 0;
  let value = codes[0] ?? NaN;
  let run = 1;
  let equal = 0;
  for (let i = 1; i < codes.length; i++) {
    if (codes[i] === codes[i - 1]) {
      equal++;
      run++;
    } else run = 1;
    if (run > longest) {
      longest = run;
      value = codes[i]!;
    }
  }
  return { longest, share: codes.length > 1 ? equal / (codes.length - 1) : 0, value };
}
