import { describe, expect, it } from 'vitest';
import { ATTENUATIONS_DB, adcCurveOf } from '../../../firmware/boards/adc-curve.ts';
import { BOARD_IDS } from '../../../firmware/boards/board.ts';
import { boardFacts } from '../../../firmware/boards/boards.ts';

describe('board facts', () => {
  it('know every board by its id', () => {
    for (const id of BOARD_IDS) expect(boardFacts(id).id).toBe(id);
  });

  // pins: Espressif data sheets; GPIO 32-39, 1-10 and 0-4 are ADC1
  it.each([
    ['esp32', [32, 33, 34, 35, 36, 37, 38, 39], [0, 2, 5, 12, 15], [150, 2450]],
    ['esp32-s3', [1, 2, 3, 4, 5, 6, 7, 8, 9, 10], [0, 3, 45, 46], [0, 2900]],
    ['esp32-c3', [0, 1, 2, 3, 4], [2, 8, 9], [0, 2500]],
  ] as const)('list the ADC1 pins, strapping pins and range of the %s', (id, adc1, strapping, range) => {
    const facts = boardFacts(id);
    expect(facts.adc1Pins.slice().sort((a, b) => a - b)).toEqual(adc1);
    expect(facts.strappingPins).toEqual(strapping);
    expect(facts.adcRangeMv).toEqual(range);
    expect(facts.adcRangesMv[11]).toEqual(range);
  });

  it('offer five ADC1 pins first that are neither strapping nor USB pins nor dip with the radio (C3: has only five)', () => {
    for (const id of ['esp32', 'esp32-s3'] as const) {
      const facts = boardFacts(id);
      for (const pin of facts.adc1Pins.slice(0, 4)) {
        expect(facts.pinNotes[pin]).toBeUndefined();
        expect(facts.strappingPins).not.toContain(pin);
        expect(facts.usbPins).not.toContain(pin);
      }
    }
    expect(boardFacts('esp32').pinNotes[36]).toContain('espressif/esp-idf#1096');
    expect(boardFacts('esp32-c3').adc1Pins[4]).toBe(2);
  });

  it('keep ADC1, ADC2 and flash pins apart', () => {
    for (const id of BOARD_IDS) {
      const facts = boardFacts(id);
      const pins = [...facts.adc1Pins, ...facts.adc2Pins, ...facts.flashPins];
      expect(new Set(pins).size).toBe(pins.length);
    }
  });

  it('name a source for each fact and a reason for each status', () => {
    for (const id of BOARD_IDS) {
      const facts = boardFacts(id);
      for (const source of Object.values(facts.sources)) expect(source.length).toBeGreaterThan(7);
      expect(facts.statusReason).toMatch(/\.$/);
    }
    expect(BOARD_IDS.map((id) => boardFacts(id).status)).toEqual(['usable', 'unusable', 'experimental']);
  });

  it('vouch for no voltage that the chip’s curve cannot show', () => {
    for (const id of BOARD_IDS)
      for (const db of ATTENUATIONS_DB) {
        const [low, high] = boardFacts(id).adcRangesMv[db];
        const { mv } = adcCurveOf(id, db);
        expect(low).toBeGreaterThanOrEqual(mv[0]);
        expect(high).toBeLessThan(mv[mv.length - 1]);
      }
  });
});
