import { PHALANGES } from '../../hand/phalanges.ts';
import type { Rig } from '../../rig/rig.ts';
import type { Margin } from '../margin.ts';
import { type Alternative, alternatives } from './alternatives.ts';
import { type BareSetSize, bareSetSize } from './bare-set-size.ts';
import { setMargins } from './set-margins.ts';
import type { UnitChoices } from './unit-dimensions.ts';

/** The printed set with slimmer ways to build it. */
export interface SetSize extends BareSetSize {
  alternatives: Alternative[];
  margins: Margin[];
}

/** Share of the palm's breadth (four knuckles) in the length of the third metacarpal. Assumed, from memory of usual hands: 84 mm to 65 mm. */
const BREADTH_TO_METACARPAL = 1.3;

/** Sizes the printed set. @param hands smallest and largest hand, 1 = the published mean */
export function sizeSet(rig: Rig, hands: readonly [number, number], choices?: UnitChoices): SetSize {
  const size = bareSetSize(rig, hands[1], choices);
  const metacarpalMm = PHALANGES.middle.metacarpalMm * rig.hand.scale;
  const hand = { breadthMm: metacarpalMm * BREADTH_TO_METACARPAL, lengthMm: metacarpalMm };
  return {
    ...size,
    alternatives: alternatives(rig, hands, size.dimensions.choices),
    margins: setMargins(size, hand),
  };
}
