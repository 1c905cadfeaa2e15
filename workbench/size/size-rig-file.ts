import { FINGER_NAMES, type FingerName, type Rig } from '../../sim/rig/rig.ts';
import type { Change } from '../../sim/sizing/change.ts';
import { type Margin, verdictOf } from '../../sim/sizing/margin.ts';
import { type ChangeCost, proposalCosts } from '../../sim/sizing/parts/change-costs.ts';
import type { Prices } from '../../sim/sizing/parts/prices.ts';
import { proposeValues } from '../../sim/sizing/propose.ts';
import { type RigSize, sizeRig } from '../../sim/sizing/size-rig.ts';
import { isWritten, type YamlSource } from '../rig/yaml-source.ts';

/** The whole answer of `size`. */
export interface SizeAnswer {
  version: string;
  file: string;
  rig: Rig;
  /** Whether nothing is in the way, as the rig file is. */
  ok: boolean;
  size: RigSize;
  proposal: {
    changes: (Change & { cost: ChangeCost })[];
    /** What no change of values mends, in sentences. */
    left: string[];
    rig: Rig;
    /** Whether nothing is in the way with the changes made. */
    ok: boolean;
    /** What then still is. */
    failing: Margin[];
  };
  warnings: string[];
}

/** Sizes a rig file and works out what to change. */
export function sizeRigFile(
  parsed: { rig: Rig; source: YamlSource },
  about: { version: string; file: string; warnings: string[] },
  hands: readonly [number, number],
  prices: Prices,
): SizeAnswer {
  const { rig, source } = parsed;
  const size = sizeRig(rig, hands, prices);
  const { changes, left, rig: changed } = proposeValues(rig, hands, measuredSprings(source));
  const costs = proposalCosts(rig, changes, prices);
  const failing = failingOf(changes.length === 0 ? size : sizeRig(changed, hands, prices));
  return {
    ...about,
    rig,
    ok: failingOf(size).length === 0,
    size,
    proposal: {
      changes: changes.map((change, i) => ({ ...change, cost: costs[i]! })),
      left,
      rig: changed,
      ok: failing.length === 0,
      failing,
    },
  };
}

/** Margins that keep a build from working. */
export function failingOf({ margins }: Pick<RigSize, 'margins'>): Margin[] {
  return margins.filter((margin) => verdictOf(margin) === 'no');
}

/** Fingers whose spring the file gives by pulls of a balance. */
function measuredSprings(source: YamlSource): Set<FingerName> {
  const isMeasured = (name: FingerName) => {
    const own = (key: string) => isWritten(source, ['fingers', name, 'spring', key]);
    if (own('pulls')) return true;
    const isOther = own('openTorque') || own('strip');
    return !isOther && isWritten(source, ['eachFinger', 'spring', 'pulls']);
  };
  return new Set(FINGER_NAMES.filter(isMeasured));
}
