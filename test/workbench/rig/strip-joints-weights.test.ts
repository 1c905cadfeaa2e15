import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assumptionsOf } from '../../../workbench/rig/assumptions.ts';
import { parseRig } from '../../../workbench/rig/read-rig.ts';
import { evenly } from '../../sim/evenly.ts';
import { REST } from './broken-rigs.ts';
import { errorOf } from './files.ts';

const numRuns = process.env.TAUTLINE_VERIFY === '1' ? 1000 : 50;
const STRIP = '{width: 5 mm, thickness: 0.15 mm, length: 1 m, modulus: 200 GPa}';
const PULLS = '[{stringOut: 0 mm, in: 0.30 N, out: 0.38 N}, {stringOut: 50 mm, in: 0.36 N, out: 0.44 N}]';

const parsed = (text: string) => parseRig(text, 'rig.yaml');
const indexOf = (text: string) => parsed(text).rig.fingers[0]!;
const spring = (block: string, rest = REST) => `eachFinger:\n  spring: {${block}}\n${rest}`;

describe('a strip', () => {
  it('of 5 x 0.15 mm and 1 m gives 1.767 mN·m a turn and 5.301 at three turns', () => {
    // E b t³ angle/(12 L)
    const finger = indexOf(spring(`strip: ${STRIP}, preload: 3 turns`));
    expect(finger.spring.perTurnMNm).toBeCloseTo(1.767, 3);
    expect(finger.spring.openTorqueMNm).toBeCloseTo(5.301, 3);
    expect(finger.spring.hysteresis).toBe(0.1);
    expect(finger.spring.strip).toEqual({ widthMm: 5, thicknessMm: 0.15, lengthMm: 1000, modulusGPa: 200 });
  });

  it('is of steel unless told, and takes its turns in degrees as well', () => {
    const text = spring(
      `strip: {width: 5, thickness: 0.15, length: 100 cm}, preload: 1080 deg, hysteresis: 5 %`,
    );
    expect(indexOf(text).spring).toMatchObject({ hysteresis: 0.05 });
    expect(indexOf(text).spring.openTorqueMNm).toBeCloseTo(5.301, 3);
    const soft = indexOf(
      spring(`strip: {width: 5, thickness: 0.15, length: 1 m, modulus: 100 kN/mm²}, preload: 3`),
    );
    expect(soft.spring.openTorqueMNm).toBeCloseTo(5.301 / 2, 3);
  });

  it('may be wound up by other turns on one finger', () => {
    const text = spring(
      `strip: ${STRIP}, preload: 3 turns`,
      'fingers:\n  index: {pin: 33}\n  ring: {pin: 34, spring: {preload: 2 turns}}\n',
    );
    const [index, ring] = parsed(text).rig.fingers;
    expect(index!.spring.openTorqueMNm).toBeCloseTo(5.301, 3);
    expect(ring!.spring.openTorqueMNm).toBeCloseTo(3.534, 3);
    expect(ring!.spring.strip).toEqual(index!.spring.strip);
    expect(ring!.spring.strip).not.toBe(index!.spring.strip);
  });

  it('may wait for the turns of each finger', () => {
    const text = spring(`strip: ${STRIP}`, 'fingers:\n  index: {pin: 33, spring: {preload: 1 turn}}\n');
    expect(indexOf(text).spring.openTorqueMNm).toBeCloseTo(1.767, 3);
  });

  it('gives way to what the finger states or measured', () => {
    const own = (block: string) =>
      indexOf(spring(`strip: ${STRIP}, preload: 3`, `fingers:\n  index: {pin: 33, spring: {${block}}}\n`));
    expect(own('openTorque: 4').spring).toMatchObject({ openTorqueMNm: 4, strip: { widthMm: 5 } });
    expect(own('perTurn: 1').spring.strip).toBeUndefined();
    // 0.34 N at 15 mm
    expect(own(`pulls: ${PULLS}`).spring.openTorqueMNm).toBeCloseTo(5.1, 9);
    expect(own(`pulls: ${PULLS}`).spring.strip).toBeUndefined();
  });

  it('of twice the thickness gives eight times the torque', () => {
    fc.assert(
      fc.property(evenly(1, 20), evenly(0.03, 0.4), evenly(200, 5000), evenly(0.5, 10), (b, t, l, turns) => {
        const torque = (thickness: number) =>
          indexOf(spring(`strip: {width: ${b}, thickness: ${thickness}, length: ${l}}, preload: ${turns}`))
            .spring;
        expect(torque(2 * t).openTorqueMNm / torque(t).openTorqueMNm).toBeCloseTo(8, 9);
        expect(torque(2 * t).perTurnMNm / torque(t).perTurnMNm).toBeCloseTo(8, 9);
      }),
      { numRuns },
    );
  });

  it('that is bent beyond 1000 MPa, or has too few turns in its barrel, is warned of once', () => {
    const warnings = (block: string) => parsed(spring(block)).warnings.map(({ seen }) => seen);
    expect(warnings(`strip: ${STRIP}, preload: 3 turns`)).toEqual([]);
    // 334 MPa at 3.548 turns, so 1000 at 10.62; with the thinning winding 12 + 0.551 turns are 1182 MPa
    expect(warnings(`strip: ${STRIP}, preload: 12 turns`)).toEqual([
      expect.stringMatching(/^the strip of the index is bent to 118\d MPa/),
    ]);
    // By hand: 11 mm wide on 3 mm, 1 m of 0.15 mm: (7.533 - 3 - (11 - 8.558))/0.15 = 13.94 turns
    const barrel = STRIP.replace('}', ', barrel: 11 mm, arbor: 3 mm}');
    expect(warnings(`strip: ${barrel}, preload: 3 turns`)).toEqual([]);
    // 7.6 mm: (7.533 - 3 - (7.6 - 3.164))/0.15 = 0.65 turns
    const narrow = STRIP.replace('}', ', barrel: 7.6 mm}');
    const { warnings: found } = parsed(spring(`strip: ${narrow}, preload: 3 turns`));
    expect(found.map(({ seen }) => seen)).toEqual([
      'the spring of the index is to turn 3.55 times, preload and stroke together',
    ]);
    expect(found[0]!.expected).toMatch(/the 0\.65 turns/);
  });
});

