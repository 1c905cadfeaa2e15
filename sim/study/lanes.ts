import { adaptive } from '../../firmware/chain/adaptive.ts';
import { clip } from '../../firmware/chain/clip.ts';
import { exponential } from '../../firmware/chain/exponential.ts';
import { moves } from '../../firmware/chain/hysteresis.ts';
import { oneEuro, oneEuroSpeed } from '../../firmware/chain/one-euro.ts';

/** Settings that are filtered side by side: their divisions overlap in the processor's pipeline. */
export const LANES = 8;

/**
 * State and constants of up to LANES filters that run over the same readings, as structure of arrays. The
 * stages are the board's own functions; only the order of the work differs (all lanes of a frame, then the
 * next frame).
 */
export interface LaneBlock {
  level: Float64Array;
  speed: Float64Array;
  limit: Float64Array;
  bandSquared: Float64Array;
  /** Exponential: gain. One euro and adaptive: base. */
  first: Float64Array;
  /** One euro and adaptive: rise. */
  second: Float64Array;
  /** One euro: gain of the speed. */
  third: Float64Array;
  /** Smoothed readings, [lane][frame], lanes `stride` apart. */
  output: Float64Array;
  stride: number;
}

/** Distance between lanes that keeps them out of each other's cache lines' way. */
function strideOf(frames: number): number {
  return frames + 24;
}

/** Work space for traces of up to `frames` frames. */
export function newLaneBlock(frames: number): LaneBlock {
  const lane = () => new Float64Array(LANES);
  return {
    level: lane(),
    speed: lane(),
    limit: lane(),
    bandSquared: lane(),
    first: lane(),
    second: lane(),
    third: lane(),
    output: new Float64Array(strideOf(frames) * LANES),
    stride: strideOf(frames),
  };
}

function start(block: LaneBlock, readings: Float64Array, lanes: number): void {
  const { level, speed, output, stride } = block;
  for (let i = 0; i < lanes; i++) {
    level[i] = readings[0];
    speed[i] = 0;
    output[i * stride] = readings[0];
  }
}

/** Runs the exponential filter of every lane over a trace. */
export function runExponential(block: LaneBlock, readings: Float64Array, lanes: number): void {
  const { level, limit, bandSquared, first, output, stride } = block;
  start(block, readings, lanes);
  for (let f = 1; f < readings.length; f++) {
    const reading = readings[f];
    for (let i = 0; i < lanes; i++) {
      const step = clip(reading - level[i], limit[i]);
      if (moves(step, bandSquared[i])) level[i] = exponential(level[i], step, first[i]);
      output[i * stride + f] = level[i];
    }
  }
}

/** Runs the adaptive filter of every lane over a trace. */
export function runAdaptive(block: LaneBlock, readings: Float64Array, lanes: number): void {
  const { level, limit, bandSquared, first, second, output, stride } = block;
  start(block, readings, lanes);
  for (let f = 1; f < readings.length; f++) {
    const reading = readings[f];
    for (let i = 0; i < lanes; i++) {
      const step = clip(reading - level[i], limit[i]);
      if (moves(step, bandSquared[i])) level[i] = adaptive(level[i], step, first[i], second[i]);
      output[i * stride + f] = level[i];
    }
  }
}

/** Runs the one euro filter of every lane over a trace. */
export function runOneEuro(
  block: LaneBlock,
  readings: Float64Array,
  lanes: number,
  frameRateHz: number,
): void {
  const { level, speed, limit, bandSquared, first, second, third, output, stride } = block;
  start(block, readings, lanes);
  for (let f = 1; f < readings.length; f++) {
    const reading = readings[f];
    for (let i = 0; i < lanes; i++) {
      const step = clip(reading - level[i], limit[i]);
      speed[i] = oneEuroSpeed(speed[i], step, frameRateHz, third[i]);
      if (moves(step, bandSquared[i])) level[i] = oneEuro(level[i], step, speed[i], first[i], second[i]);
      output[i * stride + f] = level[i];
    }
  }
}

/** No low-pass: the clip and the still band alone. */
export function runUnfiltered(block: LaneBlock, readings: Float64Array, lanes: number): void {
  const { level, limit, bandSquared, output, stride } = block;
  start(block, readings, lanes);
  for (let f = 1; f < readings.length; f++) {
    const reading = readings[f];
    for (let i = 0; i < lanes; i++) {
      const step = clip(reading - level[i], limit[i]);
      if (moves(step, bandSquared[i])) level[i] = level[i] + step;
      output[i * stride + f] = level[i];
    }
  }
}
