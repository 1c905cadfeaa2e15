import { describe, expect, it } from 'vitest';
import { defaultRig, noisePreset } from '../../../sim/rig/default-rig.ts';
import type { Rig } from '../../../sim/rig/rig.ts';
import { drawFinger } from '../../../sim/study/draw-parts.ts';
import { createEvaluator } from '../../../sim/study/evaluate.ts';
import { createTracer } from '../../../sim/study/trace.ts';
import { plain } from './any-settings.ts';
import { scoresOf } from './made-trace.ts';
import { idealRig, oneFinger, SILENCE } from './traces.ts';

const DRAWS = process.env.TAUTLINE_VERIFY === '1' ? 60 : 8;
const SEED = 5;

/** Mean of one score over draws of a rig's first finger. */
function meanScore(
  rig: Rig,
  name: 'jitter' | 'lag' | 'squareError' | 'endMiss',
  oversampling: 1 | 32 = 1,
): number {
  const tracer = createTracer(rig, SEED);
  let sum = 0;
  for (let draw = 0; draw < DRAWS; draw++) {
    sum += scoresOf(tracer.trace(draw, 0), plain({ oversampling }))[0][name];
  }
  return sum / DRAWS;
}

describe('a build without noise, play, friction and tolerances', () => {
  const boards = ['esp32', 'esp32-s3', 'esp32-c3'] as const;
  it.each(boards.flatMap((board) => [0, 100_000, 20_000].map((pullDown) => [board, pullDown] as const)))(
    'on %s with %d ohm from pin to ground is bent by the loaded divider and by nothing else',
    (board, pullDownOhm) => {
      const { wiring } = idealRig({}, { board }).fingers[0];
      const rig = idealRig({ wiring: { ...wiring, pullDownOhm } }, { board });
      const [finger] = rig.fingers;
      const tracer = createTracer(rig, SEED);
      let furthest = 0;
      for (let draw = 0; draw < 4; draw++) {
        const trace = tracer.trace(draw, 0);
        const { fullMm, startDeg, mechanicalTravelDeg, electricalTravelDeg } = drawFinger(
          rig,
          finger,
          0,
          SEED,
          draw,
        );
        /** Pin voltage by the divider: the load lies across the lower part. */
        const volts = (closure: number) => {
          const turnDeg = ((closure * fullMm) / finger.spoolRadiusMm) * (180 / Math.PI);
          const x =
            (startDeg + turnDeg - (mechanicalTravelDeg - electricalTravelDeg) / 2) / electricalTravelDeg;
          const upper = wiring.topOhm + (1 - x) * 10_000;
          const lower = wiring.bottomOhm + x * 10_000;
          const loaded = pullDownOhm > 0 ? 1 / (1 / lower + 1 / pullDownOhm) : lower;
          return (3.3 * loaded) / (upper + loaded);
        };
        const closure = createEvaluator([plain({ oversampling: 32 })], trace.frames).closures(trace, 0);
        const { rest, slow, open, closed } = trace.windows;
        for (const { from, to } of [...rest, ...slow, ...open, ...closed]) {
          for (let f = from; f < to; f++) {
            const share = (volts(trace.truth[f]) - volts(0)) / (volts(1) - volts(0));
            // The ends are captured 1 % inside.
            const expected = Math.min(1, Math.max(0, (share - 0.01) / 0.98));
            furthest = Math.max(furthest, Math.abs(closure[f] - expected));
          }
        }
      }
      // Left over: 0.056 % of tremor (0.05° of 90°), half a count of some 1,200, the chip's own reference.
      // The load bends by 0.35 to 3.6 %.
      expect(furthest).toBeLessThan(0.0015);
    },
  );

  it.each([1e-6, 2e-6])('with %d F at the pin lags by R·C more than without', (capacitorF) => {
    // In the middle the pin sees (1 k + 5 k) beside (5 k + 5.6 k) beside 100 k: 6·10.6/16.6 = 3.83 k, loaded 3.69 k.
    const wantedMs = 3690 * capacitorF * 1000;
    const { wiring } = idealRig().fingers[0];
    const lagMs = (farad: number) =>
      (1000 / 200) *
      meanScore(idealRig({ wiring: { ...wiring, capacitorF: farad } }, { frameRateHz: 200 }), 'lag');
    // Capacitors are drawn within 10 %; the source is a little lower off the middle.
    expect(Math.abs(lagMs(capacitorF) - lagMs(0) - wantedMs)).toBeLessThan(0.15 * wantedMs);
    expect(Math.abs(lagMs(0))).toBeLessThan(1);
  });

  it('reads less with less supply, by the divider’s share of what is missing', () => {
    const tracer = (volts: number, sag: number) =>
      createTracer(idealRig({}, { supply: { volts, tolerance: 0, sag } }), SEED);
    const full = tracer(3.3, 0).trace(3, 0);
    const low = tracer(3.0, 0).trace(3, 0);
    const sagged = tracer(3.3, 0.1).trace(3, 0);
    const { from } = full.windows.rest[0];
    const mid = (t: typeof full) => (t.readings[5][from] / 32) * 4096;
    // ESP32 at 11 dB: 1.237 counts/mV (measured, kisel/esp32_adc_test) and about 142 mV without a reading, so
    // counts + 175 go with the voltage; the chip's reference cancels.
    expect((mid(low) + 175) / (mid(full) + 175)).toBeCloseTo(3.0 / 3.3, 2);
    let least = 1;
    full.readings[5].forEach((sum, f) => {
      expect(sagged.readings[5][f]).toBeLessThanOrEqual(sum);
      if (f >= from) least = Math.min(least, sagged.readings[5][f] / sum);
    });
    // A sag of 10 % comes once in 7 s, so within 20 s at least twice.
    expect(least).toBeLessThan(0.92);
    expect(least).toBeGreaterThan(0.8);
  });
});

