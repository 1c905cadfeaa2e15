import { boardFacts } from '../../firmware/boards/boards.ts';
import type { Rig } from '../rig/rig.ts';
import { dividerOf } from './corners.ts';
import { type FingerSize, sizeFinger } from './finger-size.ts';
import { joined, type Margin, tightest } from './margin.ts';
import { hoursOnCell } from './power.ts';
import { proposeResistors, type ResistorPair } from './resistors.ts';
import { E12, E24 } from './series.ts';

/** Current of the board with its radio off, mA: 30-68 at 240 MHz (ESP32 datasheet); the upper end is taken. */
const BOARD_MA = 68;
/** Usable share of a cell. Assumed. */
const CELL_SHARE = 0.85;

export interface RigSize {
  hands: [number, number];
  fingers: FingerSize[];
  /** Widest pair of each series for the first finger's potentiometer, with open wipers visible. */
  resistors: { e12: ResistorPair | undefined; e24: ResistorPair | undefined };
  /** Board and potentiometers, mA, and hours on a cell of 500 mAh. */
  currentMA: number;
  hoursOn500MAh: number;
  margins: Margin[];
  /** The tightest margin of each group, the worst first. */
  breaksFirst: Margin[];
}

/** @param hands size of the smallest and the largest hand that the rig must fit, 1 = the published mean */
export function sizeRig(rig: Rig, hands: [number, number]): RigSize {
  const fingers = rig.fingers.map((finger) => sizeFinger(rig, finger, hands));
  const margins = joined(fingers.flatMap((finger) => finger.margins));
  const [low, high] = boardFacts(rig.board).adcRangeMv;
  const range = [low / 1000, high / 1000] as const;
  const divider = dividerOf(rig, rig.fingers[0]!);
  const potsMA = rig.fingers.reduce((sum, f) => {
    const totalOhm = f.wiring.topOhm + f.potentiometer.resistanceOhm + f.wiring.bottomOhm;
    return sum + (1000 * rig.supply.volts) / totalOhm;
  }, 0);
  const currentMA = BOARD_MA + potsMA;
  return {
    hands,
    fingers,
    resistors: {
      e12: proposeResistors(divider, range, E12, true),
      e24: proposeResistors(divider, range, E24, true),
    },
    currentMA,
    hoursOn500MAh: hoursOnCell(500, CELL_SHARE, currentMA),
    margins,
    breaksFirst: tightest(margins),
  };
}
