/** Which kinds meet in which rig: drawn so that as many pairs as possible of any two kinds come together. */
import type { Oversampling } from '../../firmware/chain/settings.ts';
import { rnd } from '../../sim/seed/mix.ts';

export const LEVELS = {
  /** Wired places among the five values. */
  slots: [[0, 1, 2, 3, 4], [1], [0, 4], [0, 1, 2], [1, 2, 3, 4], [2], [1, 3, 4], [0, 1, 3, 4]],
  oversampling: [1, 2, 4, 8, 16, 32] as Oversampling[],
  // a narrow clip: less than the still bands, so that these let nothing through
  despike: ['none', 'clip', 'narrow clip', 'median'] as const,
  lowPass: ['none', 'exponential', 'oneEuro', 'adaptive'] as const,
  hysteresis: ['none', 'still', 'drag', 'step', 'drag+still', 'step+still'] as const,
  frameRateHz: [100, 50, 90, 200],
  buttons: [0, 1, 2, 3, 4],
  multiplexer: [false, true],
  rail: [false, true],
  joystick: [false, true],
  dummyRead: [false, true],
  rightHand: [false, true],
  watched: [true, false],
  /** How the strings turn the spools. */
  turn: ['up', 'down', 'both'] as const,
  /** The console and nothing else, or a second UART, watchdog and another attenuation. */
  isPlainBoard: [true, false],
  /** What the file store holds at the start. */
  stored: ['nothing', 'own', 'own, old version', 'other hand', 'damaged'] as const,
  storeFault: ['none', 'full', 'lies', 'throws'] as const,
};

export type Choice = { [K in keyof typeof LEVELS]: (typeof LEVELS)[K][number] };
type Numbers = number[];

const KEYS = Object.keys(LEVELS) as (keyof typeof LEVELS)[];
/** Kinds of one finger's chain: pairs of these count more. */
export const CHAIN: (keyof typeof LEVELS)[] = ['despike', 'lowPass', 'hysteresis'];
const CHAIN_WEIGHT = 8;
/** Draws of which the one with the most new pairs is taken. */
const DRAWS = 500;
const SEED = 20;

/** Every two kinds of a choice, once. */
const PAIRS = KEYS.flatMap((first, a) =>
  KEYS.slice(a + 1).map((second, n) => ({
    a,
    b: a + 1 + n,
    weight: CHAIN.includes(first) && CHAIN.includes(second) ? CHAIN_WEIGHT : 1,
  })),
);
/** Above the number of levels of any kind. */
const RADIX = 10;

/** Number of a pair of levels among all. */
function idOf(pair: number, levels: Numbers): number {
  const { a, b } = PAIRS[pair]!;
  return (pair * RADIX + levels[a]!) * RADIX + levels[b]!;
}

/** The first ones, whatever the count, are always the same. */
export function choices(count: number): Choice[] {
  const seen = new Uint8Array(PAIRS.length * RADIX * RADIX);
  return Array.from({ length: count }, (_, i) => {
    let best: Numbers = [];
    let most = -1;
    // the first one is the plain hand of five
    for (let draw = 0; draw < (i === 0 ? 1 : DRAWS); draw++) {
      const levels = KEYS.map((key, k) =>
        i === 0 ? PLAIN[k]! : rnd(KEYS.length * draw + k, SEED, i) % LEVELS[key].length,
      );
      let fresh = 0;
      for (let pair = 0; pair < PAIRS.length; pair++)
        if (seen[idOf(pair, levels)] === 0) fresh += PAIRS[pair]!.weight;
      if (fresh > most) {
        most = fresh;
        best = levels;
      }
    }
    for (let pair = 0; pair < PAIRS.length; pair++) seen[idOf(pair, best)] = 1;
    return Object.fromEntries(KEYS.map((key, k) => [key, LEVELS[key][best[k]!]])) as Choice;
  });
}

/** Five fingers, eight readings, clip, adaptive, still: what choosing mostly ends with. */
const PLAIN: Numbers = KEYS.map(
  (key) => ({ oversampling: 3, despike: 1, lowPass: 3, hysteresis: 1 })[key as string] ?? 0,
);