describe('travel without a reading', () => {
  it.each([6, 8, 9.5])(
    'with a spool of %d mm is what goes beyond the electrical travel, to a fiftieth',
    (spoolRadiusMm) => {
      const rig = idealRig({ spoolRadiusMm });
      const tracer = createTracer(rig, SEED);
      for (let draw = 0; draw < DRAWS; draw++) {
        const { fullMm, electricalTravelDeg } = drawFinger(rig, rig.fingers[0], 0, SEED, draw);
        const strokeDeg = (fullMm / spoolRadiusMm) * (180 / Math.PI);
        const trace = tracer.trace(draw, 0);
        // The stroke is centred within 5°, so both ends are lost alike; a part of a step may count as lost or not.
        const lost = 1 - electricalTravelDeg / strokeDeg;
        expect(lost).toBeGreaterThan(0.02);
        expect(Math.abs(trace.deadShare - lost)).toBeLessThan(0.04);
        expect(scoresOf(trace, plain())[0].endMiss).toBeGreaterThanOrEqual(trace.deadShare);
      }
    },
  );

  it('is none with the usual spool', () => {
    const tracer = createTracer(defaultRig(), SEED);
    for (let draw = 0; draw < DRAWS; draw++) expect(tracer.trace(draw, draw % 5).deadShare).toBe(0);
  });
});

describe('more of a nuisance', () => {
  it('in noise is more jitter', () => {
    const jitters = [0, 0.5, 2, 8, 30].map((sdCounts) =>
      meanScore(idealRig({}, { noise: { ...SILENCE, sdCounts } }), 'jitter'),
    );
    for (let i = 1; i < jitters.length; i++) expect(jitters[i]).toBeGreaterThan(jitters[i - 1]);
    // In proportion, once it hides the tremor and the rounding.
    expect(jitters[4] / jitters[3]).toBeCloseTo(30 / 8, 1);
    // 8 counts within a few draws of ± 25 %, over the 1,500 to 2,000 counts of a travel
    expect(jitters[3]).toBeGreaterThan(8 / 2000);
    expect(jitters[3]).toBeLessThan(8 / 1500);
  });

  it('from preset to preset is more jitter', () => {
    const jitters = (['quiet', 'typical', 'noisy', 'rough'] as const).map((p) =>
      meanScore(oneFinger({ noise: noisePreset(p) }), 'jitter'),
    );
    for (let i = 1; i < jitters.length; i++) expect(jitters[i]).toBeGreaterThan(jitters[i - 1]);
  });

  it('in the spring or the shaft’s drag never follows better', () => {
    const { potentiometer } = idealRig().fingers[0];
    const error = (openTorqueMNm: number, dragMNm: number) =>
      meanScore(
        idealRig({
          spring: { openTorqueMNm, perTurnMNm: 0, hysteresis: 0 },
          potentiometer: { ...potentiometer, dragMNm },
        }),
        'squareError',
        32,
      );
    const byTorque = [2.2, 3, 5, 10, 40].map((torque) => error(torque, 2));
    for (let i = 1; i < byTorque.length; i++) expect(byTorque[i]).toBeLessThanOrEqual(byTorque[i - 1] + 1e-9);
    expect(byTorque[0]).toBeGreaterThan(2 * byTorque[4]);
    const byDrag = [0, 1, 3, 4.5].map((drag) => error(5, drag));
    for (let i = 1; i < byDrag.length; i++) expect(byDrag[i]).toBeGreaterThanOrEqual(byDrag[i - 1] - 1e-9);
  });

  it('a spring weaker than the drag leaves the finger closed, and every score says so in numbers', () => {
    const spring = { openTorqueMNm: 1, perTurnMNm: 0, hysteresis: 0.1 };
    const tracer = createTracer(oneFinger({}, { spring }), SEED);
    for (let draw = 0; draw < DRAWS; draw++) {
      const scores = scoresOf(
        tracer.trace(draw, 0),
        plain(),
        plain({ oversampling: 8, lowPass: { kind: 'oneEuro', minCutoffHz: 1, beta: 1, speedCutoffHz: 1 } }),
      );
      for (const s of scores) {
        for (const value of Object.values(s)) expect(Number.isFinite(value)).toBe(true);
        expect(s.endMiss).toBeGreaterThan(0.9);
        expect(Math.sqrt(s.squareError)).toBeGreaterThan(0.4);
        // More than 100 ms over closing and opening grasps: the openings never cross.
        expect(s.lag).toBeGreaterThan(10);
      }
    }
  });
});
