import { describe, expect, it } from 'vitest';
import { minimumJerk, minimumJerkAcceleration, minimumJerkVelocity } from '../../../sim/hand/minimum-jerk.ts';
import { defaultFinger, defaultRig } from '../../../sim/rig/default-rig.ts';
import type { Finger } from '../../../sim/rig/rig.ts';
import { verdictOf } from '../../../sim/sizing/margin.ts';
import { fastestTautS, simulateOpening } from '../../../sim/sizing/strings/opening.ts';
import { isClash } from '../../../sim/sizing/strings/preload-range.ts';
import { sizeSpring } from '../../../sim/sizing/strings/spring-size.ts';
import { SPOOL_DENSITY_KG_PER_M3 } from '../../../sim/spool/force.ts';

const DRAWN_MM = 51.662;
/** Spool of 15 x 6 mm in solid PLA, kg·m²: m r²/2. */
const INERTIA = 0.5 * Math.PI * SPOOL_DENSITY_KG_PER_M3 * 0.015 ** 4 * 0.006;

function springOf(change: (finger: Finger) => void = () => {}, hands: [number, number] = [1, 1]) {
  const rig = defaultRig('esp32');
  const finger = rig.fingers[1]!;
  change(finger);
  return sizeSpring(rig, finger, hands);
}

describe('the return', () => {
  it('of 5.3 mN·m against 2 mN·m is 1.137 times what is asked for, and hopeless at 100 gf·cm', () => {
    const size = springOf();
    // By hand: 5.3·0.9 over 1.3·2; over 9.80665; over 1.5·2.6 + I·5.7735·51.662/(15 mm·0.04 s²) = 3.9 + 0.294
    expect(size.staticFactor).toBeCloseTo(4.77 / 2.6, 6);
    expect(size.ratedFactor).toBeCloseTo(0.4864, 4);
    expect(size.returnFactor).toBeCloseTo(1.137, 3);
    // (4.77 - 0.294)/(1.5·1.3)
    expect(size.mostDragMNm).toBeCloseTo(2.295, 3);
    expect(size.margins.filter((margin) => verdictOf(margin) === 'no')).toEqual([]);
  });

  it('fails against 100 gf·cm: named, with its cause and two cures that do when followed', () => {
    const stiff = (finger: Finger) => {
      finger.potentiometer.dragMNm = 9.81;
    };
    const size = springOf(stiff);
    const [margin] = size.margins;
    expect(verdictOf(margin!)).toBe('no');
    expect(margin!.seen).toBe('5.30 mN·m: it will not retract');
    expect(margin!.cure).toMatch(
      /more turns of preload, to \d+\.\d+ mN·m.*potentiometer that turns with at most 2\.30 mN·m/,
    );
    expect(size.fastestTautMs).toBeNull();
    expect(size.openings[0]).toMatchObject({ comesBack: false, isTaut: false });
    const wound = springOf((finger) => {
      stiff(finger);
      finger.spring.openTorqueMNm = Number(/to (\d+\.\d+) mN/.exec(margin!.cure)![1]) + 0.01;
    });
    expect(wound.returnFactor).toBeGreaterThanOrEqual(1);
    const easy = springOf((finger) => {
      finger.potentiometer.dragMNm = size.mostDragMNm;
    });
    expect(easy.returnFactor).toBeCloseTo(1, 9);
  });

  it('is sure with 20 gf·cm', () => {
    const size = springOf((finger) => {
      finger.potentiometer.dragMNm = 1.961;
    });
    expect(size.returnFactor).toBeGreaterThan(1);
    expect(size.openings.map((opening) => opening.isTaut)).toEqual([true, true]);
  });
});

