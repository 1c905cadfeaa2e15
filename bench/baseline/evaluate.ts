import { closureOf } from '../../firmware/chain/calibration-curve.ts';
import type { Settings } from '../../firmware/chain/settings.ts';
import { readingOfWord, wordGain, wordOffset } from '../../firmware/chain/word-scale.ts';
import { createDespike, createHold, createLowPass } from './filters.ts';
import type { Random } from './random.ts';
import { simulateFinger } from './read-adc.ts';
import type { Scenario } from './scenario.ts';
import { type BaselineScores, scoreOutput } from './score.ts';

/**
 * One setting on one finger, the way one would write it first: simulate the finger, filter frame by frame,
 * collect what comes out, score it.
 * @param random fresh noise is drawn from here
 */
export function evaluateSettings(scenario: Scenario, settings: Settings, random: Random): BaselineScores {
  const { ends, periodS, calibration } = scenario;
  const span = Math.abs(ends.closed - ends.open);
  const filters = [
    createDespike(settings.despike),
    createLowPass(settings.lowPass, settings.despike, settings.hysteresis, periodS, span),
    createHold(settings.hysteresis, span),
  ];
  const gain = wordGain(ends.open, ends.closed, 1);
  const offset = wordOffset(ends.open, ends.closed);
  const frames = simulateFinger(scenario, settings.oversampling, random);
  const closures = frames.map(({ codes }) => {
    const mean = codes.reduce((sum, code) => sum + code, 0) / codes.length / 4096;
    const level = filters.reduce((value, filter) => filter.update(value), mean);
    const word = Math.min(65534, Math.max(0, Math.floor(level * gain + offset)));
    return closureOf(calibration, readingOfWord(word, ends) * 4096);
  });
  return scoreOutput(
    closures,
    frames.map((frame) => frame.truth),
    scenario,
  );
}
