/* Host only. Which of a finger's constants are live: variables of the program, changed by command. */
import type { ChainConstants } from '../chain/prepare.ts';

/** Numbers that each finger has for itself. */
export const FINGER_NUMBERS = [
  'limit',
  'limitSquared',
  'bandSquared',
  'rise',
  'half',
  'wordGain',
  'wordOffset',
] as const satisfies readonly (keyof ChainConstants)[];

/** Numbers that all fingers share. */
export const HAND_NUMBERS = [
  'gain',
  'base',
  'speedGain',
] as const satisfies readonly (keyof ChainConstants)[];
