import type { CrossSection } from 'manifold-3d';
import { SCREW } from '../../sim/sizing/unit/bought-parts.ts';
import type { UnitDimensions } from '../../sim/sizing/unit/unit-dimensions.ts';
import { box, dovetail, type Kit, type Manifold, rod, section, sidesOf, solidOf } from './kit.ts';
import { ribs } from './spool-part.ts';

/**
 * Wall of the potentiometer and cup of the spool in one: the wall on the bed, the cup open at the top. The axis stands
 * upright through the origin; y points to the fingers' left (to the front once it is mounted), -x is the foot.
 */
export function bracketPart(kit: Kit, unit: UnitDimensions, railAtMm: number): Manifold {
  const { wallMm: wall, cupDepthMm, cupRadiusMm: cup, spool, foot } = unit;
  const top = wall + cupDepthMm;
  const feet = [-railAtMm, railAtMm].map((at) =>
    section(kit, dovetail(foot.topHalfMm, foot.bottomHalfMm, 0.01, -foot.heightMm)).translate([
      at,
      -unit.axisMm,
    ]),
  );
  const shell = kit.CrossSection.union([outlineOf(kit, unit), ...feet]).extrude(top);
  const taken = [
    rod(kit, cup, wall, top + 1),
    rod(kit, unit.shaftHoleRadiusMm, -1, wall + 1),
    ...[-1, 1].map((side) => rod(kit, SCREW.pilotRadiusMm, -1, wall + 1, [side * unit.pot.screwAtMm, 0])),
    ...lidScrews(kit, unit, SCREW.pilotRadiusMm, top - SCREW.biteMm, top + 1),
    box(
      kit,
      [0, -spool.radiusMm - unit.exitHalfMm, wall + unit.stringAtMm - unit.exitHalfMm],
      [unit.halfMm + 1, -spool.radiusMm + unit.exitHalfMm, top + 1],
    ),
  ];
  const bare = solidOf(kit, [shell], taken);
  if (!unit.collar) {
    return solidOf(kit, [bare, ...ribs(kit, spool, cup, wall - 0.5, wall + unit.strip.widthMm)]);
  }
  const { innerRadiusMm: inner, outerRadiusMm: outer, heightMm } = unit.collar;
  const collar = solidOf(
    kit,
    [rod(kit, outer, wall - 0.5, wall + heightMm)],
    [
      rod(kit, inner, wall - 1, top + 1),
      box(kit, [0, -spool.slotMm / 2, wall], [outer + 1, spool.slotMm / 2, top + 1]),
    ],
  );
  return solidOf(kit, [bare, collar]);
}

/** Rectangle with a half circle on top, the axis in the origin. */
export function outlineOf(kit: Kit, unit: UnitDimensions): CrossSection {
  const { halfMm, axisMm } = unit;
  const lower = kit.CrossSection.square([2 * halfMm, axisMm]).translate([-halfMm, -axisMm]);
  return lower.add(kit.CrossSection.circle(halfMm, sidesOf(halfMm)));
}

/** Two rods where the lid is screwed down. */
export function lidScrews(
  kit: Kit,
  unit: UnitDimensions,
  radiusMm: number,
  fromMm: number,
  toMm: number,
): Manifold[] {
  const { asideMm, upMm } = unit.lidScrew;
  return [-asideMm, asideMm].map((x) => rod(kit, radiusMm, fromMm, toMm, [x, upMm - unit.axisMm]));
}