describe('measured joints', () => {
  it('become moment arms: circumference/2 pi and the height of the guide', () => {
    // 68.4 and 57.4 mm are 10.886 and 9.135 mm of radius (Greiner 1991, second-hand); 75 mm 11.937
    const finger = indexOf(
      `eachFinger:\n  joints: {circumferences: [7.5 cm, 68.4 mm, 57.4], guideHeight: 3 mm}\n${REST}`,
    );
    expect(finger.momentArmsMm.map((arm) => Number(arm.toFixed(3)))).toEqual([14.937, 13.886, 12.135]);
    expect(finger.joints).toEqual({ circumferencesMm: [75, 68.4, 57.4], guideHeightMm: 3 });
  });

  it('belong to the rig’s hand: its size is not counted twice', () => {
    const text = `hand: {size: 0.8}\neachFinger:\n  joints: {circumferences: [75, 68.4, 57.4], guideHeight: 3}\n${REST}`;
    const { rig } = parsed(text);
    expect(rig.fingers[0]!.momentArmsMm[1]! * rig.hand.scale).toBeCloseTo(13.886, 3);
  });

  it('of eachFinger give way to the moment arms of a finger', () => {
    const text =
      'eachFinger:\n  joints: {circumferences: [75, 68.4, 57.4], guideHeight: 3}\nfingers:\n  index: {pin: 33, momentArms: [14, 11, 9]}\n';
    expect(indexOf(text).momentArmsMm).toEqual([14, 11, 9]);
    expect(indexOf(text).joints).toBeUndefined();
  });
});

describe('two weights over a guide', () => {
  it('give its friction, in either order: ln(1.28)/pi = 0.0786', () => {
    for (const weights of ['[100 g, 128 g]', '[1.28 N, 100 cN]', '[128 gf, 0.1 kg]']) {
      const finger = indexOf(`eachFinger:\n  guides: [{wrap: 180 deg, weights: ${weights}}]\n${REST}`);
      expect(finger.guides[0]!.wrapDeg).toBe(180);
      expect(finger.guides[0]!.friction).toBeCloseTo(0.078578, 5);
    }
  });
});

describe('pulls', () => {
  it('may be read off a kitchen balance in grams', () => {
    // 34.67 gf are 0.34 N: 5.1 mN·m at 15 mm
    const text = spring(
      'pulls: [{stringOut: 0, in: 30.59 g, out: 38.75 gf}, {stringOut: 50, in: 36.71 g, out: 44.87 g}]',
    );
    expect(indexOf(text).spring.openTorqueMNm).toBeCloseTo(5.1, 2);
  });
});

describe('backlash of the shaft', () => {
  it('of 2 deg adds 0.52 mm to the width of the play at 15 mm', () => {
    const finger = indexOf(`eachFinger:\n  play: 0.1 mm\n  spool: {backlash: 2 deg}\n${REST}`);
    expect(2 * finger.playMm).toBeCloseTo(0.2 + 0.5236, 4);
    expect(finger.backlashDeg).toBe(2);
  });
});

