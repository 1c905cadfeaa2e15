import {
  type AttenuationDb,
  adcCurveOf,
  DEFAULT_ATTENUATION_DB,
  expectedCounts,
  FULL_SCALE_COUNTS,
} from '../../firmware/boards/adc-curve.ts';
import type { BoardId } from '../../firmware/boards/board.ts';

export interface AdcPoint {
  volts: number;
  /** Expected reading of an average chip, held within 0-4095, not rounded. */
  counts: number;
}

/** The curve of an average chip at the given voltages, without noise. */
export function adcCurve(
  board: BoardId,
  volts: number[],
  attenuationDb: AttenuationDb = DEFAULT_ATTENUATION_DB,
): AdcPoint[] {
  return volts.map((v) => ({
    volts: v,
    counts: Math.min(Math.max(expectedCounts(board, attenuationDb, v), 0), FULL_SCALE_COUNTS),
  }));
}

/** Where the curve comes from. */
export function adcCurveSource(
  board: BoardId,
  attenuationDb: AttenuationDb = DEFAULT_ATTENUATION_DB,
): string {
  return adcCurveOf(board, attenuationDb).source;
}
