/*
 * Host only. What each part of the frame costs on the interpreter, in x86 instructions of its Linux build
 * (version 2v29.277, with its assertions), counted with callgrind as the slope between 30 and 70 frames by
 * `npm run measure:board`. A board was not measured:
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
    instructions: 30600,
    each: 'finger',
    status: 'measured',
    origin:
      'specialised frame without any stage (585 k), less what stands above and the words’ range',
  },
  offset: {
    instructions: 3200,
    each: 'finger',
    status: 'measured',
    origin: 'calibration offset on the board or left to the host: 16 k for five fingers',
  },
  saturate: {
    instructions: 12200,
    each: 'finger',
    status: 'measured',
    origin:
      'specialised frame with and without keeping words in their range: 850 - 789 k for five fingers',
  },
  clip: {
    instructions: 14300,
    each: 'finger',
    status: 'measured',
    origin:
      'with and without clip: 850 - 773 k with the still band, 782 - 716 k without, mean of both for a finger',
  },
  median: {
    instructions: 52800,
    each: 'finger',
    status: 'measured',
    origin:
      'median alone against no stage: 849 - 585 k for five fingers',
  },
  exponential: {
    instructions: 4800,
    each: 'finger',
    status: 'measured',
    origin:
      'exponential alone against no stage: 609 - 585 k for five fingers',
  },
  adaptive: {
    instructions: 26200,
    each: 'finger',
    status: 'measured',
    origin:
      'adaptive alone against no stage: 716 - 585 k for five fingers',
  },
  oneEuro: {
    instructions: 55600,
    each: 'finger',
    status: 'measured',
    origin:
      'one euro alone against no stage: 863 - 585 k for five fingers',
  },
  still: {
    instructions: 11400,
    each: 'finger',
    status: 'measured',
    origin:
      'adaptive with and without still band: 773 - 716 k for five fingers',
  },
  drag: {
    instructions: 39600,
    each: 'finger',
    status: 'measured',
    origin:
      'adaptive with and without drag band: 914 - 716 k for five fingers',
  },
  step: {
    instructions: 26400,
    each: 'finger',
    status: 'measured',
    origin:
      'adaptive with and without step band: 848 - 716 k for five fingers',
  },
  main: {
    instructions: 143000,
    each: 'frame',
    status: 'measured',
    origin:
      'whole program without wiper checks against its frame alone: 993 - 850 k; timer guard, try, status, health count',
  },
  wiperCheck: {
    instructions: 20800,
    each: 'finger',
    status: 'measured',
    origin: 'whole program with and without wiper checks: 1097 - 993 k for five fingers',
  },
  rail: {
    instructions: 84000,
    each: 'frame',
    status: 'measured',
    origin: 'whole program with and without rail pin: 1216 - 1097 k, less its eight readings; five fingers',
  },
  axis: {
    instructions: 25000,
    each: 'axis',
    status: 'measured',
    origin: 'whole program with and without a joystick of two axes: 1155 - 1097 k, less two readings',
  },
  buttons: {
    instructions: 39000,
    each: 'frame',
    status: 'measured',
    origin: 'whole program with and without four buttons that stay as they are: 1136 - 1097 k',
  },
  select: {
    instructions: 18800,
    each: 'finger',
    status: 'measured',
    origin:
      'whole program with and without multiplexer: 1191 - 1097 k for five fingers, with a stand-in for the native that sets the lines',
  },
};
