import type { FingerName } from '../../rig/rig.ts';
import type { Margin } from '../margin.ts';
import type { BareSetSize } from './bare-set-size.ts';

/** What may not fit: on the hand, in the spool, above the skin. */
export function setMargins(size: BareSetSize, hand: { breadthMm: number; lengthMm: number }): Margin[] {
  const all = size.dimensions.units.map(({ finger }) => finger);
  const margins: Margin[] = [
    {
      group: 'parts',
      fingers: all,
      isSoft: true,
      what: 'width of all units side by side',
      ratio: hand.breadthMm / size.widthMm,
      seen: `${size.widthMm.toFixed(0)} mm`,
      allowed: `the back of this hand is about ${hand.breadthMm.toFixed(0)} mm`,
      cure: 'the plate behind the wrist with longer strings; what a narrower strip or the spring inside the spool save is in the table of printed parts',
    },
    {
      group: 'parts',
      fingers: all,
      isSoft: true,
      what: 'length of the plate',
      ratio: hand.lengthMm / size.lengthMm,
      seen: `${size.lengthMm.toFixed(0)} mm`,
      allowed: `from wrist to knuckle there are about ${hand.lengthMm.toFixed(0)} mm`,
      cure: 'smaller spools, or the plate behind the wrist with longer strings',
    },
  ];
  const isInside = size.dimensions.choices.springPlace === 'inside';
  for (const spring of size.springs) {
    const { unit } = size.dimensions.units.find(({ finger }) => finger === spring.finger)!;
    margins.push({
      ...of(spring.finger),
      group: 'spool',
      isSoft: true,
      what: 'radius of a printed spool that has room for shaft, spring and knot',
      ratio: unit.spool.radiusMm / spring.leastRadiusMm,
      seen: `${unit.spool.radiusMm} mm`,
      allowed: `at least ${spring.leastRadiusMm.toFixed(1)} mm`,
      cure: isInside
        ? 'the spring beside the spool, or a larger spool'
        : 'a larger spool, or a thinner string',
    });
    if (spring.isConstant) continue;
    margins.push({
      ...of(spring.finger),
      group: 'spring',
      // A strip that the rig does not name is only a guess at the one that will be wound.
      isSoft: !spring.isStated,
      what: 'turns that the room for the spring gives',
      ratio: spring.givenTurns / spring.neededTurns,
      seen: `${spring.givenTurns.toFixed(1)} turns of a strip ${unit.strip.thicknessMm} mm thick and ${(unit.strip.lengthMm / 1000).toFixed(2)} m long`,
      allowed: `at least ${spring.neededTurns.toFixed(1)} for preload and stroke`,
      cure: isInside
        ? 'the spring beside the spool, a larger spool, or a thinner strip'
        : 'a larger spool, or a shorter or thinner strip',
    });
  }
  for (const { finger, joint, askedMm, givenMm } of size.arms) {
    if (givenMm - askedMm < 0.05) continue;
    margins.push({
      ...of(finger),
      group: 'guides',
      isSoft: true,
      what: `moment arm at the ${jointName(finger, joint)} that a printed ring can give`,
      ratio: askedMm / givenMm,
      seen: `${givenMm.toFixed(1)} mm over the finger's middle`,
      allowed: `the rig says ${askedMm.toFixed(1)} mm`,
      cure: `plan with ${givenMm.toFixed(1)} mm (a higher guide, and a spool that is larger to match), or sew a flat tube on instead of the ring`,
    });
  }
  return margins;
}

function of(finger: FingerName): Pick<Margin, 'fingers'> {
  return { fingers: [finger] };
}

export function jointName(finger: FingerName, joint: 0 | 1 | 2): string {
  const thumb = ['joint at the wrist', 'knuckle', 'end joint'] as const;
  const others = ['knuckle', 'middle joint', 'end joint'] as const;
  return (finger === 'thumb' ? thumb : others)[joint];
}
