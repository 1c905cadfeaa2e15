import { describe, expect, it } from 'vitest';
import { highestSourceAt, highestSourceOhm, worstLoading } from '../../../sim/pot/highest-source.ts';
import type { Rig } from '../../../sim/rig/rig.ts';
import { nominalSpanV } from '../../../sim/sizing/wiring/corners.ts';
import { E6, valueAbove, valueBelow } from '../../../sim/sizing/wiring/series.ts';
import { type FingerWiring, sizeWiring } from '../../../sim/sizing/wiring/wiring-size.ts';
import { rigWith } from './rigs.ts';

const HANDS = [1, 1] as const;
const index = (rig: Rig): FingerWiring =>
  sizeWiring(rig, HANDS).fingers.find(({ name }) => name === 'index')!;
const BARE = { topOhm: 0, bottomOhm: 0, pullDownOhm: 0 };

describe('the highest resistance behind the pin', () => {
  // both arms equal: 8.3 k each of 16.6 k, so 4.15 k at (8.3 k - 1 k)/10 k of the travel
  it('is 4.15 k with 5.6 k and 1 k, at 73 % of the travel, and R/4 at mid travel alone', () => {
    expect(highestSourceAt(10e3, 5600, 1000)).toBeCloseTo(0.73, 12);
    expect(highestSourceOhm(10e3, 5600, 1000, 0)).toBeCloseTo(4150, 9);
    expect(highestSourceAt(10e3, 0, 0)).toBe(0.5);
    expect(highestSourceOhm(10e3, 0, 0, 0)).toBe(2500);
  });

  it('lies at an end of the track when one resistor outweighs the rest', () => {
    expect(highestSourceAt(1e3, 10e3, 0)).toBe(1);
    expect(highestSourceAt(1e3, 0, 10e3)).toBe(0);
  });
});

describe('settling of a pin', () => {
  // tau = R/4·C, 1/(2·pi·tau), ln(2^13)·tau: by hand
  it.each([
    ['10 k', 10e3, 0.25, 637, 2.25],
    ['100 k', 100e3, 2.5, 63.7, 22.5],
  ])('with %s and 100 nF takes the published-formula times', (_, resistanceOhm, tauMs, hz, settlingMs) => {
    const { settling } = index(rigWith(BARE, { resistanceOhm }));
    expect(settling.tauMs).toBeCloseTo(tauMs, 9);
    expect(Math.abs(settling.cutoffHz! / hz - 1)).toBeLessThan(1e-3);
    expect(settling.settlingMs / settlingMs).toBeCloseTo(1, 2);
    expect(settling.timeConstants).toBeCloseTo(9.011, 3);
  });

  it('has a time constant of 0.415 ms with 5.6 k and 1 k', () => {
    expect(index(rigWith({ pullDownOhm: 0 })).settling.tauMs).toBeCloseTo(0.415, 3); // 4.15 k · 100 nF
  });

  it('loses 0.41 count of a full step to a sampler of 10 pF', () => {
    expect(index(rigWith({})).settling.samplerCounts).toBeCloseTo(0.41, 2); // 4096 · 10 pF/100 nF
  });

  it('is compared with readings 47 us apart: 36.8 us of conversion and 3150 instructions at 240 MHz', () => {
    expect(index(rigWith({})).settling.betweenReadsMs).toBeCloseTo(0.0368 + (3150 * 0.77) / 240e3, 6);
  });

  it.each([
    // half a frame / (9.011 · 2.5 k · 1.2): 185 nF at 100 Hz, 18.5 nF at 1000 Hz
    [100, 10e3, 150e-9],
    [1000, 10e3, 15e-9],
    [100, 100e3, 15e-9],
    [1000, 100e3, 1.5e-9],
  ])('at %d Hz with %d ohm proposes the E6 capacitor of %f F', (hz, resistanceOhm, farad) => {
    const rig = { ...rigWith(BARE, { resistanceOhm }), frameRateHz: hz };
    expect(index(rig).settling.proposedF).toBe(farad);
  });

  it('proposes none where even 1 nF is too much', () => {
    // 9.011 · 250 k · 1.2 · 1 nF = 2.7 ms of 0.5
    const rig = { ...rigWith(BARE, { resistanceOhm: 1e6 }), frameRateHz: 1000 };
    expect(index(rig).settling.proposedF).toBeNull();
  });

  it('has no cut-off and nothing to wait for without a capacitor', () => {
    const { settling } = index(rigWith({ capacitorF: 0 }));
    expect([settling.cutoffHz, settling.settlingMs, settling.samplerCounts]).toEqual([null, 0, 4096]);
  });
});

