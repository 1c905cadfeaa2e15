import { describe, expect, it } from 'vitest';
import { defaultFinger, defaultRig } from '../../../sim/rig/default-rig.ts';
import type { Finger, Rig } from '../../../sim/rig/rig.ts';
import { sizeSet } from '../../../sim/sizing/unit/set-size.ts';

const HANDS = [0.9, 1.1] as const;
const rig = defaultRig('esp32');

/** The default rig with one finger. */
function indexRig(more: Partial<Finger>): Rig {
  return { ...rig, fingers: [{ ...defaultFinger('index', 'esp32', 32), ...more }] };
}

describe('the printed set of the default rig', () => {
  const size = sizeSet(rig, HANDS);

  it('is as wide, long and high as its parts add up to', () => {
    // cap 6.8 + 0.25 + 1.2, wall 2, cup 0.4 + hub 5.2 + disc 5.6 + 0.6, lid 1.6
    expect(size.unitMm.widthMm).toBeCloseTo(23.65, 6);
    // key 4, six gaps of 0.4, five units, end 1.6
    expect(size.widthMm).toBeCloseTo(126.25, 6);
    // base 1.6, rails 2.25, axis 15 + 1 + 1.2 + 0.85 + 1.1 + 1.2, radius 16.65 + 0.6 + 1.6
    expect(size.heightMm).toBeCloseTo(43.05, 6);
  });

  it('has room for the turns that strip, hub and cup allow', () => {
    // (sqrt(5.9^2 + L t/pi) - 5.9 - 16.05 + sqrt(16.05^2 - L t/pi))/t with t 0.15 and L 1000.08 mm
    expect(size.springs[0]!.givenTurns).toBeCloseTo(10.817, 3);
  });

  it('tells the moment arms that a printed ring cannot be low enough for', () => {
    // 0.9 · (68.4 + 57.4)/2/(2 pi) = 9.010, and 0.25 + 0.4 + 1.2 + 0.9 above it
    const middle = size.arms.find(({ finger, joint }) => finger === 'index' && joint === 1)!;
    expect(middle.askedMm).toBe(11);
    expect(middle.givenMm).toBeCloseTo(11.76, 2);
    const margin = size.margins.find(
      ({ fingers, what }) => fingers.includes('index') && what.includes('middle joint'),
    )!;
    expect(margin.ratio).toBeCloseTo(11 / 11.76, 3);
    // the knuckle's 14 mm leave room
    expect(size.arms.find(({ finger, joint }) => finger === 'index' && joint === 0)!.givenMm).toBe(14);
  });

  it('stands thumb first, seen from the wrist, on a right hand, and thumb last on a left one', () => {
    const order = (side: 'left' | 'right') =>
      sizeSet({ ...rig, hand: { side, scale: 1 } }, HANDS).dimensions.units.map(({ finger }) => finger);
    expect(order('right')).toEqual(['thumb', 'index', 'middle', 'ring', 'little']);
    expect(order('left')).toEqual(['little', 'ring', 'middle', 'index', 'thumb']);
  });

  it('says what slimmer choices cost', () => {
    const of = (name: string) => size.alternatives.find((one) => one.name === name)!;
    const now = of('as it is');
    // cup 0.4 + max(disc, 2.4 + 5.6) + 0.6 against 11.8
    expect(now.unitWidthMm - of('spring inside the spool').unitWidthMm).toBeCloseTo(2.8, 6);
    expect(now.unitWidthMm - of('strip 3 mm wide').unitWidthMm).toBeCloseTo(2, 6);
    const small = of('spools 2 mm smaller');
    expect(now.heightMm - small.heightMm).toBeCloseTo(4, 6);
    // turn and counts go with 1/r; the winding adds a little
    expect(small.countsPerDeg / now.countsPerDeg / (15 / 13)).toBeCloseTo(1, 1);
    expect(small.travelShare / now.travelShare / (15 / 13)).toBeCloseTo(1, 1);
    // so does the pull, and the spring is wound up further
    expect(small.pullN / now.pullN).toBeGreaterThan(15 / 13);
    expect(small.pullN / now.pullN).toBeLessThan(1.2);
  });
});

describe('what does not fit', () => {
  const low = (one: Rig) => sizeSet(one, HANDS).margins.filter(({ ratio }) => ratio < 1);

  it('is a spool too small for its shaft', () => {
    const [spool] = low(indexRig({ spoolRadiusMm: 8 })).filter(({ group }) => group === 'spool');
    // 3.1 + 1.2 + knot 3 + 1.2; under the string two turns that stay, two that go (the stroke takes 1.1), and a half
    expect(spool!.ratio).toBeCloseTo(8 / (8.5 + 0.3 * 4.5), 6);
  });

  it('is a strip too long for its room: a fault if the rig names it, a guess if not', () => {
    const spring = { openTorqueMNm: 5.3, perTurnMNm: 0.3, hysteresis: 0.1 };
    // 5 m of strip are 750 mm2, more than the 699.9 between hub and cup
    const strip = { widthMm: 5, thicknessMm: 0.15, lengthMm: 5000, modulusGPa: 200 };
    const room = (one: Rig) => low(one).find(({ what }) => what.includes('room for the spring'))!;
    const [guessed, named] = [room(indexRig({ spring })), room(indexRig({ spring: { ...spring, strip } }))];
    expect([guessed.ratio, guessed.isSoft]).toEqual([0, true]);
    expect([named.ratio, named.isSoft]).toEqual([0, false]);
  });

  it('is nothing but comfort on the default rig', () => {
    expect(low(rig).filter(({ isSoft }) => !isSoft)).toEqual([]);
  });
});