const joints = '{circumferences: [75, 68.4, 57.4], guideHeight: 3}';
/** Title, text, line:column counted by hand, what is seen, what is expected. */
const BROKEN: [string, string, string, RegExp, RegExp][] = [
  [
    'strip and pulls',
    `eachFinger:\n  spring:\n    pulls: ${PULLS}\n    strip: ${STRIP}\n    preload: 3\n${REST}`,
    '4:12',
    /both strip and pulls/,
    /either a strip/,
  ],
  [
    'strip and torque',
    `eachFinger:\n  spring:\n    openTorque: 5\n    strip: ${STRIP}\n    preload: 3\n${REST}`,
    '4:12',
    /both strip and torques/,
    /openTorque and perTurn/,
  ],
  [
    'a preload without a strip',
    `eachFinger:\n  spring:\n    preload: 3\n${REST}`,
    '3:14',
    /eachFinger.spring has a preload but no strip/,
    /the strip/,
  ],
  [
    'a strip without a preload',
    `eachFinger:\n  spring:\n    strip: ${STRIP}\n${REST}`,
    '3:12',
    /strip but no preload/,
    /turns by which/,
  ],
  [
    'preload as a length',
    `eachFinger:\n  spring:\n    strip: ${STRIP}\n    preload: 3 mm\n${REST}`,
    '4:14',
    /"3 mm", which is a length/,
    /number of turns/,
  ],
  [
    'a strip without thickness',
    `eachFinger:\n  spring:\n    strip: {width: 5, length: 1 m}\n    preload: 3\n${REST}`,
    '3:5',
    /strip has no "thickness"/,
    /a length/,
  ],
  [
    'a modulus in mm',
    `eachFinger:\n  spring:\n    strip: {width: 5, thickness: 0.15, length: 1 m, modulus: 2 mm}\n    preload: 3\n${REST}`,
    '3:62',
    /which is a length/,
    /elastic modulus/,
  ],
  [
    'a barrel too small for its strip',
    `eachFinger:\n  spring:\n    strip: {width: 5, thickness: 0.15, length: 1 m, barrel: 7 mm}\n    preload: 3\n${REST}`,
    '3:61',
    /7 mm, round an arbor of 3 mm/,
    /room for 1000 mm of strip/,
  ],
  [
    'joints and moment arms',
    `eachFinger:\n  momentArms: [14, 11, 9]\n  joints: ${joints}\n${REST}`,
    '3:11',
    /both joints and momentArms/,
    /either momentArms/,
  ],
  [
    'joints without guides',
    `eachFinger:\n  joints: {circumferences: [75, 68, 57]}\n${REST}`,
    '2:3',
    /joints has no "guideHeight"/,
    /a length/,
  ],
  [
    'a radius for a circumference',
    `eachFinger:\n  joints: {circumferences: [12, 68, 57], guideHeight: 3}\n${REST}`,
    '2:29',
    /"12"/,
    /20 mm to 150 mm/,
  ],
  [
    'weights and friction',
    `eachFinger:\n  guides:\n    - {wrap: 180, friction: 0.1, weights: [100 g, 128 g]}\n${REST}`,
    '3:43',
    /there beside a friction/,
    /either "friction"/,
  ],
  [
    'a guide with neither',
    `eachFinger:\n  guides:\n    - {wrap: 180}\n${REST}`,
    '3:7',
    /has no "friction"/,
    /either "friction"/,
  ],
  [
    'equal weights',
    `eachFinger:\n  guides:\n    - {wrap: 180, weights: [100 g, 100 g]}\n${REST}`,
    '3:28',
    /two equal weights/,
    /heavier weight/,
  ],
  [
    'no weight at all',
    `eachFinger:\n  guides:\n    - {wrap: 180, weights: [0 g, 100 g]}\n${REST}`,
    '3:29',
    /"0 g"/,
    /more than 0 N/,
  ],
  [
    'a negative weight',
    `eachFinger:\n  guides:\n    - {wrap: 180, weights: [100 g, -100 g]}\n${REST}`,
    '3:36',
    /"-100 g"/,
    /more than 0 N/,
  ],
  [
    'weights without a bend',
    `eachFinger:\n  guides:\n    - {wrap: 0, weights: [100 g, 128 g]}\n${REST}`,
    '3:14',
    /0 deg, beside weights/,
    /angle over which/,
  ],
  [
    'weights too far apart',
    `eachFinger:\n  guides:\n    - {wrap: 90, weights: [100 g, 900 g]}\n${REST}`,
    '3:27',
    /ask for a friction of 1\.4/,
    /at most 1/,
  ],
];

describe('a rig file', () => {
  it.each(BROKEN)('is refused for %s', (_title, text, place, seen, expected) => {
    const { problems } = errorOf(() => parsed(text));
    expect(problems.map(({ line, column }) => `${line}:${column}`)).toEqual([place]);
    expect(problems[0]!.seen).toMatch(seen);
    expect(problems[0]!.expected).toMatch(expected);
    expect(problems[0]!.next).not.toBe('');
  });

  it('has what it gave in another form told as its own, not as a default', () => {
    const text = `eachFinger:\n  joints: ${joints}\n  guides: [{wrap: 90, friction: 0.1}]\n  spring: {strip: ${STRIP}, preload: 3}\n${REST}`;
    const { rig, source } = parsed(text);
    const told = assumptionsOf(rig, source).filter(({ value }) => value.startsWith('from '));
    expect(told.map(({ path, value }) => `${path} ${value}`)).toEqual([
      'finger.momentArms from joints',
      'finger.guides.wrap from guides',
      'finger.guides.friction from guides',
      'finger.spring.openTorque from strip',
      'finger.spring.perTurn from strip',
    ]);
  });
});
