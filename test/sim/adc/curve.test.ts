import { describe, expect, it } from 'vitest';
import { type AttenuationDb, expectedCounts, voltsAt } from '../../../firmware/boards/adc-curve.ts';
import { BOARD_IDS } from '../../../firmware/boards/board.ts';
import {
  buildCurveTable,
  codeOf,
  countsAt,
  drawReferenceGain,
  referenceGain,
} from '../../../sim/adc/curve.ts';
import { adcCurve } from '../../../sim/adc/explain.ts';
import { ESP32_SWEEP, VENDOR_TOP } from './published.ts';

const held = (counts: number) => Math.min(Math.max(counts, 0), 4095);
const ALL: AttenuationDb[] = [0, 2.5, 6, 11];

describe('ESP32 at 11 dB', () => {
  it('reads as the public sweep of a WROOM-32, within 10 counts at all 46 levels', () => {
    for (const [mv, mean] of ESP32_SWEEP)
      expect(Math.abs(held(expectedCounts('esp32', 11, mv / 1000)) - mean), `${mv} mV`).toBeLessThan(10);
  });

  // espressif/arduino-esp32#92: another board
  it.each([
    [0.819, 823],
    [1.641, 1814],
    [2.462, 2811],
    [3.286, 4095],
  ])('reads %f V as another board did, %i, within 100 counts', (volts, counts) => {
    expect(Math.abs(held(expectedCounts('esp32', 11, volts)) - counts)).toBeLessThan(100);
  });

  it('agrees with the line of the vendor library (espressif/esp-idf f2b538b) in the straight part', () => {
    for (let mv = 300; mv <= 2300; mv += 100) {
      const vendor = (mv - 142) / ((1100 * 196602) / 4096 / 65536);
      expect(Math.abs(expectedCounts('esp32', 11, mv / 1000) - vendor), `${mv} mV`).toBeLessThan(15);
    }
  });

  it.each([1000, 1200] as const)(
    'bends as the vendor says for a reference of %i mV, within 80 counts',
    (vref) => {
      const table = buildCurveTable('esp32', 11, referenceGain(vref));
      const volts = vref === 1000 ? VENDOR_TOP.vref1000 : VENDOR_TOP.vref1200;
      VENDOR_TOP.counts.forEach((counts, i) => {
        expect(Math.abs(countsAt(table, volts[i] / 1000) - counts), `${volts[i]} mV`).toBeLessThan(80);
      });
    },
  );

  it('goes on below 0 and above 4095 so that noise can be added, and the code sticks there', () => {
    expect(expectedCounts('esp32', 11, 0.05)).toBeLessThan(-50);
    expect(expectedCounts('esp32', 11, 3.2)).toBeGreaterThan(4150);
    expect(codeOf(-3)).toBe(0);
    expect(codeOf(4200)).toBe(4095);
    expect(codeOf(99.5)).toBe(100);
  });
});