describe('an opening hand', () => {
  it('draws the string in at 484 mm/s in 200 ms and at 1076 in 90 ms', () => {
    // 1.875 D / T
    const size = springOf();
    expect(size.openings[0].peakMmPerS).toBeCloseTo(484, 0);
    expect(size.openings[1].peakMmPerS).toBeCloseTo(1076, 0);
  });

  it('outruns a spring of 3 mN·m below 113 ms: taut in 200 ms, slack in 90', () => {
    const size = springOf((finger) => {
      finger.spring.openTorqueMNm = 3;
    });
    expect(size.openings.map((opening) => opening.isTaut)).toEqual([true, false]);
    // By hand at the sharpest point: 48.2 mm out, ((3 + 1.767·0.513)·0.9 - 2.6)·15 mm/5.916e-7 = 23.2 m/s²;
    // sqrt(5.7735·51.66/23200) = 113 ms; a little later the spring is a little weaker
    expect(size.fastestTautMs).toBeGreaterThan(113);
    expect(size.fastestTautMs).toBeLessThan(115);
  });

  it('leaves the slack of a free spool behind it: a parabola against the fifth-degree curve', () => {
    // A spring of constant torque, so that the spool speeds up evenly: 20 m/s² from where the string goes slack.
    const finger = defaultFinger('index', 'esp32');
    const a = 20_000;
    finger.stringDiameterMm = 0;
    finger.spring = { openTorqueMNm: (a * INERTIA * 1000) / 15, perTurnMNm: 0, hysteresis: 0 };
    const timeS = 0.09;
    let start = 0;
    while ((DRAWN_MM * minimumJerkAcceleration(start / timeS)) / timeS ** 2 < a) start += 1e-6;
    const from = DRAWN_MM * minimumJerk(start / timeS);
    const speed = (DRAWN_MM * minimumJerkVelocity(start / timeS)) / timeS;
    let most = 0;
    let t = start;
    for (;;) {
      t += 1e-6;
      const dt = t - start;
      const slack = DRAWN_MM * minimumJerk(t / timeS) - from - speed * dt - 0.5 * a * dt * dt;
      if (slack < 0 && dt > 1e-3) break;
      most = Math.max(most, slack);
    }
    const opening = simulateOpening(finger, DRAWN_MM, 0, timeS);
    expect(opening.slackMm).toBeCloseTo(most, 1);
    expect(Math.abs(opening.slackMs - 1000 * (t - start))).toBeLessThan(2.5);
    expect(opening.comesBack).toBe(true);
    // Taut exactly from T = sqrt(5.7735 D / a) on (Flash & Hogan 1985).
    expect(fastestTautS(finger, DRAWN_MM, 0)).toBeCloseTo(Math.sqrt((5.7735 * DRAWN_MM) / a), 5);
  });
});

describe('the pull', () => {
  it('at the fingertip is 0.763 N closed and 0.113 N when the open string is wound in', () => {
    const size = springOf();
    // By hand: ((5.3 + 1.767·0.5512)·1.1 + 2)/15·e^(0.08 pi); (4.77 - 2.6)/15/e^(0.08 pi)
    expect(size.pullsN.closedOut).toBeCloseTo(0.763, 3);
    expect(size.pullsN.openIn).toBeCloseTo(0.1125, 4);
    // 14 mm over 81.82 mm of finger
    expect(size.acrossN[1]).toBeCloseTo(0.1306, 3);
    expect(size.feels).toBe('tiring');
  });

  it('is felt across the fingertip as 0.060 N for a bare 5.3 mN·m', () => {
    const size = springOf((finger) => {
      finger.guides = [];
      finger.potentiometer.dragMNm = 0;
      finger.spring.hysteresis = 0;
    });
    // 5.3/15 = 0.353 N, times 14/81.82
    expect(size.pullsN.openOut).toBeCloseTo(0.353, 3);
    expect(size.acrossN[0]).toBeCloseTo(0.06, 3);
    expect(size.staticFactor).toBeNull();
  });

  it('above 1.5 N is refused', () => {
    const size = springOf((finger) => {
      finger.spring.openTorqueMNm = 14;
    });
    const refused = size.margins.filter((margin) => verdictOf(margin) === 'no');
    expect(refused.map((margin) => margin.allowed)).toEqual(['at most 1.5 N']);
    expect(size.feels).toBe('too strong');
  });

  it('rises by 1.183 over 0.548 turn from three turns of preload', () => {
    const size = springOf((finger) => {
      finger.stringDiameterMm = 0;
      finger.spring.openTorqueMNm = 3 * 1.767;
    });
    const { turns, meanMNm } = size.torque;
    expect(turns.at(-1)).toBeCloseTo(0.548, 3);
    expect(meanMNm.at(-1)! / meanMNm[0]!).toBeCloseTo(1.183, 3);
  });
});

