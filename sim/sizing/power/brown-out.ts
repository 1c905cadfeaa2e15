import type { Rig } from '../../rig/rig.ts';
import { E6, valueAbove } from '../wiring/series.ts';
import { bufferF } from './power.ts';
import { POWER_MODES } from './power-modes.ts';

/** Rail of the board, V: potentiometers on more than that hang on another. */
const BOARD_V = 3.3;
/** Voltage at which the chip's own detector restarts it, V: from memory of the ESP-IDF default. */
const DETECTOR_V = 2.43;
/**
 * Dips at the start of the radio, V: of a good and of a poor regulator on boards of one make (measured by a reader
 * of wled/WLED#5570).
 */
const GOOD_DIP_V = 0.14;
const POOR_DIP_V = 0.9;
/** Time until a regulator answers the starting radio, s, and by how much the voltage may fall meanwhile, V. Assumed. */
const ANSWER_S = 100e-6;
const DIP_V = 0.2;

/** What is left of the supply when the radio starts. */
export interface BrownOut {
  detectorV: number;
  /** Lowest supply with a good and with a poor regulator, V. */
  goodV: number;
  poorV: number;
  /** Rise of the current, A, and the E6 capacitor that carries it, F. */
  stepA: number;
  capacitorF: number;
}

export function brownOutOf(rig: Rig): BrownOut {
  const restV = Math.min(BOARD_V, rig.supply.volts) * (1 - rig.supply.tolerance) * (1 - rig.supply.sag);
  const currentOf = (id: string) => POWER_MODES.find((mode) => mode.id === id)!.boardMA;
  const stepA = (currentOf('wifi') - currentOf('radioOff')) / 1000;
  return {
    detectorV: DETECTOR_V,
    goodV: restV - GOOD_DIP_V,
    poorV: restV - POOR_DIP_V,
    stepA,
    capacitorF: valueAbove(E6, bufferF(stepA, ANSWER_S, DIP_V) * 1e12) / 1e12,
  };
}
