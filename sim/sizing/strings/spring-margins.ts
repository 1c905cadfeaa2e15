import type { Finger } from '../../rig/rig.ts';
import { LEAST_PULL_N, MNM_PER_GF_CM, MOST_PULL_N, TIRING_PULL_N } from '../../spool/force.ts';
import { MOST_STRIP_STRESS_MPA } from '../../spool/spring.ts';
import type { Margin } from '../margin.ts';
import { type Clash, isClash, type Stretch } from './preload-range.ts';
import type { SpringSize } from './spring-size.ts';

export function springMargins(size: SpringSize, finger: Finger): Margin[] {
  const about = { fingers: [finger.name as string], group: 'spring' as const };
  const { pullsN, preload } = size;
  const openMNm = size.torque.meanMNm[0]!;
  const [quick] = size.openings;
  const margins: Margin[] = [
    {
      ...about,
      isSoft: false,
      what: 'torque that winds the string in, open, against a stiff potentiometer',
      ratio: size.returnFactor,
      seen: `${openMNm.toFixed(2)} mN·m${neverBack(size) ? ': it will not retract' : ''}`,
      allowed: `at least ${(openMNm / size.returnFactor).toFixed(2)} mN·m`,
      cure: returnCure(size),
    },
    {
      ...about,
      isSoft: false,
      what: 'shortest opening in which the string stays taut',
      ratio: size.fastestTautMs === null ? 0 : quick.timeMs / size.fastestTautMs,
      seen: size.fastestTautMs === null ? 'none: it hangs slack' : `${size.fastestTautMs.toFixed(0)} ms`,
      allowed: `at most ${quick.timeMs.toFixed(0)} ms`,
      cure: 'more preload, a lighter spool, or a potentiometer that turns more easily',
    },
    {
      ...about,
      isSoft: false,
      what: 'pull felt at the fingertip, closed, against what is refused',
      ratio: MOST_PULL_N / pullsN.closedOut,
      seen: `${pullsN.closedOut.toFixed(2)} N`,
      allowed: `at most ${MOST_PULL_N} N`,
      cure: 'less preload, a weaker spring, or a larger spool',
    },
    {
      ...about,
      isSoft: true,
      what: 'pull felt at the fingertip, closed',
      ratio: TIRING_PULL_N / pullsN.closedOut,
      seen: `${pullsN.closedOut.toFixed(2)} N`,
      allowed: `at most ${TIRING_PULL_N} N for long use`,
      cure: pullCure(preload.comfortable, 'less'),
    },
    {
      ...about,
      isSoft: true,
      what: 'pull that keeps the string taut, open',
      ratio: pullsN.openIn / LEAST_PULL_N,
      seen: `${pullsN.openIn.toFixed(2)} N`,
      allowed: `at least ${LEAST_PULL_N} N`,
      cure: pullCure(preload.steady, 'more'),
    },
  ];
  if (isClash(preload.works)) margins.push(clashMargin(preload.works, about, false));
  else if (isClash(preload.comfortable)) margins.push(clashMargin(preload.comfortable, about, true));
  if (size.strip) {
    const { stressMPa, turnsUsed, barrelTurns, barrelRadiusMm, isProposed } = size.strip;
    margins.push({
      ...about,
      isSoft: false,
      what: 'stress of the strip, closed',
      ratio: MOST_STRIP_STRESS_MPA / stressMPa,
      seen: `${stressMPa.toFixed(0)} MPa`,
      allowed: `at most ${MOST_STRIP_STRESS_MPA} MPa (assumed)`,
      cure: 'less preload, or a longer strip with more turns on it',
    });
    margins.push({
      ...about,
      isSoft: isProposed,
      what: 'turns of the spring, preload and stroke',
      ratio: barrelTurns / turnsUsed,
      seen: turnsUsed.toFixed(1),
      allowed: `at most ${barrelTurns.toFixed(1)} in a barrel of ${barrelRadiusMm} mm radius`,
      cure: 'less preload, or a wider barrel',
    });
  }
  return margins;
}

function neverBack(size: SpringSize): boolean {
  return size.staticFactor !== null && size.staticFactor <= 1;
}

function returnCure(size: SpringSize): string {
  const least = size.preload.limits.find((limit) => limit.id === 'return')!.openTorqueMNm;
  const { nowMNm, nowTurns } = size.preload;
  const turns = nowTurns === null ? '' : ` (${((least / nowMNm) * nowTurns).toFixed(1)} turns)`;
  const easier =
    size.mostDragMNm > 0
      ? `a potentiometer that turns with at most ${size.mostDragMNm.toFixed(2)} mN·m (${(size.mostDragMNm / MNM_PER_GF_CM).toFixed(0)} gf·cm)`
      : 'a stronger spring and a potentiometer that turns more easily';
  return `more turns of preload, to ${least.toFixed(2)} mN·m${turns}, or ${easier}`;
}

/** More or less preload, or what makes room where that alone does not do. */
function pullCure(stretch: Stretch | Clash, way: 'more' | 'less'): string {
  if (!isClash(stretch)) return `${way} preload, ${stretchWords(stretch)}`;
  return `${way} preload alone does not do, since ${way === 'more' ? stretch.most.words : stretch.least.words}; ${stretch.cure}`;
}

/** `2.66 to 2.87 turns (4.69 to 5.06 mN·m)`. */
export function stretchWords(stretch: Stretch): string {
  const torque = `${stretch.fromMNm.toFixed(2)} to ${stretch.toMNm.toFixed(2)} mN·m`;
  if (stretch.fromTurns === null || stretch.toTurns === null) return `${torque} with the finger open`;
  return `${stretch.fromTurns.toFixed(2)} to ${stretch.toTurns.toFixed(2)} turns (${torque})`;
}

function clashMargin(clash: Clash, about: { fingers: string[]; group: 'spring' }, isSoft: boolean): Margin {
  return {
    ...about,
    isSoft,
    what: isSoft ? 'room for a comfortable preload' : 'room for a preload that works',
    ratio: Math.max(0, clash.most.openTorqueMNm) / clash.least.openTorqueMNm,
    seen: `none: ${clash.least.words}, which takes ${clash.least.openTorqueMNm.toFixed(2)} mN·m`,
    allowed: `at most ${Math.max(0, clash.most.openTorqueMNm).toFixed(2)} mN·m, since ${clash.most.words}`,
    cure: clash.cure,
  };
}