describe('the preload', () => {
  it('of the default build works from 2.66 to 7.37 turns and does not tire up to 2.87, for hands up to 1.1', () => {
    const { preload } = springOf(() => {}, [0.9, 1.1]);
    expect(preload.nowTurns).toBeCloseTo(3, 2);
    // By hand, 56.83 mm are 0.6066 turn: (3.9 + 0.3235)/0.9; (1.5·15/1.28573 - 2)/1.1 - 1.0720; the same with 0.75
    expect(preload.works).toMatchObject({
      fromMNm: expect.closeTo(4.693, 3),
      toMNm: expect.closeTo(13.019, 3),
    });
    expect(preload.comfortable).toMatchObject({
      fromTurns: expect.closeTo(2.656, 3),
      toTurns: expect.closeTo(2.866, 3),
    });
  });

  it('has none that is steady as well: the pull of 0.2 N clashes with 0.75 N; the cure does when followed', () => {
    const { preload } = springOf(() => {}, [0.9, 1.1]);
    const { steady } = preload;
    if (!isClash(steady)) throw new Error('no clash');
    expect([steady.least.id, steady.most.id]).toEqual(['held', 'tiring']);
    // By hand, with the drag d: (3.857 + 1.3 d)/0.9 = (8.750 - d)/1.1 - 1.072, so d = 1.104
    expect(steady.cure).toMatch(/at most 1\.1 mN·m \(11\.\d gf·cm\)/);
    const radius = Number(/spool of (\d+\.?\d*) mm/.exec(steady.cure)![1]);
    for (const change of [
      (f: Finger) => {
        f.potentiometer.dragMNm = 1.1;
      },
      (f: Finger) => {
        f.spoolRadiusMm = radius;
      },
    ]) {
      expect(isClash(springOf(change, [0.9, 1.1]).preload.steady)).toBe(false);
    }
  });

  it('is impossible with 100 gf·cm and rough guides: which two limits clash is named', () => {
    const size = springOf((finger) => {
      finger.potentiometer.dragMNm = 9.81;
      finger.guides = [{ wrapDeg: 360, friction: 0.2 }];
    });
    const { works } = size.preload;
    if (!isClash(works)) throw new Error('no clash');
    expect([works.least.id, works.most.id]).toEqual(['return', 'refused']);
    const margin = size.margins.find(({ what }) => what === 'room for a preload that works')!;
    expect(verdictOf(margin)).toBe('no');
    expect(margin.seen).toMatch(/must turn a stiff potentiometer back/);
    expect(margin.allowed).toMatch(/above 1\.5 N at the closed finger is too strong/);
    expect(margin.cure).toMatch(/a potentiometer that turns with at most/);
  });

  it('has no turns where the torque does not grow', () => {
    const { preload } = springOf((finger) => {
      finger.spring.perTurnMNm = 0;
    });
    expect(preload.nowTurns).toBeNull();
    expect(preload.works).toMatchObject({ fromTurns: null, toTurns: null });
  });
});

describe('a strip', () => {
  it('of 5 x 0.15 mm and 1 m is bent to 334 MPa after 3.548 turns; its half-full barrel gives 12 turns', () => {
    const size = springOf((finger) => {
      finger.stringDiameterMm = 0;
      finger.spring = {
        openTorqueMNm: 3 * 1.7671,
        perTurnMNm: 1.7671,
        hysteresis: 0.1,
        strip: { widthMm: 5, thicknessMm: 0.15, lengthMm: 1000, modulusGPa: 200 },
      };
    });
    // 6 M/(b t²) at 3 + 0.548 turns
    expect(size.strip!.turnsUsed).toBeCloseTo(3.548, 3);
    expect(size.strip!.stressMPa).toBeCloseTo(334, 0);
    // By hand: sqrt(9 + 2·150/pi) = 10.22, up to 10.3 mm; solid 7.53298 - 3, at the wall 10.3 - 7.6383: 1.87128/0.15
    expect(size.strip!.barrelRadiusMm).toBeCloseTo(10.3, 9);
    expect(size.strip!.barrelTurns).toBeCloseTo(12.475, 3);
    expect(size.preload.limits.find(({ id }) => id === 'stress')!.openTorqueMNm).toBeCloseTo(
      18.75 - 0.968,
      2,
    );
  });
});
