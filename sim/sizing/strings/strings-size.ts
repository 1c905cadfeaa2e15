import type { Rig } from '../../rig/rig.ts';
import { joined, type Margin } from '../margin.ts';
import { type GuideSize, sizeGuides } from './guide-size.ts';
import { type SpoolSize, sizeSpool } from './spool-size.ts';
import { type SpringSize, sizeSpring } from './spring-size.ts';

export interface FingerStrings {
  name: string;
  spool: SpoolSize;
  spring: SpringSize;
  guides: GuideSize;
}

/** Strings, spools, springs and guides of a rig. */
export interface StringsSize {
  hands: [number, number];
  fingers: FingerStrings[];
  /** String to cut for all fingers, mm. */
  stringMm: number;
  margins: Margin[];
}

/** @param hands size of the smallest and the largest hand that the rig must fit, 1 = the published mean */
export function sizeStrings(rig: Rig, hands: readonly [number, number]): StringsSize {
  const fingers = rig.fingers.map((finger) => ({
    name: finger.name,
    spool: sizeSpool(rig, finger, hands),
    spring: sizeSpring(rig, finger, hands),
    guides: sizeGuides(rig, finger, hands),
  }));
  return {
    hands: [hands[0], hands[1]],
    fingers,
    stringMm: fingers.reduce((sum, finger) => sum + finger.spool.string.cutMm, 0),
    margins: joined(fingers.flatMap((f) => [...f.spool.margins, ...f.spring.margins, ...f.guides.margins])),
  };
}

/** Fingers of which exactly the same is to be told, in the order of their first. */
export function alike(size: StringsSize): { names: string[]; finger: FingerStrings }[] {
  const groups = new Map<string, { names: string[]; finger: FingerStrings }>();
  for (const finger of size.fingers) {
    const { spring, guides, spool } = finger;
    const key = JSON.stringify([
      spool.strokesMm,
      spool.turnsDeg,
      spring.torque,
      spring.preload,
      spring.pullsN,
      guides.lost.friction,
      guides.lost.play,
      guides.lost.backlash,
    ]);
    const group = groups.get(key);
    if (group) group.names.push(finger.name);
    else groups.set(key, { names: [finger.name], finger });
  }
  return [...groups.values()];
}
