import type { Rig } from '../rig/rig.ts';
import { joined, type Margin, tightest } from './margin.ts';
import { type PartsSize, sizeParts } from './parts/parts-size.ts';
import type { Prices } from './parts/prices.ts';
import { type PinSize, sizePins } from './pins/pins-size.ts';
import { type PowerSize, sizePower } from './power/power-size.ts';
import { type StringsSize, sizeStrings } from './strings/strings-size.ts';
import { type SetSize, sizeSet } from './unit/set-size.ts';
import { cornerMargins } from './wiring/corner-margins.ts';
import { sizeWiring, type WiringSize } from './wiring/wiring-size.ts';

/** All that can be said of a rig on paper. */
export interface RigSize {
  /** Size of the smallest and the largest hand, 1 = the published mean. */
  hands: [number, number];
  strings: StringsSize;
  wiring: WiringSize;
  pins: PinSize;
  power: PowerSize;
  /** The printed parts. */
  set: SetSize;
  parts: PartsSize;
  margins: Margin[];
  /** The tightest margin of each group, the worst first. */
  breaksFirst: Margin[];
}

/** @param hands size of the smallest and the largest hand that the rig must fit, 1 = the published mean */
export function sizeRig(rig: Rig, hands: readonly [number, number], prices: Prices): RigSize {
  const strings = sizeStrings(rig, hands);
  const wiring = sizeWiring(rig, hands);
  const pins = sizePins(rig);
  const power = sizePower(rig);
  const set = sizeSet(rig, hands);
  const parts = sizeParts(rig, prices);
  const margins = joined([
    ...strings.margins,
    ...cornerMargins(rig),
    ...wiring.margins,
    ...pins.margins,
    ...power.margins,
    ...set.margins,
    ...parts.margins,
  ]);
  return {
    hands: [hands[0], hands[1]],
    strings,
    wiring,
    pins,
    power,
    set,
    parts,
    margins,
    breaksFirst: tightest(margins),
  };
}
