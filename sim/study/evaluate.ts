import { pctToReading } from '../../firmware/chain/constants.ts';
import { medianOfThree } from '../../firmware/chain/median.ts';
import type { Settings } from '../../firmware/chain/settings.ts';
import { wordGain, wordOffset } from '../../firmware/chain/word-scale.ts';
import {
  type LaneBlock,
  newLaneBlock,
  runAdaptive,
  runExponential,
  runOneEuro,
  runUnfiltered,
} from './lanes.ts';
import { METRIC, METRICS } from './metrics.ts';
import { type Block, fillLane, OVERSAMPLINGS, planOf } from './plan.ts';
import { fillClosures, fillHeld, scoreClosures } from './score.ts';
import type { Trace } from './trace-types.ts';
import { warmUpSettings, warmUpTrace } from './warm-up.ts';

/** Runs a fixed list of settings over traces. */
export interface Evaluator {
  /**
   * Scores all settings on one trace.
   * @param rows filled: METRICS numbers for each setting, in the order of the list
   */
  scoreAll(trace: Trace, rows: Float64Array): void;
  /** Closures of one setting over a trace, for plots. */
  closures(trace: Trace, index: number): Float64Array;
}

/** Calls after which the engine has compiled the loops. */
const WARM_UP_CALLS = 400;
let warm = false;

/** Once a process; see `warmUpTrace`. */
function warmUp(): void {
  if (warm) return;
  warm = true;
  const settings = warmUpSettings();
  const trace = warmUpTrace();
  const evaluator = createEvaluator(settings, trace.frames);
  const rows = new Float64Array(settings.length * METRICS);
  for (let i = 0; i < WARM_UP_CALLS; i++) evaluator.scoreAll(trace, rows);
}

/**
 * Prepares the evaluation of a list of settings: the order of work is fixed once, then every trace is read
 * in the same order with no allocation.
 * @param frames largest number of frames of a trace
 */
export function createEvaluator(settings: Settings[], frames: number): Evaluator {
  warmUp();
  const blocks = planOf(settings);
  const lanes = newLaneBlock(frames);
  const closure = new Float64Array(frames);
  const held = new Float64Array(frames);
  const middles = new Float64Array(frames);
  let middlesOf: Float64Array | undefined;

  function inputOf(block: Block, trace: Trace): Float64Array {
    const readings = trace.readings[block.oversampling];
    if (!block.median) return readings;
    if (middlesOf !== readings) {
      fillMedians(readings, middles);
      middlesOf = readings;
    }
    return middles.length === readings.length ? middles : middles.subarray(0, readings.length);
  }

  function filter(block: Block, trace: Trace): void {
    const oversampling = OVERSAMPLINGS[block.oversampling];
    const span = Math.abs(trace.ends.closed - trace.ends.open) * oversampling;
    block.lanes.forEach((lane, i) => {
      fillLane(lanes, i, lane, trace.periodS, span);
    });
    runFilter(block, lanes, inputOf(block, trace), 1 / trace.periodS);
  }

  function visit(block: Block, trace: Trace, each: (index: number, squareError: number) => void): void {
    const oversampling = OVERSAMPLINGS[block.oversampling];
    const span = Math.abs(trace.ends.closed - trace.ends.open) * oversampling;
    const gain = wordGain(trace.ends.open, trace.ends.closed, oversampling);
    const offset = wordOffset(trace.ends.open, trace.ends.closed);
    for (let i = 0; i < block.lanes.length; i++) {
      for (const { index, hold, widthPct } of block.lanes[i].members) {
        const at = i * lanes.stride;
        if (hold !== 0) {
          fillHeld(lanes.output, at, trace.frames, hold, pctToReading(widthPct / 2, span), held);
        }
        const squareError =
          hold === 0
            ? fillClosures(lanes.output, at, gain, offset, trace, closure)
            : fillClosures(held, 0, gain, offset, trace, closure);
        each(index, squareError);
      }
    }
  }

  return {
    scoreAll(trace, rows) {
      middlesOf = undefined;
      for (const block of blocks) {
        filter(block, trace);
        visit(block, trace, (index, squareError) => {
          rows[index * METRICS + METRIC.squareError] = squareError;
          scoreClosures(closure, trace, rows, index * METRICS);
        });
      }
    },
    closures(trace, wanted) {
      middlesOf = undefined;
      const block = blocks.find((b) => b.lanes.some((l) => l.members.some((m) => m.index === wanted)));
      if (!block) throw new RangeError(`no settings with index ${wanted}`);
      filter(block, trace);
      let copy = closure;
      visit(block, trace, (index) => {
        if (index === wanted) copy = closure.slice(0, trace.frames);
      });
      return copy;
    },
  };
}

function runFilter(block: Block, lanes: LaneBlock, input: Float64Array, frameRateHz: number): void {
  if (block.filter === 'exponential') runExponential(lanes, input);
  else if (block.filter === 'oneEuro') runOneEuro(lanes, input, frameRateHz);
  else if (block.filter === 'adaptive') runAdaptive(lanes, input);
  else runUnfiltered(lanes, input);
}

/** Middle of the last three readings; the first one stands in for those before it. */
function fillMedians(readings: Float64Array, out: Float64Array): void {
  let before1 = readings[0];
  let before2 = before1;
  for (let f = 0; f < readings.length; f++) {
    out[f] = medianOfThree(readings[f], before1, before2);
    before2 = before1;
    before1 = readings[f];
  }
}
