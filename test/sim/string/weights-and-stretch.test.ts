import { describe, expect, it } from 'vitest';
import { minimumJerkVelocity } from '../../../sim/hand/minimum-jerk.ts';
import { capstanRatio, frictionOfWeights, tensionBandN } from '../../../sim/string/capstan.ts';
import { jointArmMm } from '../../../sim/string/joint-arm.ts';
import { stringStiffnessNPerMm, stringStretchMm } from '../../../sim/string/stretch.ts';

describe('two weights over a guide', () => {
  it('of 100 g and 128 g over half a turn show a friction of 0.0786, in either order', () => {
    // ln(1.28)/pi = 0.246860/3.141593
    expect(frictionOfWeights(100, 128, Math.PI)).toBeCloseTo(0.078578, 5);
    expect(frictionOfWeights(128, 100, Math.PI)).toBeCloseTo(frictionOfWeights(100, 128, Math.PI), 15);
  });

  it('are the capstan table read backwards', () => {
    // e^(0.2 pi) = 1.874, to three places
    expect(frictionOfWeights(1, 1.874, Math.PI)).toBeCloseTo(0.2, 3);
    expect(frictionOfWeights(1, capstanRatio(0.3, 2), 2)).toBeCloseTo(0.3, 12);
  });
});

describe('stretch of the string', () => {
  it('is 0.018 mm over 0.3 m of braid at a band of 0.2235 N: 12.4 N/mm', () => {
    // 130 N at 3.5 %: 3714 N, over 300 mm; 0.35 N over friction 0.1 and half a turn
    expect(stringStiffnessNPerMm(300)).toBeCloseTo(12.4, 1);
    expect(stringStretchMm(tensionBandN(0.35, 0.1 * Math.PI), 300)).toBeCloseTo(0.018, 3);
  });
});

describe('arm of a measured joint', () => {
  it('is 10.9 mm for 68.4 mm round the PIP and 9.1 mm for 57.4 mm round the DIP, more with a guide', () => {
    // circumference / 2 pi; circumferences after Greiner 1991, second-hand
    expect(jointArmMm(68.4, 0)).toBeCloseTo(10.9, 1);
    expect(jointArmMm(57.4, 0)).toBeCloseTo(9.1, 1);
    expect(jointArmMm(68.4, 3)).toBeCloseTo(13.886, 3);
  });
});

describe('speed of the string', () => {
  it('peaks at 484 mm/s when 51.66 mm are opened in 200 ms, at 1076 in 90 ms', () => {
    // 1.875 D / T, minimum jerk (Flash & Hogan 1985)
    expect((minimumJerkVelocity(0.5) * 51.66) / 0.2).toBeCloseTo(484, 0);
    expect((minimumJerkVelocity(0.5) * 51.66) / 0.09).toBeCloseTo(1076, 0);
  });
});