describe('E6 values', () => {
  it('below and above a number (IEC 60063: 10 15 22 33 47 68)', () => {
    expect(valueBelow(E6, 99_999, 1000)).toBe(68_000);
    expect(valueBelow(E6, 100_000, 1000)).toBe(100_000);
    expect(valueBelow(E6, 999, 1000)).toBeUndefined();
    expect(valueAbove(E6, 1.3e9)).toBe(1.5e9);
    expect(valueAbove(E6, 1e9)).toBe(1e9);
    expect(valueAbove(E6, 6.9e9)).toBe(10e9);
  });
});

describe('loading by the pull-down', () => {
  it.each([
    // maximum of x - x/(1 + x(1-x)·Rp/RL), by a fine search
    [2, 6.673, 0.678],
    [10, 1.449, 0.669],
    [20, 0.733, 0.668],
    [100, 0.1478, 0.667],
    [1000, 0.0148, 0.667],
  ])('of %d times a bare potentiometer is %d % at %d', (times, percent, at) => {
    const worst = worstLoading(10e3, 0, 0, times * 10e3);
    expect(100 * worst.share).toBeCloseTo(percent, times < 100 ? 3 : 4);
    expect(worst.at).toBeCloseTo(at, 3);
    expect(worst.share / (4 / (27 * times))).toBeCloseTo(1, times < 10 ? 0 : 1);
  });

  it('is 2.371 % of the supply at the top end behind 5.6 k, where two thirds of the chain are not reached', () => {
    // by hand at x = 1: 11/16.6 of the supply open; loaded with 100 k behind 11 k·5.6 k/16.6 k: 1/(1 + 0.037108)
    const { loading } = index(rigWith({}));
    expect(loading.at).toBe(1);
    expect(loading.errorPct).toBeCloseTo(100 * (11 / 16.6) * (1 - 1 / 1.0371084), 4);
  });

  it('is taken out by calibration: ends leave 0.43 % of closure, five points less, no pull-down nothing', () => {
    const { loading } = index(rigWith({}));
    // by hand, share of the supply: 0.059680 at the bottom, 0.638941 at the top, and 0.491656 at 75 % of the travel,
    // where the straight line is at 0.494126: 0.426 % of the span between
    expect(loading.leftByEndsPct).toBeCloseTo(0.426, 3);
    expect(loading.leftByFivePct).toBeLessThan(loading.leftByEndsPct / 3);
    expect(index(rigWith({ pullDownOhm: 0 })).loading).toEqual({
      errorPct: 0,
      at: 0,
      leftByEndsPct: 0,
      leftByFivePct: 0,
    });
  });
});

describe('an open wiper', () => {
  it('is told from a hand by a resistor at the bottom and one to ground', () => {
    expect(index(rigWith({ bottomOhm: 0 })).openWiper).toMatchObject({
      isSeen: false,
      reason: 'no bottom resistor',
      flaggedMs: null,
    });
    expect(index(rigWith({ pullDownOhm: 0 })).openWiper.reason).toBe('no pull-down');
  });

  it('is not told where the converter reads 0 at the lowest voltage in tolerance', () => {
    // 3.3 V · 0.97 · 0.998 · 532/(12 k + 5.88 k + 532) = 92 mV, and an ESP32 reads 0 up to about 130 mV
    expect(index(rigWith({ bottomOhm: 560 })).openWiper.reason).toBe('lowest reading is 0');
  });

  it('on an S3 shows after the fall from the top end through 100 k, within one frame', () => {
    const { openWiper } = index(rigWith({}, {}, 'esp32-s3'));
    // top: 3.3·10.56/12.76 = 2.7310 V, less 100 k/(100 k + 1817 ohm) = 2.6823 V; tau 10 ms
    expect(openWiper.isSeen).toBe(true);
    expect(openWiper.flaggedMs).toBeCloseTo(10 * Math.log(2.6823 / openWiper.levelV!) + 10, 1);
    // half of the lowest: 3.3·0.97·0.998·532/(12000 + 2310 + 532) = 114.5 mV, read by a chip of high reference as 0.917 of it
    expect(openWiper.levelV!).toBeCloseTo(0.1145 / 2 / (1 + 100 / 1100), 3);
  });

  it('takes ten times as long through 1 M', () => {
    const quick = index(rigWith({}, {}, 'esp32-s3')).openWiper.flaggedMs! - 10;
    const slow = index(rigWith({ pullDownOhm: 1e6 }, {}, 'esp32-s3')).openWiper.flaggedMs! - 10;
    expect(slow / quick).toBeCloseTo(10, 0);
  });
});

