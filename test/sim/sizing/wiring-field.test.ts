import { describe, expect, it } from 'vitest';
import { noisePreset } from '../../../sim/rig/default-rig.ts';
import { verdictOf } from '../../../sim/sizing/margin.ts';
import { sizeWiring } from '../../../sim/sizing/wiring/wiring-size.ts';
import { marginsOn, rigWith } from './rigs.ts';

/*
 * What people who wired potentiometers ran into: each build must be found wanting, with its cause and its cure in the
 * words of the margin, and the sound build must not.
 */

const HANDS = [0.9, 1.1] as const;

describe('wander mid travel (ATOVproject/faderpunk#556: 16-19 counts there, 1-2 near the stops)', () => {
  const noise = { ...noisePreset('typical'), wanderCounts: 2 };

  it('is ten times that of 10 k with a potentiometer of 100 k, where the pin sees R/4', () => {
    const bare = { topOhm: 0, bottomOhm: 0, pullDownOhm: 0 };
    const [ten, hundred] = [10e3, 100e3].map((resistanceOhm) => {
      const { fingers } = sizeWiring({ ...rigWith(bare, { resistanceOhm }), noise }, HANDS);
      return fingers[0]!;
    });
    expect(hundred!.pickUp.factor / ten!.pickUp.factor).toBeCloseTo(10, 9);
    expect(hundred!.settling.sourceOhm).toBe(25e3);
    expect(hundred!.settling.sourceAt).toBe(0.5);
  });

  it('is found with 100 k and cured by 10 k', () => {
    const build = (resistanceOhm: number) =>
      marginsOn(sizeWiring({ ...rigWith({}, { resistanceOhm }), noise }, HANDS).margins, /wander picked up/);
    const worst = build(100e3).map(({ ratio }) => ratio);
    expect(Math.min(...worst)).toBeLessThan(1);
    const [margin] = build(100e3);
    expect(margin!.what).toMatch(/resistance is highest, near mid travel/);
    expect(margin!.cure).toMatch(/less resistance \(10 kΩ\).*shorter or shielded wires/);
    for (const { ratio } of build(10e3)) expect(ratio).toBeGreaterThan(2);
  });
});

describe('a top end that is not reached (omriharel/deej#16: 850 of 1023; #139: 4.6 V from USB for 5 V)', () => {
  it('reads 92 % where the supply gives 4.6 of 5, on a converter with a reference of its own', () => {
    const rig = rigWith({ bottomOhm: 0 }, {}, 'esp32-s3');
    rig.supply = { volts: 3.3, tolerance: 1 - 4.6 / 5, sag: 0 };
    const { supply } = sizeWiring(rig, HANDS).fingers[1]!;
    expect(supply.readingPct).toBeCloseTo(-8, 6);
  });

  it('is found on a supply that gives 83 % (850 of 1023), and not on a sound one', () => {
    const rig = rigWith({}, {}, 'esp32-s3');
    rig.supply = { volts: 3.3, tolerance: 1 - 850 / 1023, sag: 0 };
    const [low] = marginsOn(sizeWiring(rig, HANDS).margins, /does not reach at the lowest supply/);
    expect(low!.ratio).toBeLessThan(1);
    expect(low!.cure).toMatch(/USB hub.*3V3 pin.*measures the rail.*capture the ends/);
    const sound = marginsOn(sizeWiring(rigWith({}, {}, 'esp32-s3'), HANDS).margins, /does not reach/);
    for (const { ratio } of sound) expect(ratio).toBeGreaterThan(1);
  });

  it('is refused with 5 V over the potentiometers: wrong range, and a pin that may die', () => {
    const rig = rigWith({});
    rig.supply = { volts: 5, tolerance: 0.08, sag: 0 };
    const [margin] = marginsOn(sizeWiring(rig, HANDS).margins, /voltage over the potentiometers/);
    expect(verdictOf(margin!)).toBe('no');
    expect(margin!.cure).toMatch(/3V3 pin: USB and hubs give 4.6 to 5 V/);
    expect(marginsOn(sizeWiring(rigWith({}), HANDS).margins, /voltage over the potentiometers/)).toEqual([]);
    const [top] = marginsOn(sizeWiring(rig, HANDS).margins, /highest voltage/);
    expect(top!.ratio).toBeLessThan(1);
  });

  it('shows as a narrow range where the whole supply is low', () => {
    const rig = rigWith({});
    rig.supply = { volts: 1.8, tolerance: 0.03, sag: 0 };
    const [margin] = marginsOn(sizeWiring(rig, HANDS).margins, /range that the whole travel uses/);
    expect(margin!.ratio).toBeLessThan(1);
  });
});

