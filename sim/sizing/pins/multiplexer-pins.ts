/**
 * Terminals of a multiplexer of the 74HC4051 type, by the number on its 16-pin package (datasheet: TI SN74LV4051A,
 * CD74HC4051; the same for all of the type). The datasheets call them differently: COM is also A or Z, E also INH.
 */
export const MULTIPLEXER = {
  name: '74HC4051',
  /** Number of each input Y0 to Y7. */
  inputs: [13, 14, 15, 12, 1, 5, 2, 4],
  /** Number of each select line S0 to S2. */
  selects: [11, 10, 9],
  common: 3,
  enable: 6,
  negative: 7,
  ground: 8,
  positive: 16,
} as const;
