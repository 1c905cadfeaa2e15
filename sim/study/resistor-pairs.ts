import type { BoardId } from '../../firmware/boards/board.ts';

/**
 * Series resistors of the E24 row (IEC 60063), 1 %, that give a 10 k ±20 % potentiometer the widest swing with every
 * corner of tolerance inside the chip's straight range at 3.3 V (computed) and a bottom resistor left, so that a
 * lifted wiper can be told.
 */
export const E24_PAIRS: Record<BoardId, { topOhm: number; bottomOhm: number }> = {
  esp32: { topOhm: 4700, bottomOhm: 820 },
  'esp32-s3': { topOhm: 2200, bottomOhm: 560 },
  'esp32-c3': { topOhm: 4700, bottomOhm: 560 },
};
