/*
 * Host only. What each part of the frame costs on the interpreter, in x86 instructions of its Linux build
 * (version 2v29.277), counted with callgrind as the slope between 30 and 70 frames. A board was not measured:
 * times derived from these figures are good to a factor of 2.
 *
 * Parts are not counted one by one: they are the differences between whole frame programs (`measured`), or
 * come from the cost of single language constructs (`derived`). Constructs are multiplied by 0.84, the ratio
 * at which the constructs of the adaptive filter with its band add up to its measured difference.
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
  | 'step';

export interface CostFigure {
  /** Instructions, while every finger moves (the dearest case). */
  instructions: number;
  /** What it is spent on once: a frame, a reading or a finger. */
  each: 'frame' | 'reading' | 'finger';
  status: 'measured' | 'derived';
  origin: string;
}

/** Processor cycles per counted instruction, from one published loop at 84 MHz. */
export const CYCLES_PER_INSTRUCTION = 0.77;

export const COST_FIGURES: { [part in CostPart]: CostFigure } = {
  frame: {
    instructions: 59000,
    each: 'frame',
    status: 'measured',
    origin: 'program that only acquires 40 readings and writes 20 bytes (215 k), less its 40 readings',
  },
  header: {
    instructions: 47000,
    each: 'frame',
    status: 'derived',
    origin: 'device time about 24 k, native CRC-32 of 18 bytes and its store 22.5 k',
  },
  sequence: {
    instructions: 23000,
    each: 'frame',
    status: 'measured',
    origin: 'frame program with and without sequence and status: 23 k',
  },
  acquire: {
    instructions: 3900,
    each: 'reading',
    status: 'measured',
    origin: 'native mapInPlace for each element, with a stand-in for the read itself',
  },
  sumElement: {
    instructions: 490,
    each: 'reading',
    status: 'measured',
    origin: 'native E.sum for each element',
  },
  fingerSum: {
    instructions: 10000,
    each: 'finger',
    status: 'measured',
    origin: 'call of a cached E.sum on a view of 8 (13.9 k), less its 8 elements',
  },
  fingerPack: {
    instructions: 9100,
    each: 'finger',
    status: 'measured',
    origin: 'program that sends the plain sums (400 k) less what stands above',
  },
  offset: {
    instructions: 3200,
    each: 'finger',
    status: 'measured',
    origin: 'calibration offset on the board or left to the host: 16 k for five fingers',
  },
  saturate: {
    instructions: 9000,
    each: 'finger',
    status: 'derived',
    origin: 'clamping the word of a channel: 9 k of constructs',
  },
  clip: {
    instructions: 12600,
    each: 'finger',
    status: 'measured',
    origin: 'with and without clip: 681 - 612 k at 8 readings, 533 - 478 k at 4, mean of both for a finger',
  },
  median: {
    instructions: 50000,
    each: 'finger',
    status: 'derived',
    origin: 'three stores, three comparisons, three ?: and skipped text: 60 k of constructs',
  },
  exponential: {
    instructions: 15500,
    each: 'finger',
    status: 'derived',
    origin: 'difference, product, sum and two stores: 18.5 k of constructs',
  },
  adaptive: {
    instructions: 26800,
    each: 'finger',
    status: 'measured',
    origin: 'merged adaptive filter and band (612 k), less what stands above and the band',
  },
  oneEuro: {
    instructions: 42600,
    each: 'finger',
    status: 'measured',
    origin: 'one euro in place of the adaptive filter: 939 - 860 k for five fingers, on top of `adaptive`',
  },
  still: {
    instructions: 12400,
    each: 'finger',
    status: 'derived',
    origin: 'square, comparison and a taken branch: 14.8 k of constructs',
  },
  drag: {
    instructions: 50000,
    each: 'finger',
    status: 'measured',
    origin:
      'separate clip, adaptive, calibrate, band stages (860 k) less the other stages; includes that program testing both ends',
  },
  step: {
    instructions: 22400,
    each: 'finger',
    status: 'derived',
    origin: 'difference, square, comparison, taken branch and store: 26.7 k of constructs',
  },
};
