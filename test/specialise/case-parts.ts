/** What the unit cases share. */
import type { Sample } from './sample.ts';

const S = { a: 1.25, b: -0.5, c: 3 };
const T = { a: 10, b: 20.5, c: -4 };

export function sample(source: string, more: Partial<Sample> = {}): Sample {
  return { source, s: S, t: T, ...more };
}

/** A function that changes `s.a` and gives something back, inlined or kept. */
export const SET_A = 'function setA(s, v) { s.a = v; return v + 1; }';
export const SET_A_KEPT: Partial<Sample> = { kept: ['setA'] };
export const NEXT = 'function next(s) { s.a = s.a * 2 + 1; return s.a; }';
