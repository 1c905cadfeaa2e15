import { adaptive } from '../../firmware/chain/adaptive.ts';
import { clip } from '../../firmware/chain/clip.ts';
import { exponential } from '../../firmware/chain/exponential.ts';
import { moves } from '../../firmware/chain/hysteresis.ts';
import { oneEuro, oneEuroSpeed } from '../../firmware/chain/one-euro.ts';

/** Settings that are filtered side by side: their divisions overlap in the processor's pipeline. */
export const LANES = 4;

/**
 * Constants and output of up to LANES filters that run over the same readings. The stages are the board's own
 * functions; only the order of the work differs (all lanes of a frame, then the next frame). Unused lanes
 * repeat harmless numbers.
 */
export interface LaneBlock {
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

/** Distance between lanes that keeps them out of each other's way in the processor's cache. */
function strideOf(frames: number): number {
  return frames + 24;
}

/** Work space for traces of up to `frames` frames. */
export function newLaneBlock(frames: number): LaneBlock {
  const lane = () => new Float64Array(LANES).fill(1);
  return {
    limit: lane(),
    bandSquared: lane(),
    first: lane(),
    second: lane(),
    third: lane(),
    output: new Float64Array(strideOf(frames) * LANES),
    stride: strideOf(frames),
  };
}

/** No low-pass: the clip and the still band alone. */
export function runUnfiltered(block: LaneBlock, readings: Float64Array): void {
  const { limit, bandSquared, output, stride } = block;
  for (let i = 0; i < LANES; i++) {
    const at = i * stride;
    const most = limit[i];
    const band = bandSquared[i];
    let level = readings[0];
    for (let f = 0; f < readings.length; f++) {
      const step = clip(readings[f] - level, most);
      if (moves(step, band)) level = level + step;
      output[at + f] = level;
    }
  }
}

// The loops below write four lanes out by hand: in local variables they run twice as fast as in arrays.

/** Runs the exponential filter of every lane over a trace. */
export function runExponential(block: LaneBlock, readings: Float64Array): void {
  const { limit, bandSquared, first, output, stride } = block;
  const limitA = limit[0];
  const limitB = limit[1];
  const limitC = limit[2];
  const limitD = limit[3];
  const bandA = bandSquared[0];
  const bandB = bandSquared[1];
  const bandC = bandSquared[2];
  const bandD = bandSquared[3];
  const gainA = first[0];
  const gainB = first[1];
  const gainC = first[2];
  const gainD = first[3];
  let a = readings[0];
  let b = a;
  let c = a;
  let d = a;
  for (let f = 0; f < readings.length; f++) {
    const x = readings[f];
    const stepA = clip(x - a, limitA);
    if (moves(stepA, bandA)) a = exponential(a, stepA, gainA);
    output[f] = a;
    const stepB = clip(x - b, limitB);
    if (moves(stepB, bandB)) b = exponential(b, stepB, gainB);
    output[stride + f] = b;
    const stepC = clip(x - c, limitC);
    if (moves(stepC, bandC)) c = exponential(c, stepC, gainC);
    output[2 * stride + f] = c;
    const stepD = clip(x - d, limitD);
    if (moves(stepD, bandD)) d = exponential(d, stepD, gainD);
    output[3 * stride + f] = d;
  }
}

/** Runs the adaptive filter of every lane over a trace. */
export function runAdaptive(block: LaneBlock, readings: Float64Array): void {
  const { limit, bandSquared, first, second, output, stride } = block;
  const limitA = limit[0];
  const limitB = limit[1];
  const limitC = limit[2];
  const limitD = limit[3];
  const bandA = bandSquared[0];
  const bandB = bandSquared[1];
  const bandC = bandSquared[2];
  const bandD = bandSquared[3];
  const baseA = first[0];
  const baseB = first[1];
  const baseC = first[2];
  const baseD = first[3];
  const riseA = second[0];
  const riseB = second[1];
  const riseC = second[2];
  const riseD = second[3];
  let a = readings[0];
  let b = a;
  let c = a;
  let d = a;
  for (let f = 0; f < readings.length; f++) {
    const x = readings[f];
    const stepA = clip(x - a, limitA);
    if (moves(stepA, bandA)) a = adaptive(a, stepA, baseA, riseA);
    output[f] = a;
    const stepB = clip(x - b, limitB);
    if (moves(stepB, bandB)) b = adaptive(b, stepB, baseB, riseB);
    output[stride + f] = b;
    const stepC = clip(x - c, limitC);
    if (moves(stepC, bandC)) c = adaptive(c, stepC, baseC, riseC);
    output[2 * stride + f] = c;
    const stepD = clip(x - d, limitD);
    if (moves(stepD, bandD)) d = adaptive(d, stepD, baseD, riseD);
    output[3 * stride + f] = d;
  }
}

/** Runs the one euro filter of every lane over a trace. */
export function runOneEuro(block: LaneBlock, readings: Float64Array, frameRateHz: number): void {
  const { limit, bandSquared, first, second, third, output, stride } = block;
  // Two lanes at a time: with their speeds, four would not fit the processor's registers.
  for (let i = 0; i < LANES; i += 2) {
    const atA = i * stride;
    const atB = atA + stride;
    const limitA = limit[i];
    const limitB = limit[i + 1];
    const bandA = bandSquared[i];
    const bandB = bandSquared[i + 1];
    const baseA = first[i];
    const baseB = first[i + 1];
    const riseA = second[i];
    const riseB = second[i + 1];
    const gainA = third[i];
    const gainB = third[i + 1];
    let a = readings[0];
    let b = a;
    let speedA = 0;
    let speedB = 0;
    output[atA] = a;
    output[atB] = b;
    for (let f = 1; f < readings.length; f++) {
      const x = readings[f];
      const stepA = clip(x - a, limitA);
      speedA = oneEuroSpeed(speedA, stepA, frameRateHz, gainA);
      if (moves(stepA, bandA)) a = oneEuro(a, stepA, speedA, baseA, riseA);
      output[atA + f] = a;
      const stepB = clip(x - b, limitB);
      speedB = oneEuroSpeed(speedB, stepB, frameRateHz, gainB);
      if (moves(stepB, bandB)) b = oneEuro(b, stepB, speedB, baseB, riseB);
      output[atB + f] = b;
    }
  }
}
