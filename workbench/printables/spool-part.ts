import type { Vec2 } from 'manifold-3d';
import type { SpoolDimensions } from '../../sim/sizing/unit/spool-dimensions.ts';
import { box, type Kit, type Manifold, rod, sidesOf, solidOf, turned } from './kit.ts';

/** The spool, its face at the lid on the bed, its axis upright through the origin. */
export function spoolPart(kit: Kit, spool: SpoolDimensions): Manifold {
  const { coreRadiusMm: core, flangeRadiusMm: flange, hollow, knot, heightMm: top } = spool;
  const floorEnd = spool.flangeMm + spool.floorMm;
  const outerTop = hollow ? core : spool.hubRadiusMm;
  const profile: Vec2[] = [
    [0, 0],
    [flange, 0],
    [flange, spool.flangeMm],
    [core, spool.flangeMm],
    [core, floorEnd],
    [flange, floorEnd + flange - core],
    [flange, spool.discMm],
    [outerTop, spool.discMm],
    [outerTop, top],
    [0, top],
  ];
  const added = [turned(kit, profile, sidesOf(flange))];
  const taken: Manifold[] = [
    bore(kit, spool),
    rod(kit, knot.radiusMm, -1, knot.depthMm, [knot.atMm, 0]),
    box(kit, [knot.atMm, -knot.slotMm / 2, -1], [flange + 1, knot.slotMm / 2, knot.depthMm]),
  ];
  let solid: Manifold;
  if (hollow) {
    const ring = rod(kit, hollow.radiusMm, hollow.floorMm, top + 1).subtract(
      rod(kit, spool.hubRadiusMm, hollow.floorMm, top + 1),
    );
    solid = solidOf(kit, [
      solidOf(kit, added, [...taken, ring]),
      ...ribs(kit, spool, hollow.radiusMm, hollow.floorMm, top),
    ]);
  } else {
    const { hubRadiusMm: hub, slotMm, slotDepthMm } = spool;
    // On the side of the bore's flat, where the hub's wall is thickest.
    taken.push(box(kit, [hub - slotDepthMm, -slotMm / 2, spool.discMm], [hub + 1, slotMm / 2, top + 1]));
    solid = solidOf(kit, added, taken);
  }
  return solid;
}

/** A hole for the shaft, its flat (if any) towards the knot. */
function bore(kit: Kit, spool: SpoolDimensions): Manifold {
  const round = rod(kit, spool.boreRadiusMm, -1, spool.heightMm + 1);
  const flat = spool.boreFlatMm;
  if (flat === undefined) return round;
  const reach = spool.boreRadiusMm + 1;
  return round.subtract(box(kit, [flat, -reach, -2], [reach, reach, spool.heightMm + 2]));
}

/** Two ribs on the inside of a round wall; the strip's bent end is caught between them. */
export function ribs(
  kit: Kit,
  spool: Pick<SpoolDimensions, 'ribMm' | 'slotMm'>,
  wallRadiusMm: number,
  fromMm: number,
  toMm: number,
): Manifold[] {
  const { ribMm, slotMm } = spool;
  return [-slotMm / 2 - ribMm, slotMm / 2].map((y) =>
    box(kit, [-wallRadiusMm - 0.5, y, fromMm], [-wallRadiusMm + ribMm, y + ribMm, toMm]),
  );
}
