import { SCREW } from '../../sim/sizing/unit/bought-parts.ts';
import type { UnitDimensions } from '../../sim/sizing/unit/unit-dimensions.ts';
import { lidScrews, outlineOf } from './bracket-part.ts';
import { type Kit, type Manifold, rod, solidOf } from './kit.ts';

/** Flat lid of a cup; through its hole the shaft can be turned to set the spring. */
export function lidPart(kit: Kit, unit: UnitDimensions): Manifold {
  const { lidMm } = unit;
  return solidOf(
    kit,
    [outlineOf(kit, unit).extrude(lidMm)],
    [
      rod(kit, unit.lidHoleRadiusMm, -1, lidMm + 1),
      ...lidScrews(kit, unit, SCREW.passRadiusMm, -1, lidMm + 1),
    ],
  );
}
