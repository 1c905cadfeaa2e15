/** Judges what a hand showed during a capture, finger by finger, before anything is stored. */

/** Samples of one finger during one step: travel by the board's present ends; null where it sent no valid value. */
export type Samples = readonly (number | null)[];

/** One finger through a whole capture. */
export interface FingerCapture {
  name: string;
  rest: Samples;
  /** Two or more times each, in the order in which they were asked for. */
  open: readonly Samples[];
  fist: readonly Samples[];
}

export interface FingerJudgement {
  name: string;
  isGood: boolean;
  /** Robust ends, travel by the present ends. */
  open: number;
  closed: number;
  /** Single wrong samples that were left out. */
  glitches: number;
  /** What was seen, what was expected, what to do; empty when it is good. */
  problems: { seen: string; expected: string; next: string }[];
}

/** Most movement at rest, share of the planned travel (largest less smallest level). Assumed: three times the tremor. */
const MOST_REST = 0.04;
/** Least span, share of the planned travel. */
const LEAST_SPAN = 0.25;
/** Most difference of the same pose between repeats, share of the span. Assumed. */
const MOST_APART = 0.06;
/** Most single wrong samples, share: beyond this the wiring comes first. Assumed. */
const MOST_GLITCHES = 0.03;
/** Least share of valid samples. */
const LEAST_VALID = 0.9;
/** A sample this far from its neighbours is a glitch, share of the planned travel. */
const GLITCH = 0.08;

/** The level of a pose: the median of its last two thirds, without glitches. */
export function levelOf(samples: Samples): { level: number; glitches: number; valid: number } {
  const late = samples.slice(Math.floor(samples.length / 3));
  const valid = late.filter((value): value is number => value !== null);
  const kept = valid.filter((_, i) => !isGlitch(valid, i));
  const glitches = valid.length - kept.length;
  return {
    level: kept.length === 0 ? Number.NaN : median(kept),
    glitches,
    valid: valid.length / Math.max(1, late.length),
  };
}

/** Far from the sample before and from the one behind, which agree with each other. */
function isGlitch(values: readonly number[], i: number): boolean {
  const before = values[i - 1] ?? values[i + 2] ?? values[i]!;
  const behind = values[i + 1] ?? values[i - 2] ?? values[i]!;
  const value = values[i]!;
  return (
    Math.abs(value - before) > GLITCH &&
    Math.abs(value - behind) > GLITCH &&
    Math.abs(before - behind) <= GLITCH
  );
}

export function judgeFinger(finger: FingerCapture): FingerJudgement {
  const problems: FingerJudgement['problems'] = [];
  const opens = finger.open.map(levelOf);
  const fists = finger.fist.map(levelOf);
  const rest = steadiness(finger.rest);
  const all = [...finger.open, ...finger.fist, finger.rest].flat();
  const glitches = [...opens, ...fists].reduce((sum, one) => sum + one.glitches, 0) + rest.glitches;
  const open = median(opens.map(({ level }) => level));
  const closed = median(fists.map(({ level }) => level));
  const result = { name: finger.name, open, closed, glitches, problems, isGood: false };
  const valid = all.filter((value) => value !== null).length / Math.max(1, all.length);
  if (!(valid >= LEAST_VALID)) {
    problems.push({
      seen: `${finger.name}: no valid value in ${pct(1 - valid)} of the frames`,
      expected: `at most ${pct(1 - LEAST_VALID)}`,
      next: 'look at the wiper first: view Diagnose',
    });
    return result;
  }
  if (glitches > MOST_GLITCHES * all.length) {
    problems.push({
      seen: `${finger.name}: ${glitches} single wrong readings in ${all.length}`,
      expected: `at most ${pct(MOST_GLITCHES)}`,
      next: 'find where they come from first: view Diagnose',
    });
  }
  if (rest.range > MOST_REST) {
    problems.push({
      seen: `${finger.name} moved by ${pct(rest.range)} during the rest`,
      expected: `at most ${pct(MOST_REST)}`,
      next: 'lay the hand down and begin again',
    });
  }
  const span = closed - open;
  if (span <= -LEAST_SPAN) {
    problems.push({
      seen: `${finger.name} runs backwards: open ${pct(open)}, fist ${pct(closed)} of the planned travel`,
      expected: 'a value that grows as the finger closes',
      next: 'swap the outer legs of its potentiometer',
    });
  } else if (span < LEAST_SPAN) {
    problems.push({
      seen: `${finger.name} moved by ${pct(Math.abs(span))} of the planned travel`,
      expected: `at least ${pct(LEAST_SPAN)}`,
      next: 'close the whole fist; if you did, look whether the string slips or hangs',
    });
  } else {
    for (const [pose, levels] of [
      ['open', opens],
      ['closed', fists],
    ] as const) {
      const values = levels.map(({ level }) => level);
      const apart = (Math.max(...values) - Math.min(...values)) / span;
      if (apart > MOST_APART) {
        problems.push({
          seen: `${finger.name}: ${pose} came out ${pct(apart)} of the span apart`,
          expected: `repeats within ${pct(MOST_APART)}`,
          next: 'open and close as far each time; if you did, look for play or a slipping spool',
        });
      }
    }
  }
  result.isGood = problems.length === 0;
  return result;
}

/** How far a resting finger wanders: its largest less its smallest level, over means of a few samples. */
function steadiness(samples: Samples): { range: number; glitches: number } {
  const valid = samples.filter((value): value is number => value !== null);
  const kept = valid.filter((_, i) => !isGlitch(valid, i));
  if (kept.length === 0) return { range: 0, glitches: 0 };
  const blocks: number[] = [];
  for (let i = 0; i + 5 <= kept.length; i += 5) blocks.push(median(kept.slice(i, i + 5)));
  const range = blocks.length === 0 ? 0 : Math.max(...blocks) - Math.min(...blocks);
  return { range, glitches: valid.length - kept.length };
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

function pct(share: number): string {
  return `${(100 * share).toFixed(share !== 0 && Math.abs(share) < 0.01 ? 2 : 1)} %`;
}
