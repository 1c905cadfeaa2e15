import { stringify } from 'yaml';
import type { Despike, Hysteresis, LowPass, Settings } from '../../firmware/chain/settings.ts';
import { settingsBlock } from '../rig/settings-yaml.ts';
import { formatSetting, withUnit } from './numbers.ts';

/** Settings as whole sentences, one for each stage, in the order in which a reading passes them. */
export function settingsSentences(settings: Settings): string[] {
  return [
    readingSentence(settings.oversampling),
    despikeSentence(settings.despike),
    lowPassSentence(settings.lowPass),
    hysteresisSentence(settings.hysteresis),
  ];
}

/** Settings in one short line, without the stages that are off. */
export function settingsLine(settings: Settings): string {
  const parts = [settings.oversampling === 1 ? 'single readings' : `mean of ${settings.oversampling}`];
  const { despike, lowPass, hysteresis } = settings;
  if (despike.kind === 'clip') parts.push(`clip ${percent(despike.limitPct)}`);
  if (despike.kind === 'median') parts.push('median of 3');
  if (lowPass.kind === 'exponential') parts.push(`low-pass ${hertz(lowPass.cutoffHz)}`);
  if (lowPass.kind === 'oneEuro')
    parts.push(`one euro ${hertz(lowPass.minCutoffHz)}, β ${formatSetting(lowPass.beta)}`);
  if (lowPass.kind === 'adaptive')
    parts.push(`adaptive ${hertz(lowPass.restCutoffHz)} rising ${hertz(lowPass.riseHz)}`);
  if (hysteresis.kind !== 'none') parts.push(`${hysteresis.kind} band ${percent(hysteresis.widthPct)}`);
  if ('stillPct' in hysteresis) parts.push(`still within ${percent(hysteresis.stillPct)}`);
  return parts.join(', ');
}

/** The `settings:` block for a rig file, with units as the rig file has them. */
export function settingsYaml(settings: Settings): string {
  return stringify({ settings: settingsBlock(settings) }).trimEnd();
}

/** A finger as people call it: `index finger`, but `thumb`. */
export function fingerWords(name: string): string {
  return name === 'thumb' ? name : `${name} finger`;
}

function readingSentence(count: number): string {
  if (count === 1) return 'Read each finger once a frame.';
  return `Read each finger ${count} times a frame and use the mean.`;
}

function despikeSentence(despike: Despike): string {
  switch (despike.kind) {
    case 'none':
      return 'Do nothing special about isolated wrong readings.';
    case 'clip':
      return `Isolated wrong readings: let a new reading pull by at most ${percent(despike.limitPct)} of full closure.`;
    case 'median':
      return 'Isolated wrong readings: use the middle one of the last three readings.';
  }
}

function lowPassSentence(lowPass: LowPass): string {
  switch (lowPass.kind) {
    case 'none':
      return 'Do not smooth any further.';
    case 'exponential':
      return `Smooth with a first-order low-pass at ${hertz(lowPass.cutoffHz)}, the same at rest and in motion.`;
    case 'oneEuro':
      return `Smooth with a one euro filter: ${hertz(lowPass.minCutoffHz)} at rest, ${hertz(lowPass.beta)} more for each closure per second of speed (speed smoothed at ${hertz(lowPass.speedCutoffHz)}).`;
    case 'adaptive':
      return `Smooth with the adaptive low-pass: ${hertz(lowPass.restCutoffHz)} at rest, ${hertz(lowPass.riseHz)} more when a reading is 10 % of closure away, four times that at 20 %.`;
  }
}

function hysteresisSentence(hysteresis: Hysteresis): string {
  switch (hysteresis.kind) {
    case 'none':
      return 'No dead band.';
    case 'still':
      return `Still band of ${percent(hysteresis.widthPct)} of closure: readings that stay within half of it change nothing.`;
    case 'drag':
      return `Drag band of ${percent(hysteresis.widthPct)} of closure: the output stays put until the band’s edge drags it along.${stillWords(hysteresis.stillPct)}`;
    case 'step':
      return `Step band of ${percent(hysteresis.widthPct)} of closure: the output stays put, then jumps once it is half the band away.${stillWords(hysteresis.stillPct)}`;
  }
}

function stillWords(stillPct: number | undefined): string {
  return stillPct === undefined
    ? ''
    : ` Readings within half of ${percent(stillPct)} round the smoothed value are not worked on at all.`;
}

function percent(value: number): string {
  return withUnit(formatSetting(value), '%');
}

function hertz(value: number): string {
  return withUnit(formatSetting(value), 'Hz');
}
