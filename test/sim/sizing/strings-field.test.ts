import { describe, expect, it } from 'vitest';
import { centredStartDeg, wiperOfTurn } from '../../../sim/pot/travel.ts';
import { verdictOf } from '../../../sim/sizing/margin.ts';
import { sizeStrings } from '../../../sim/sizing/strings/strings-size.ts';
import { play } from '../../../sim/string/play.ts';
import { createChannel } from '../../../sim/study/channel.ts';
import { nominalFinger } from '../../../sim/study/draw-parts.ts';
import { parseRig } from '../../../workbench/rig/read-rig.ts';

const INDEX = 'fingers:\n  index: {pin: 33}\n';
const rigOf = (each: string) => parseRig(`eachFinger:\n${each}\n${INDEX}`, 'rig.yaml').rig;

describe('what builders ran into', () => {
  it('nothing moves in the first and last 10-15 % of the travel (opentx/opentx#4172): found, and cured by its spool', () => {
    const rig = rigOf('  potentiometer: {electricalTravel: 160 deg, mechanicalTravel: 280 deg}');
    const size = sizeStrings(rig, [1, 1]);
    const { spool } = size.fingers[0]!;
    // By hand: 198.4 deg on 160·(1 - 10/280) = 154.3 deg; (1 - 154.3/198.4)/2 = 11.1 %
    expect(spool.deadShare).toBeCloseTo(0.111, 3);
    expect(spool.isStopped).toBe(false);
    // The same share of the turn leaves the wiper still, over the shortest part with the stroke in its middle.
    const turnDeg = spool.turnsDeg[1];
    const start = centredStartDeg(turnDeg, 270);
    const steps = 10_000;
    let still = 0;
    for (let i = 0; i < steps; i++)
      if (wiperOfTurn((turnDeg * i) / steps, start, 154.286, 270) === 0) still += 1;
    expect(still / steps).toBeCloseTo(spool.deadShare, 3);
    const margin = size.margins.find(({ group }) => group === 'spool')!;
    expect(verdictOf(margin)).toBe('no');
    expect(margin.allowed).toBe('at most 90.0 %; nothing moves over the first and last 11.1 %');
    const radius = /spool of (\d+\.?\d*) mm/.exec(margin.cure)![1];
    const cured = rigOf(
      `  potentiometer: {electricalTravel: 160 deg, mechanicalTravel: 280 deg}\n  spool: {radius: ${radius} mm}`,
    );
    const after = sizeStrings(cured, [1, 1]).fingers[0]!.spool;
    expect(after.deadShare).toBe(0);
    expect(after.worstShare).toBeLessThanOrEqual(0.9);
  });

  it('a potentiometer of 100 gf·cm holds a spring of 5.3 mN·m: it will not retract, with cause and cure', () => {
    const size = sizeStrings(rigOf('  potentiometer: {drag: 100 gf·cm}'), [1, 1]);
    const margin = size.margins.find(({ seen }) => /will not retract/.test(seen))!;
    expect(verdictOf(margin)).toBe('no');
    expect(margin.what).toMatch(/stiff potentiometer/);
    expect(margin.cure).toMatch(/preload.*potentiometer that turns with at most/);
    expect(size.fingers[0]!.spring.openings.map(({ comesBack }) => comesBack)).toEqual([false, false]);
    const easy = sizeStrings(rigOf('  potentiometer: {drag: 20 gf·cm}'), [1, 1]);
    expect(easy.margins.filter((other) => verdictOf(other) === 'no')).toEqual([]);
  });

  it('the zero of a draw wire drifts with its play: told by as much as the model moves it, with its cure', () => {
    const rig = rigOf('  play: 1 mm\n  guides: []');
    const [finger] = rig.fingers;
    const size = sizeStrings(rig, [1, 1]);
    const { guides } = size.fingers[0]!;
    const halfMm = createChannel(finger!, nominalFinger(rig, finger!)).playHalfMm;
    // The open hand, reached from a fist and from bent back.
    const fromFist = play(play(0, 50, halfMm), 0, halfMm);
    const fromBehind = play(play(0, -5, halfMm), 0, halfMm);
    expect(guides.lost.play).toBeCloseTo(fromFist - fromBehind, 9);
    expect(guides.lost.play).toBeCloseTo(2, 9);
    // 2 mm of 51.66
    expect(guides.lostShare).toBeCloseTo(0.0387, 3);
    const margin = size.margins.find(({ group }) => group === 'guides')!;
    expect(margin.ratio).toBeCloseTo(0.5, 2);
    expect(margin.cure).toMatch(/zero drifts by it; take the open hand anew/);
  });
});
