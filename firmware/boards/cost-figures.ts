/*
 * Host only. What each part of the frame costs on the interpreter, in x86 instructions of its Linux build
 * (version 2v29.277 of espruino/Espruino c5ff787, made with RELEASE=1, so without assertions), counted with callgrind
 * as the slope between 30 and 70 frames by `npm run measure:board`. A board was not measured: times derived from these
 * figures are good to a factor of 2.
 *
 * Parts are not counted one by one: they are the differences between whole frame programs (`measured`), or
 * come from the cost of single language constructs (`derived`).
 */

export type CostPart =
  | 'frame'
  | 'header'
  | 'sequence'
  | 'acquire'
  | 'sumElement'
  | 'fingerSum'
  | 'fingerPack'
  | 'offset'
  | 'saturate'
  | 'clip'
  | 'median'
  | 'exponential'
  | 'adaptive'
  | 'oneEuro'
  | 'still'
  | 'drag'
  | 'step'
  | 'main'
  | 'wiperCheck'
  | 'rail'
  | 'axis'
  | 'buttons'
  | 'select';

export interface CostFigure {
  /** Instructions, while every finger moves (the dearest case). */
  instructions: number;
  /** What it is spent on once: a frame, a reading or a finger. */
  each: 'frame' | 'reading' | 'finger' | 'axis';
  status: 'measured' | 'derived';
  origin: string;
}

/** Processor cycles per counted instruction, from one published loop at 84 MHz. */
export const CYCLES_PER_INSTRUCTION = 0.77;

export const COST_FIGURES: { [part in CostPart]: CostFigure } = {
  frame: {
    instructions: 65000,
    each: 'frame',
    status: 'measured',
    origin: 'program that only reads 40 times and writes 20 bytes (191 k), less its readings',
  },
  header: {
    instructions: 42000,
    each: 'frame',
    status: 'derived',
    origin: 'device time about 21 k, native CRC-32 of 18 bytes and its store 20 k',
  },
  sequence: {
    instructions: 21000,
    each: 'frame',
    status: 'derived',
    origin: 'constructs: a sum and a store into a typed array',
  },
  acquire: {
    instructions: 3150,
    each: 'reading',
    status: 'measured',
    origin: 'default frame with 8 and with 4 readings: 761 - 689 k for 20 readings, less their sums',
  },
  sumElement: {
    instructions: 450,
    each: 'reading',
    status: 'derived',
    origin: 'native E.sum for each element',
  },
  fingerSum: {
    instructions: 9000,
    each: 'finger',
    status: 'derived',
    origin: 'call of a bound E.sum, less its elements',
  },
  fingerPack: {
    instructions: 26900,
    each: 'finger',
    status: 'measured',
    origin: 'specialised frame without any stage (524 k), less what stands above and the words’ range',
  },
  offset: {
    instructions: 2900,
    each: 'finger',
    status: 'derived',
    origin: 'constructs: a sum with a variable',
  },
  saturate: {
    instructions: 11600,
    each: 'finger',
    status: 'measured',
    origin: 'specialised frame with and without keeping words in their range: 761 - 703 k for five fingers',
  },
  clip: {
    instructions: 13200,
    each: 'finger',
    status: 'measured',
    origin:
      'with and without clip: 761 - 689 k with the still band, 699 - 639 k without, mean of both for a finger',
  },
  median: {
    instructions: 46800,
    each: 'finger',
    status: 'measured',
    origin: 'median alone against no stage: 758 - 524 k for five fingers',
  },
  exponential: {
    instructions: 4200,
    each: 'finger',
    status: 'measured',
    origin: 'exponential alone against no stage: 545 - 524 k for five fingers',
  },
  adaptive: {
    instructions: 23000,
    each: 'finger',
    status: 'measured',
    origin: 'adaptive alone against no stage: 639 - 524 k for five fingers',
  },
  oneEuro: {
    instructions: 49400,
    each: 'finger',
    status: 'measured',
    origin: 'one euro alone against no stage: 771 - 524 k for five fingers',
  },
  still: {
    instructions: 10000,
    each: 'finger',
    status: 'measured',
    origin: 'adaptive with and without still band: 689 - 639 k for five fingers',
  },
  drag: {
    instructions: 35800,
    each: 'finger',
    status: 'measured',
    origin: 'adaptive with and without drag band: 818 - 639 k for five fingers',
  },
  step: {
    instructions: 26000,
    each: 'finger',
    status: 'measured',
    origin: 'adaptive with and without step band: 769 - 639 k for five fingers',
  },
  main: {
    instructions: 130000,
    each: 'frame',
    status: 'measured',
    origin:
      'whole program without wiper checks against its frame alone: 891 - 761 k; timer guard, try, status, health count',
  },
  wiperCheck: {
    instructions: 19000,
    each: 'finger',
    status: 'measured',
    origin: 'whole program with and without wiper checks: 986 - 891 k for five fingers',
  },
  rail: {
    instructions: 78000,
    each: 'frame',
    status: 'measured',
    origin: 'whole program with and without rail pin: 1093 - 986 k, less its eight readings; five fingers',
  },
  axis: {
    instructions: 22000,
    each: 'axis',
    status: 'measured',
    origin: 'whole program with and without a joystick of two axes: 1037 - 986 k, less two readings',
  },
  buttons: {
    instructions: 35000,
    each: 'frame',
    status: 'measured',
    origin: 'whole program with and without four buttons that stay as they are: 1021 - 986 k',
  },
  select: {
    instructions: 16600,
    each: 'finger',
    status: 'measured',
    origin:
      'whole program with and without multiplexer: 1069 - 986 k for five fingers, with a stand-in for the native that sets the lines',
  },
};
