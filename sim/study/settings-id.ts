import type { Settings } from '../../firmware/chain/settings.ts';

/**
 * Short text form of settings, unique and stable: `os8 clip10 adaptive1/30 still0.5`. Parts that are `none`
 * are left out; the numbers are those of the settings in their own units.
 */
export function settingsId(settings: Settings): string {
  const { oversampling, despike, lowPass, hysteresis } = settings;
  const parts = [`os${oversampling}`];
  if (despike.kind === 'clip') parts.push(`clip${despike.limitPct}`);
  if (despike.kind === 'median') parts.push('median');
  if (lowPass.kind === 'exponential') parts.push(`exponential${lowPass.cutoffHz}`);
  if (lowPass.kind === 'oneEuro') {
    parts.push(`oneEuro${lowPass.minCutoffHz}/${lowPass.beta}/${lowPass.speedCutoffHz}`);
  }
  if (lowPass.kind === 'adaptive') parts.push(`adaptive${lowPass.restCutoffHz}/${lowPass.riseHz}`);
  if (hysteresis.kind !== 'none') parts.push(`${hysteresis.kind}${hysteresis.widthPct}`);
  if ('stillPct' in hysteresis) parts.push(`still${hysteresis.stillPct}`);
  return parts.join(' ');
}
