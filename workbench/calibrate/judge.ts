/** Judges what a hand showed during a capture, finger by finger, before anything is stored. */

/** Samples of one finger during one step: share of the planned travel; null where it sent no valid value. */
export type Samples = readonly (number | null)[];

/** One finger through a whole capture. */
export interface FingerCapture {
  name: string;
  rest: Samples;
  /** Two or more times each, in the order in which they were asked for. */
  open: readonly Samples[];
  fist: readonly Samples[];
  /** Poses between the ends. */
  poses?: readonly { name: string; closure: number; samples: Samples }[];
}

export interface FingerJudgement {
  name: string;
  isGood: boolean;
  /**
   * Robust ends, in the unit of the samples: medians of the poses, single wrong samples left out; of the open hand the
   * last one, of the fists the middle.
   */
  open: number;
  closed: number;
  /** Ends and poses between them, from open to closed; in the unit of the samples. */
  points: { closure: number; level: number }[];
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
/** Fewest samples of a pose. */
const LEAST_SAMPLES = 20;
/** Least distance of two neighbouring poses, share of the span. Assumed. */
const LEAST_STEP = 0.03;

/** The level of a pose: the median of its second half, when the hand and the filter have come to rest; without glitches. */
export function levelOf(samples: Samples): number {
  const kept = withoutGlitches(samples.slice(samples.length >> 1));
  return kept.length === 0 ? Number.NaN : median(kept);
}

function withoutGlitches(samples: Samples): number[] {
  const valid = samples.filter((value): value is number => value !== null);
  return valid.filter((_, i) => !isGlitch(valid, i));
}

function countGlitches(samples: Samples): number {
  const valid = samples.filter((value) => value !== null).length;
  return valid - withoutGlitches(samples).length;
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
  const rows = [finger.rest, ...finger.open, ...finger.fist];
  const all = rows.flat();
  const glitches = rows.reduce((sum, row) => sum + countGlitches(row), 0);
  // The last time: it was gone to from a fist, as in use. Before that, nobody knows which side the play was on.
  const open = opens[opens.length - 1]!;
  const closed = median(fists);
  const result: FingerJudgement = {
    name: finger.name,
    open,
    closed,
    points: [],
    glitches,
    problems,
    isGood: false,
  };
  const fewest = Math.min(...rows.map(({ length }) => length));
  if (fewest < LEAST_SAMPLES) {
    problems.push({
      seen: `${finger.name}: only ${fewest} frames came while a pose was held`,
      expected: `at least ${LEAST_SAMPLES}`,
      next: 'look at the link first: port, cable, frames a second',
    });
    return result;
  }
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
  if (rest > MOST_REST) {
    problems.push({
      seen: `${finger.name} moved by ${pct(rest)} during the rest`,
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
      const apart = (Math.max(...levels) - Math.min(...levels)) / span;
      if (apart > MOST_APART) {
        problems.push({
          seen: `${finger.name}: ${pose} came out ${pct(apart)} of the span apart`,
          expected: `repeats within ${pct(MOST_APART)}`,
          next: 'open and close as far each time; if you did, look for play or a slipping spool',
        });
      }
    }
    result.points = pointsOf(finger, open, closed, problems);
  }
  result.isGood = problems.length === 0;
  return result;
}

/** Points of the calibration curve, from open to closed; complains of poses that do not lie in order. */
function pointsOf(
  finger: FingerCapture,
  open: number,
  closed: number,
  problems: FingerJudgement['problems'],
): FingerJudgement['points'] {
  const poses = [...(finger.poses ?? [])].sort((a, b) => a.closure - b.closure);
  const points = [{ closure: 0, level: open, name: 'open' }];
  for (const { name, closure, samples } of poses) points.push({ name, closure, level: levelOf(samples) });
  points.push({ closure: 1, level: closed, name: 'the fist' });
  for (let i = 1; i < points.length; i++) {
    const [before, point] = [points[i - 1]!, points[i]!];
    const step = (point.level - before.level) / (closed - open);
    if (step >= LEAST_STEP) continue;
    problems.push({
      seen: `${finger.name}: ${point.name} came out ${pct(step)} of the span beyond ${before.name}`,
      expected: `at least ${pct(LEAST_STEP)}: each pose farther closed than the one before`,
      next: 'capture again and hold the poses in their order',
    });
  }
  return points.map(({ closure, level }) => ({ closure, level }));
}

/** Samples whose median is a level at rest: a wrong reading leaves a tail of some ten samples behind the filter. Assumed. */
const BLOCK = 25;

/** How far a resting finger wanders: its largest less its smallest level, over medians of some samples. */
function steadiness(samples: Samples): number {
  const kept = withoutGlitches(samples);
  const blocks: number[] = [];
  for (let i = 0; i + BLOCK <= kept.length; i += BLOCK) blocks.push(median(kept.slice(i, i + BLOCK)));
  return blocks.length === 0 ? 0 : Math.max(...blocks) - Math.min(...blocks);
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

function pct(share: number): string {
  return `${(100 * share).toFixed(share !== 0 && Math.abs(share) < 0.01 ? 2 : 1)} %`;
}
