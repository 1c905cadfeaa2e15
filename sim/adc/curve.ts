import {
  type AttenuationDb,
  adcCurveOf,
  expectedCounts,
  FULL_SCALE_COUNTS,
} from '../../firmware/boards/adc-curve.ts';
import type { BoardId } from '../../firmware/boards/board.ts';

/** Reference voltage by design and its bounds between chips, mV (datasheet: ESP-IDF documentation). */
export const VREF_MV = { nominal: 1100, low: 1000, high: 1200 } as const;

/** Highest voltage of a table, mV: a little above the 3.3 V supply. */
const TABLE_TOP_MV = 3600;

/** Share by which a chip with this reference voltage reads more than the average one. */
export function referenceGain(vrefMv: number): number {
  return VREF_MV.nominal / vrefMv;
}

/**
 * One chip's gain, even over the range of reference voltages. That all values are equally likely is assumed;
 * that the same spread holds for the S3 and C3, read without their factory calibration, too.
 * @param uniform one draw, 0-1
 */
export function drawReferenceGain(uniform: number): number {
  return referenceGain(VREF_MV.low + (VREF_MV.high - VREF_MV.low) * uniform);
}

/**
 * The curve of one chip in steps of 1 mV from 0 V, for countsAt.
 * @param gain share of the average chip's reading, 0.917-1.1 within the data sheet
 * @param offsetCounts added everywhere
 * @returns expected readings, counts, neither rounded nor held within 0-4095
 */
export function buildCurveTable(
  board: BoardId,
  attenuationDb: AttenuationDb,
  gain = 1,
  offsetCounts = 0,
): Float64Array {
  const { fromMv, toMv, share } = adcCurveOf(board, attenuationDb).referenceFade;
  const table = new Float64Array(TABLE_TOP_MV + 1);
  for (let mv = 0; mv <= TABLE_TOP_MV; mv++) {
    const faded = Math.min(Math.max((mv - fromMv) / (toMv - fromMv), 0), 1);
    const scale = 1 + (gain - 1) * (1 + (share - 1) * faded);
    table[mv] = expectedCounts(board, attenuationDb, mv / 1000) * scale + offsetCounts;
  }
  return table;
}

/** Expected reading at `volts` on a table of buildCurveTable, prolonged straight beyond both its ends. */
export function countsAt(table: Float64Array, volts: number): number {
  const mv = volts * 1000;
  const last = table.length - 2;
  const whole = Math.floor(mv);
  const i = whole < 0 ? 0 : whole > last ? last : whole;
  return table[i] + (mv - i) * (table[i + 1] - table[i]);
}

/** The code that the converter gives for an expected reading with its noise: whole, 0-4095. */
export function codeOf(counts: number): number {
  const code = Math.floor(counts + 0.5);
  return code < 0 ? 0 : code > FULL_SCALE_COUNTS ? FULL_SCALE_COUNTS : code;
}