describe('the other attenuations and chips', () => {
  it('puts an ESP32 at 0 dB within 50 counts of the two nominal calibration points of the vendor library', () => {
    // espressif/esp-idf f2b538b, esp_adc_cal, ADC1: 278 at 150 mV, 3265 at 850 mV
    expect(Math.abs(expectedCounts('esp32', 0, 0.15) - 278)).toBeLessThan(50);
    expect(Math.abs(expectedCounts('esp32', 0, 0.85) - 3265)).toBeLessThan(50);
  });

  it('reads published points of ESP32 boards within the spread of the reference, 1000-1200 mV', () => {
    const boards: [string, AttenuationDb, number, number][] = [
      ['espressif/esp-idf#164, DevKitC', 11, 3.0, 3805],
      ['espressif/esp-idf#164, Olimex', 0, 1.0, 3847],
      ['espressif/arduino-esp32#1804', 11, 0.99, 1103],
      ['pycom forum "ADC woes"', 0, 0.721, 2687],
    ];
    for (const [source, db, volts, counts] of boards) {
      const low = countsAt(buildCurveTable('esp32', db, referenceGain(1200)), volts);
      const high = countsAt(buildCurveTable('esp32', db, referenceGain(1000)), volts);
      expect(counts, source).toBeGreaterThan(low);
      expect(counts, source).toBeLessThan(high);
    }
  });

  it('reads 0.721 V at 0 dB within 5 % of the 2687 of the pycom forum thread "ADC woes"', () => {
    expect(Math.abs(expectedCounts('esp32', 0, 0.721) / 2687 - 1)).toBeLessThan(0.05);
  });

  // espressif/esp-idf#8588: one board; the curve is an average chip's. Stated tolerance 2 %.
  it.each([
    [2.29, 3358],
    [2.5, 3590],
  ])('reads %f V on a C3 within 2 % of the %i on record', (volts, counts) => {
    expect(Math.abs(expectedCounts('esp32-c3', 11, volts) / counts - 1)).toBeLessThan(0.02);
  });

  it('reads a C3 within 6 % of a second board (arendst/Tasmota#18784)', () => {
    // there scaled to 3300: 600 at 0.538 V, 1696 at 1.492 V
    for (const [volts, scaled] of [
      [0.538, 600],
      [1.492, 1696],
    ])
      expect(Math.abs(expectedCounts('esp32-c3', 11, volts) / ((scaled * 4095) / 3300) - 1)).toBeLessThan(
        0.06,
      );
  });

  it('reaches full scale on an S3 at 3.08-3.11 V (espressif/esp-idf#12218) and sticks at 3.3 V', () => {
    const full = voltsAt('esp32-s3', 11, 4095);
    expect(full).toBeGreaterThan(3.076);
    expect(full).toBeLessThan(3.114);
    expect(adcCurve('esp32-s3', [3.3])).toEqual([{ volts: 3.3, counts: 4095 }]);
  });

  it('rises everywhere, and voltsAt undoes expectedCounts, on every board at every attenuation', () => {
    for (const board of BOARD_IDS)
      for (const db of ALL)
        for (let mv = -50; mv <= 3400; mv += 7) {
          const counts = expectedCounts(board, db, mv / 1000);
          expect(expectedCounts(board, db, (mv + 7) / 1000)).toBeGreaterThan(counts);
          expect(voltsAt(board, db, counts)).toBeCloseTo(mv / 1000, 9);
        }
  });
});

describe('curve table', () => {
  it('equals the curve at and between its 1 mV steps, within 0.5 counts', () => {
    for (const board of BOARD_IDS) {
      const table = buildCurveTable(board, 11);
      for (let volts = 0; volts < 3.6; volts += 0.00137)
        expect(Math.abs(countsAt(table, volts) - expectedCounts(board, 11, volts))).toBeLessThan(0.5);
    }
  });

  it('goes on straight beyond both ends', () => {
    const table = buildCurveTable('esp32-s3', 11);
    expect(countsAt(table, -0.1)).toBeCloseTo(-132.097, 2); // -0.1·4095/3.1
    expect(countsAt(table, 4)).toBeCloseTo(5283.871, 2); // 4·4095/3.1
  });

  it('applies gain and offset of one chip', () => {
    const table = buildCurveTable('esp32-c3', 11, 1.05, -12);
    expect(countsAt(table, 1.37)).toBeCloseTo(2000 * 1.05 - 12, 6);
  });

  it('draws gains between those of 1200 and 1000 mV', () => {
    expect(drawReferenceGain(0)).toBeCloseTo(1.1, 12);
    expect(drawReferenceGain(0.5)).toBe(1);
    expect(drawReferenceGain(1)).toBeCloseTo(11 / 12, 12);
  });
});

describe('explain', () => {
  it('gives clean, held data in the order asked for', () => {
    const points = adcCurve('esp32', [3.2, 0.1, 1]);
    expect(points.map((p) => p.volts)).toEqual([3.2, 0.1, 1]);
    expect(points.map((p) => p.counts)).toEqual([4095, 0, expectedCounts('esp32', 11, 1)]);
  });
});
