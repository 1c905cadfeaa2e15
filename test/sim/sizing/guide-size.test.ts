import { describe, expect, it } from 'vitest';
import { defaultRig } from '../../../sim/rig/default-rig.ts';
import type { Finger } from '../../../sim/rig/rig.ts';
import { sizeGuides } from '../../../sim/sizing/strings/guide-size.ts';
import { createChannel } from '../../../sim/study/channel.ts';
import { nominalFinger } from '../../../sim/study/draw-parts.ts';

function guidesOf(change: (finger: Finger) => void = () => {}) {
  const rig = defaultRig('esp32');
  const finger = rig.fingers[1]!;
  change(finger);
  return { rig, finger, size: sizeGuides(rig, finger, [1, 1]) };
}

describe('lost motion', () => {
  it('of 0.35 N over friction 0.1 and half a turn is 0.22 mm on 1 N/mm, 0.91 deg at 14 mm', () => {
    const { size } = guidesOf((finger) => {
      finger.guides = [{ wrapDeg: 180, friction: 0.1 }];
      finger.playMm = 0;
      finger.spring = { openTorqueMNm: 0.35 * 15, perTurnMNm: 0, hysteresis: 0 };
    });
    expect(size.bandN).toBeCloseTo(0.2235, 4);
    expect(size.lost.friction).toBeCloseTo(0.22, 2);
    expect((size.lost.friction / 14) * (180 / Math.PI)).toBeCloseTo(0.91, 2);
    // 12.4 N/mm over 300 mm; here over the 199.94 mm of an index finger's string
    expect(size.lost.stretch).toBeCloseTo(0.018 * (199.94 / 300), 3);
    expect(size.lostDeg).toBeCloseTo(((size.lost.friction + size.lost.stretch) / 14) * (180 / Math.PI), 9);
    expect(size.dominant).toBe('friction');
    expect(size.margins[0]!.cure).toMatch(/guides that rub less .* anchor/);
  });

  it('of 2 deg of backlash at 15 mm is 0.52 mm, 2.1 deg at the knuckle', () => {
    const { size } = guidesOf((finger) => {
      finger.guides = [];
      finger.backlashDeg = 2;
      finger.playMm = (Math.PI / 180) * 15;
    });
    expect(size.lost).toMatchObject({ friction: 0, play: 0, stretch: 0 });
    expect(size.lost.backlash).toBeCloseTo(0.52, 2);
    expect(size.lostDeg).toBeCloseTo(2.1, 1);
    expect(2 * size.backlashMmPerDeg).toBeCloseTo(0.52, 2);
    expect(2 * size.backlashDegPerDeg).toBeCloseTo(2.1, 1);
    expect(size.dominant).toBe('backlash');
    expect(size.margins[0]!.cure).toMatch(/clamped to the shaft/);
  });

  it('is twice the half-width that the trace moves by, but for the stretch', () => {
    const { rig, finger, size } = guidesOf();
    const { playHalfMm } = createChannel(finger, nominalFinger(rig, finger));
    // The trace takes the tension at half the string, this one at half the turn: alike within 0.3 % of 0.2 mm.
    expect(size.lostMm - size.lost.stretch).toBeCloseTo(2 * playHalfMm, 3);
  });

  it('names the play where it is the larger part', () => {
    const { size } = guidesOf((finger) => {
      finger.playMm = 0.6;
    });
    expect(size.dominant).toBe('play');
    expect(size.lost.play).toBeCloseTo(1.2, 9);
    expect(size.margins[0]!.ratio).toBeLessThan(1);
    expect(size.margins[0]!.isSoft).toBe(true);
  });
});

describe('guides', () => {
  it('multiply pulls by the capstan table', () => {
    const { size } = guidesOf((finger) => {
      finger.guides = [
        { wrapDeg: 90, friction: 0.1 },
        { wrapDeg: 180, friction: 0.2 },
      ];
    });
    // e^(friction wrap): 1.170 and 1.874, together 2.193
    expect(size.guides.map(({ ratio }) => Number(ratio.toFixed(3)))).toEqual([1.17, 1.874]);
    expect(size.ratio).toBeCloseTo(2.193, 3);
  });
});
