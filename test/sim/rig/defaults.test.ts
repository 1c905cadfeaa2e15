import { describe, expect, it } from 'vitest';
import { defaultFinger, defaultPin, defaultRig, noisePreset } from '../../../sim/rig/default-rig.ts';
import { DEFAULTS, defaultPaths, explainDefault } from '../../../sim/rig/defaults.ts';
import { FINGER_NAMES } from '../../../sim/rig/rig.ts';

describe('defaults', () => {
  it('each have a label, a source and its text', () => {
    for (const path of defaultPaths()) {
      const { label, source, text } = DEFAULTS[path];
      expect([path, label.length > 3, text.length > 3]).toEqual([path, true, true]);
      expect(['datasheet', 'measured', 'computed', 'published', 'assumed']).toContain(source);
    }
  });

  it('are found by the path of the rig file', () => {
    expect(explainDefault('finger.spool.radius')).toMatchObject({
      value: 15,
      unit: 'mm',
      source: 'computed',
    });
    expect(explainDefault('eachFinger.spool.radius')?.value).toBe(15);
    expect(explainDefault('fingers.thumb.spool.radius')?.value).toBe(15);
    expect(explainDefault('noise.quiet.sd')?.text).toMatch(/kisel\/esp32_adc_test/);
    expect(explainDefault('finger.spool')).toBeUndefined();
    expect(explainDefault('toString')).toBeUndefined();
    expect(defaultPaths('finger.wiring.esp32')).toEqual([
      'finger.wiring.esp32.top',
      'finger.wiring.esp32.bottom',
    ]);
  });

  it('stand on the figures of their sources', () => {
    // Strip formula E·b·t³·φ/(12·L): 200 GPa, 5 mm, 0.15 mm, 1 m; N·m times 1000 is mN·m.
    const perTurn = ((200e9 * 5e-3 * 0.15e-3 ** 3 * 2 * Math.PI) / 12) * 1000;
    expect(DEFAULTS['finger.spring.perTurn'].value).toBeCloseTo(perTurn, 3);
    expect(DEFAULTS['finger.spring.openTorque'].value).toBeCloseTo(3 * perTurn, 2);
    // PTV09 datasheet: 10-100 gf·cm; 1 gf·cm = 0.0980665 mN·m.
    expect(DEFAULTS['finger.potentiometer.drag'].value).toBeGreaterThan(10 * 0.0980665);
    expect(DEFAULTS['finger.potentiometer.drag'].value).toBeLessThan(100 * 0.0980665);
    // espressif/esp-idf#164: 85 % and 91 % odd codes; half are odd anyhow.
    expect(0.5 + 0.5 * noisePreset('noisy').oddShare).toBeCloseTo(0.85, 9);
    expect(0.5 + 0.5 * noisePreset('rough').oddShare).toBeCloseTo(0.91, 9);
  });

  it.each([
    // Board, range of its ADC in mV (Espressif documentation and datasheets).
    ['esp32', 150, 2450],
    ['esp32-s3', 0, 2900],
    ['esp32-c3', 0, 2500],
  ] as const)('keep every corner of the parts inside the range of the %s', (board, low, high) => {
    const { wiring, potentiometer } = defaultFinger('index', board);
    for (const pot of [1 - potentiometer.tolerance, 1 + potentiometer.tolerance]) {
      for (const top of [1 - wiring.seriesTolerance, 1 + wiring.seriesTolerance]) {
        for (const bottom of [1 - wiring.seriesTolerance, 1 + wiring.seriesTolerance]) {
          const [t, p, b] = [
            top * wiring.topOhm,
            pot * potentiometer.resistanceOhm,
            bottom * wiring.bottomOhm,
          ];
          expect((3300 * b) / (t + p + b)).toBeGreaterThan(low);
          expect((3300 * (p + b)) / (t + p + b)).toBeLessThan(high);
        }
      }
    }
  });

  it('give five fingers pins of their own', () => {
    for (const board of ['esp32', 'esp32-s3', 'esp32-c3'] as const) {
      const rig = defaultRig(board);
      expect(rig.fingers.map((finger) => finger.name)).toEqual([...FINGER_NAMES]);
      expect(new Set(rig.fingers.map((finger) => finger.pin)).size).toBe(5);
      expect(defaultPin(board, 'little')).toBe(rig.fingers[4]!.pin);
    }
  });
});
