import type { Finger } from '../../rig/rig.ts';
import { MOST_TRAVEL_SHARE } from '../../spool/radius.ts';
import type { Margin } from '../margin.ts';
import type { SpoolSize } from './spool-size.ts';

/** Least counts between open and closed: a quarter percent of closure a count. Assumed. */
const LEAST_COUNTS = 400;

const pct = (share: number) => `${(100 * share).toFixed(1)} %`;

export function spoolMargins(size: SpoolSize, finger: Finger): Margin[] {
  const about = { fingers: [finger.name as string], group: 'spool' as const };
  return [
    {
      ...about,
      isSoft: false,
      what: 'travel of the potentiometer used by the largest hand',
      ratio: MOST_TRAVEL_SHARE / size.worstShare,
      seen: pct(size.worstShare),
      allowed: `at most ${pct(MOST_TRAVEL_SHARE)}${consequence(size)}`,
      cure: `take a spool of ${size.proposedRadiusMm} mm radius`,
    },
    {
      ...about,
      isSoft: true,
      what: 'counts between open and closed, smallest hand',
      ratio: size.counts[0] / LEAST_COUNTS,
      seen: `${size.counts[0].toFixed(0)}`,
      allowed: `at least ${LEAST_COUNTS}`,
      cure:
        size.radiusMm > size.proposedRadiusMm
          ? `take a spool of ${size.proposedRadiusMm} mm radius`
          : 'smaller resistors in series with the potentiometer, as far as its voltage allows',
    },
    {
      ...about,
      isSoft: true,
      what: 'width of groove that keeps the string in one layer',
      ratio: size.roomMm / size.oneLayerWidthMm,
      seen: `${size.oneLayerWidthMm.toFixed(1)} mm`,
      allowed: `at most ${size.roomMm} mm on a spool of usual width`,
      cure: `a groove of ${(Math.ceil(10 * size.oneLayerWidthMm) / 10).toFixed(1)} mm, a larger spool or a thinner string; in ${size.layers} layers the reading bends`,
    },
  ];
}

function consequence(size: SpoolSize): string {
  if (size.isStopped) return '; it hits the end stop';
  return size.deadShare > 0 ? `; nothing moves over the first and last ${pct(size.deadShare)}` : '';
}
