/*
 * Host only: the board sends what it read, the host turns it into volts. One module for both directions, so that
 * the simulated chip and the host's linearisation cannot drift apart.
 */
import type { BoardId } from './board.ts';

/** Input attenuation of the ADC, dB. Newer data sheets call the last one 12 dB. */
export type AttenuationDb = 0 | 2.5 | 6 | 11;
export const ATTENUATIONS_DB: AttenuationDb[] = [0, 2.5, 6, 11];
/** What the interpreter sets at start (read in espruino/Espruino c5ff787). */
export const DEFAULT_ATTENUATION_DB: AttenuationDb = 11;
export const FULL_SCALE_COUNTS = 4095;

/** Expected reading of an average chip: straight lines between knots, and beyond the outer two. */
export interface AdcCurve {
  /** Voltage at the pin, mV, rising. */
  mv: number[];
  /** Expected 12-bit reading there, counts, rising; below 0 and above 4095 the reading sticks at the end. */
  counts: number[];
  /**
   * How far a chip's own reference voltage still scales the reading: fully (1) up to the first voltage, mV, and
   * `share` from the second on. The bend at the top belongs to the supply, not to the reference.
   */
  referenceFade: { fromMv: number; toMv: number; share: number };
  source: string;
}

const NO_FADE = { fromMv: 3300, toMv: 3400, share: 1 };

/** A straight line through (zeroMv, 0) and (knownMv, knownCounts), up to full scale. */
function line(zeroMv: number, knownMv: number, knownCounts: number, source: string): AdcCurve {
  const fullMv = zeroMv + ((knownMv - zeroMv) * FULL_SCALE_COUNTS) / knownCounts;
  return { mv: [zeroMv, fullMv], counts: [0, FULL_SCALE_COUNTS], referenceFade: NO_FADE, source };
}

/** The vendor's own line of the original chip: mV = offset + counts·scale·Vref/2^28, Vref = 1100 mV. */
function vendorLine(scale: number, offsetMv: number): AdcCurve {
  return line(
    offsetMv,
    offsetMv + (1100 * scale) / 65536,
    4096,
    'datasheet: line of the vendor library for Vref 1100 mV (espressif/esp-idf f2b538b, esp_adc_cal)',
  );
}

const S3_DOCS =
  'datasheet: Vout = Dout·Vmax/4095 with Vmax of the ESP-IDF 4.4 documentation; 4095 calibrated to 3.08-3.11 V in espressif/esp-idf#12218';
const C3_CALIBRATION =
  'datasheet: factory calibration expects about 2000 counts at this voltage (espressif/esp-idf 40b57d9, esp_efuse_rtc_calib), through zero';

const curves: { [board in BoardId]: { [db in AttenuationDb]: AdcCurve } } = {
  esp32: {
    0: vendorLine(57431, 75),
    2.5: vendorLine(76236, 78),
    6: vendorLine(105481, 107),
    11: {
      mv: [130, 200, 300, 1000, 2000, 2450, 2600, 2750, 2900, 3000, 3130],
      counts: [-11, 77, 196, 1059, 2301, 2853, 3054, 3296, 3562, 3776, 4082],
      referenceFade: { fromMv: 2450, toMv: 3050, share: 0.55 },
      source:
        'measured: least-maximum fit to 43 levels of one WROOM-32 (kisel/esp32_adc_test e2d8cc9), 140-3130 mV; largest residual 6.9 counts at 2750 mV. Fade: computed from the 1000 and 1200 mV tables of espressif/esp-idf f2b538b',
    },
  },
  'esp32-s3': {
    0: line(0, 950, FULL_SCALE_COUNTS, S3_DOCS),
    2.5: line(0, 1250, FULL_SCALE_COUNTS, S3_DOCS),
    6: line(0, 1750, FULL_SCALE_COUNTS, S3_DOCS),
    11: line(0, 3100, FULL_SCALE_COUNTS, S3_DOCS),
  },
  'esp32-c3': {
    0: line(0, 400, 2000, C3_CALIBRATION),
    2.5: line(0, 550, 2000, C3_CALIBRATION),
    6: line(0, 750, 2000, C3_CALIBRATION),
    11: line(0, 1370, 2000, C3_CALIBRATION),
  },
};

/** The curve of an average chip; outside the range of the board's facts no accuracy is promised by anyone. */
export function adcCurveOf(board: BoardId, attenuationDb: AttenuationDb): AdcCurve {
  return curves[board][attenuationDb];
}

/** Straight lines through rising `xs`, prolonged at both ends. */
function along(xs: number[], ys: number[], x: number): number {
  let i = 1;
  while (i < xs.length - 1 && x > xs[i]) i++;
  return ys[i - 1] + ((x - xs[i - 1]) * (ys[i] - ys[i - 1])) / (xs[i] - xs[i - 1]);
}

/**
 * Expected reading, not rounded and not held at the ends, so that noise can be added first.
 * @param volts at the pin
 * @returns counts; below 0 or above 4095 where the chip would stick
 */
export function expectedCounts(board: BoardId, attenuationDb: AttenuationDb, volts: number): number {
  const curve = adcCurveOf(board, attenuationDb);
  return along(curve.mv, curve.counts, volts * 1000);
}

/**
 * The voltage at which an average chip reads `counts`: the exact inverse of expectedCounts.
 * At 0 and 4095 counts the true voltage may lie anywhere beyond.
 */
export function voltsAt(board: BoardId, attenuationDb: AttenuationDb, counts: number): number {
  const curve = adcCurveOf(board, attenuationDb);
  return along(curve.counts, curve.mv, counts) / 1000;
}
