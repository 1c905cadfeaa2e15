import { InvalidArgumentError } from 'commander';

/** Parser of a whole number inside a range, for commander. */
export function wholeNumber(least: number, most: number): (text: string) => number {
  return (text) => {
    const value = Number(text);
    if (!/^[+-]?\d+$/.test(text.trim()) || value < least || value > most) {
      throw new InvalidArgumentError(`Expected a whole number from ${least} to ${most}.`);
    }
    return value;
  };
}

/** Evenly spaced values `A:B:STEP`, both ends included. */
export function valueRange(text: string): number[] {
  const parts = text.split(':').map((part) => (part.trim() === '' ? Number.NaN : Number(part)));
  const [from, to, step] = parts;
  if (parts.length !== 3 || !parts.every(Number.isFinite) || step <= 0 || to < from) {
    throw new InvalidArgumentError(
      'Expected FROM:TO:STEP with TO >= FROM and STEP > 0, for instance 0.1:3.1:0.05.',
    );
  }
  const count = Math.floor((to - from) / step + 1e-9) + 1;
  if (count > 100_000) throw new InvalidArgumentError(`That is ${count} values; expected at most 100000.`);
  // Rounded to what was written: 0.1 + 2 · 0.05 would print as 0.20000000000000001.
  return Array.from({ length: count }, (_, i) => Number((from + i * step).toPrecision(12)));
}
