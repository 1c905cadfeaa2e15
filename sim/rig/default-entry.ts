/**
 * Where a default comes from.
 * - `datasheet`: a maker's or standard's document
 * - `measured`: someone's readings, named
 * - `computed`: worked out from a formula, named
 * - `published`: a paper or handbook
 * - `assumed`: our own judgement, replace it by a measurement
 */
export type SourceTag = 'datasheet' | 'measured' | 'computed' | 'published' | 'assumed';

/** One default of the rig: its value in the unit that {@link import('./rig.ts').Rig} uses, and why. */
export interface DefaultEntry<T = number | string | number[]> {
  value: T;
  /** Unit of the value as stored; '' for plain numbers and words. A share is 0-1. */
  unit: string;
  label: string;
  source: SourceTag;
  /** What the source says or how the value was worked out. */
  text: string;
}

/** A row of a defaults table. */
export function entry<const T>(
  value: T,
  unit: string,
  label: string,
  source: SourceTag,
  text: string,
): DefaultEntry<T> {
  return { value, unit, label, source, text };
}
