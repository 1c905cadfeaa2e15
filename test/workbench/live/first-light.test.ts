import { describe, expect, it } from 'vitest';
import { FIRST_LIGHT_STEPS, judgeFirstLight, STEP_GUIDES } from '../../../workbench/live/first-light.ts';

const still = (value: number | null, frames = 200) => Array.from({ length: frames }, () => value);
const good = { openTravel: 0.05, closedTravel: 0.85 };

describe('first light', () => {
  it('has a word for the multimeter at every step', () => {
    for (const step of FIRST_LIGHT_STEPS) expect(STEP_GUIDES[step].multimeter).toMatch(/voltage|Measure/);
  });

  it('goes through all steps of a sound finger', () => {
    const state = { openTravel: 0, closedTravel: 0 };
    const closing = Array.from({ length: 300 }, (_, i) => Math.min(0.85, 0.05 + i / 100));
    expect(judgeFirstLight('signal', still(0.05), state)).toMatchObject({ isGood: true });
    expect(judgeFirstLight('direction', closing, state)).toEqual({
      isGood: true,
      // 0.85 - 0.05
      seen: 'It moved by 80 % the right way.',
      next: '',
    });
    const opening = closing.map((value) => 0.9 - value);
    expect(judgeFirstLight('return', opening, state)).toMatchObject({ isGood: true });
    expect(judgeFirstLight('quiet', still(0.05), state)).toMatchObject({ isGood: true });
  });

  it.each([
    ['signal', [], /No frames came/, /link/],
    ['signal', still(null), /wiper open in 100 % of the frames/, /ground leg/],
    ['direction', still(0.05), /moved by only 0 %/, /turns on its shaft/],
    ['direction', still(-0.6), /moved by 65 % the wrong way/, /swap the two outer legs/],
    ['return', still(0.85), /within 100 % of what it had moved/, /more preload/],
    // alternating 0.0 and 0.1: sd 0.05
    ['quiet', still(0, 200).map((_, i) => (i % 2) / 10), /still within 5\.00 % \(sd\)/, /missing capacitor/],
  ] as const)('%s fails with what was seen and what to check', (step, travel, seen, next) => {
    const result = judgeFirstLight(step, travel, { ...good });
    expect(result.isGood).toBe(false);
    expect(result.seen).toMatch(seen);
    expect(result.next).toMatch(next);
  });
});