describe('nothing moves in the first and last 10-15 % (opentx/opentx#4172)', () => {
  const onSpool = (radiusMm: number) => {
    const rig = rigWith({});
    for (const finger of rig.fingers) finger.spoolRadiusMm = radiusMm;
    const size = sizeWiring(rig, [1, 1]);
    const finger = size.fingers[1]!;
    return {
      finger,
      margin: marginsOn(size.margins, /nothing moves/).find((m) => m.fingers.includes('index'))!,
    };
  };

  it('is what a spool of 9 mm does, and the cure names spool and dead ends', () => {
    // 51.66 mm on 9 mm is about 329 deg on 251 that read: some 40 deg, 12 to 14 %, dead at an end
    const { finger, margin } = onSpool(9);
    expect(finger.ends.deadPct).toBeGreaterThan(10);
    expect(finger.ends.deadPct).toBeLessThan(15);
    expect(margin.ratio).toBeLessThan(1);
    expect(margin.cure).toMatch(/larger spool.*its ends are dead/);
  });

  it('is cured by a spool of 15 mm', () => {
    const { finger, margin } = onSpool(15);
    expect(finger.ends.deadPct).toBe(0);
    expect(margin.ratio).toBeGreaterThan(1);
  });
});

describe('untouched fingers that jitter and move with a neighbour (barsk/G27_Pedals_and_Shifter#2)', () => {
  const build = (more: object) => {
    const rig = {
      ...rigWith({ capacitorF: 0 }, { resistanceOhm: 100e3 }),
      noise: noisePreset('rough'),
      ...more,
    };
    return marginsOn(sizeWiring(rig, HANDS).margins, /the finger read before/);
  };

  it('are traced to the reading before, the resistance behind the pin, and dirt', () => {
    const [margin] = build({});
    expect(margin!.ratio).toBeLessThan(1);
    expect(margin!.seen).toMatch(/^2\.00 % through \d+(\.\d+)? kΩ$/);
    expect(margin!.cure).toMatch(
      /dummyRead: true.*less resistance.*clean its potentiometer and check its wires/,
    );
  });

  it('are cured by throwing the first reading away', () => {
    expect(build({ dummyRead: true })).toEqual([]);
    expect(build({ multiplexer: { selectPins: [18, 19, 21], signalPin: 36 } })).toEqual([]);
  });
});

describe('a rail pin', () => {
  it('is the cure of a supply that sags, and helps', () => {
    const rig = rigWith({}, {}, 'esp32-s3');
    rig.supply = { volts: 3.3, tolerance: 0, sag: 0.05 };
    const [without] = marginsOn(sizeWiring(rig, HANDS).margins, /while the supply sags/);
    expect(without!.ratio).toBeLessThan(1);
    expect(without!.cure).toMatch(/add "rail"/);
    const [withRail] = marginsOn(
      sizeWiring({ ...rig, rail: { pin: 7, divider: 0.5 } }, HANDS).margins,
      /while the supply sags/,
    );
    expect(withRail!.ratio).toBeGreaterThan(10);
  });
});

describe('slow pins', () => {
  it('of 100 k and 100 nF are found at 100 Hz, with a capacitor that settles in half a frame', () => {
    const [margin] = marginsOn(
      sizeWiring(rigWith({}, { resistanceOhm: 100e3 }), HANDS).margins,
      /time in which the pin settles/,
    );
    expect(margin!.ratio).toBeLessThan(1);
    const picked = /a capacitor of (\S+) nF/.exec(margin!.cure)!;
    const better = sizeWiring(
      rigWith({ capacitorF: Number(picked[1]) * 1e-9 }, { resistanceOhm: 100e3 }),
      HANDS,
    );
    for (const { settling } of better.fingers) expect(settling.settlingMs).toBeLessThan(settling.frameMs / 2);
  });
});

describe('voltages outside the range with the supply at an end', () => {
  const ratios = (bottomOhm: number, topOhm: number) => {
    const { margins } = sizeWiring(rigWith({ bottomOhm, topOhm }), HANDS);
    return [/^lowest voltage/, /^highest voltage/].map((what) => marginsOn(margins, what)[0]!.ratio);
  };

  it('are found at the bottom without a resistor, at the top with too small a one', () => {
    expect(ratios(0, 5600)[0]).toBe(0); // nominal 0 V of at least 0.15
    expect(ratios(1000, 0)[1]).toBe(0); // nominal beyond 2.45 V
    // 3.3·1.0319·13050/(4465 + 12000 + 1050) = 2.537, less 4 % for 100 k: 2.44; with 4.3 k above 2.45
    expect(ratios(1000, 4300)[1]).toBeLessThan(1);
    for (const ratio of ratios(1000, 5600)) expect(ratio).toBeGreaterThan(1.1);
  });
});