describe('ends of the potentiometer', () => {
  it('are dead over 10 deg each: 280 deg between the stops, 260 of them electrical', () => {
    expect(index(rigWith({})).ends.eachEndDeg).toBe(10); // PTV09 datasheet; 260 assumed
  });

  it('swallow what the stroke has too much, half of it at each end, and the mounting of 5 deg', () => {
    const rig = rigWith({});
    for (const finger of rig.fingers) {
      finger.spoolRadiusMm = 10;
      finger.stringDiameterMm = 1e-6;
    }
    const { ends } = index(rig);
    // 51.662 mm on 10 mm = 296.0 deg on 260·270/280 = 250.71 deg that read
    expect(ends.strokeDeg).toBeCloseTo(296.0, 1);
    expect(ends.readableDeg).toBeCloseTo(250.71, 2);
    expect(ends.deadPct).toBeCloseTo((100 * (5 + (296.0 - 250.71) / 2)) / 296.0, 1);
  });
});

describe('another supply', () => {
  const lower = (rig: Rig, share: number): Rig => ({
    ...rig,
    supply: { ...rig.supply, tolerance: share, sag: 0 },
  });

  it('of 3.03 % less reads 3.03 % less on an S3, and with a rail pin within 0.1 %', () => {
    const { supply } = index(lower(rigWith({}, {}, 'esp32-s3'), 1 - 3.2 / 3.3));
    expect(supply.readingPct).toBeCloseTo(-3.03, 2);
    expect(supply.withRailPct).toBeLessThan(0.1);
    expect(supply.lowestV).toBeCloseTo(3.2, 9);
  });

  it('on an ESP32 takes more, since its converter reads 0 at 0.14 V, and the rail pin leaves more', () => {
    const { supply } = index(lower(rigWith({}), 1 - 3.2 / 3.3));
    // counts are nearly proportional to V - 0.142 V (vendor line); closed hand about 1.86 V: 1.86/(1.86 - 0.142)
    expect(supply.readingPct / -3.03).toBeGreaterThan(1.03);
    expect(supply.readingPct / -3.03).toBeLessThan(1.15);
    expect(supply.withRailPct).toBeLessThan(0.15);
    expect(supply.counts).toBeLessThan(-40);
  });

  it('counts its sag on top of its tolerance, and the sag alone as what no calibration takes out', () => {
    const rig = rigWith({}, {}, 'esp32-s3');
    rig.supply = { volts: 3.3, tolerance: 0.03, sag: 0.02 };
    const { supply } = index(rig);
    expect(supply.changePct).toBeCloseTo(-100 * (1 - 0.97 * 0.98), 9);
    // closed reading 0.763, open 0.143 of full scale: 2 % of 0.763 over a span of 0.620
    expect(supply.sagPct).toBeCloseTo((2 * 0.7629) / (0.7629 - 0.1433), 1);
    expect(supply.sagWithRailPct).toBeLessThan(0.01);
  });
});

describe('the travel in counts', () => {
  it('is about 1870 at 15 mm: 0.0276 mm of string each, on an ideal converter of 3.3 V', () => {
    // 51.66 mm/15 mm = 197.3 deg of 260; 1.988 V of 3.3 V
    const divider = {
      potOhm: 10e3,
      potTolerance: 0.2,
      topOhm: 5600,
      bottomOhm: 1000,
      seriesTolerance: 0.05,
      pullDownOhm: 0,
      supplyV: 3.3,
      supplyTolerance: 0,
    };
    const codes = (4096 * nominalSpanV(divider) * (197.33 / 260)) / 3.3;
    expect(codes / 1870).toBeCloseTo(1, 2);
    expect(51.662 / codes).toBeCloseTo(0.0276, 4);
    // full closure bends the base joint 90 deg by 21.99 mm at 14 mm: 0.0276 mm alone are 0.113 deg
    expect(((51.662 / codes / 14) * 180) / Math.PI).toBeCloseTo(0.113, 3);
  });
});

describe('life of a potentiometer', () => {
  it('of 10 000 cycles is 2.8 h at one flex a second, 13.9 h at one in 5 s', () => {
    const { life } = index(rigWith({}));
    expect(life.fastHours).toBeCloseTo(2.8, 1);
    expect(life.slowHours).toBeCloseTo(13.9, 1);
  });

  it('counts what is used, and carries what a simulation makes of the wear', () => {
    const { life } = index(rigWith({}, { usedCycles: 5000 }));
    expect(life.fastHours).toBeCloseTo(5000 / 3600, 9);
    expect(life.noiseFactors).toEqual([1.5, 3]); // 1 + 2·share²
    expect(life.burstsPerMinute[1]).toBeCloseTo(4, 9); // one in 15 s
    expect(index(rigWith({}, { usedCycles: 20_000 })).life.fastHours).toBe(0);
  });
});

describe('the sizes of a wiring', () => {
  it('are plain data: nothing that JSON cannot hold', () => {
    for (const rig of [rigWith({}), rigWith({ capacitorF: 0, pullDownOhm: 0, bottomOhm: 0 })]) {
      const size = sizeWiring(rig, [0.9, 1.1]);
      expect(JSON.parse(JSON.stringify(size))).toEqual(size);
    }
  });
});
