import type { Vec2 } from 'manifold-3d';
import type { KeyDimensions, PlateDimensions } from '../../sim/sizing/unit/plate-dimensions.ts';
import { box, dovetail, type Kit, type Manifold, rod, section, solidOf } from './kit.ts';

/** The plate, its skin side on the bed; x across the hand from the open end of the rails, y to the fingers. */
export function platePart(kit: Kit, plate: PlateDimensions): Manifold {
  const { baseMm, widthMm, cornerMm, vent, stud, railHalfMm: half } = plate;
  const top = baseMm + plate.railHeightMm;
  const corners = [cornerMm, widthMm - cornerMm].flatMap((x) =>
    [plate.rearMm + cornerMm, plate.frontMm - cornerMm].map((y) =>
      kit.CrossSection.circle(cornerMm, 64).translate([x, y]),
    ),
  );
  const base = kit.CrossSection.hull(corners).extrude(baseMm);
  const rails = [-plate.railAtMm, plate.railAtMm].map((y) =>
    box(kit, [0, y - half, baseMm - 0.5], [widthMm, y + half, top]),
  );
  const studs = stud.atMm.map((x) =>
    rod(kit, stud.radiusMm, baseMm - 0.5, baseMm + stud.heightMm, [
      x,
      plate.channelAtMm + plate.channel.widthMm / 2,
    ]),
  );
  const grooves = [-plate.railAtMm, plate.railAtMm].map((y) => {
    const profile = dovetail(plate.grooveTopHalfMm, plate.grooveBottomHalfMm, top, baseMm);
    // A little above the rail, so that no skin stays.
    profile.splice(2, 0, [plate.grooveTopHalfMm, top]);
    const cut: Vec2[] = [
      profile[0]!,
      profile[1]!,
      profile[2]!,
      [plate.grooveTopHalfMm, top + 1],
      [-plate.grooveTopHalfMm, top + 1],
      [-plate.grooveTopHalfMm, top],
    ];
    return alongX(kit, cut, -1, widthMm - plate.endMm).translate([0, y, 0]);
  });
  const vents = vent.atMm.map((x) => {
    const reach = (vent.lengthMm - vent.widthMm) / 2;
    const ends = [-reach, reach].map((y) => kit.CrossSection.circle(vent.widthMm / 2, 48).translate([x, y]));
    return kit.CrossSection.hull(ends)
      .extrude(baseMm + 2)
      .translate([0, 0, -1]);
  });
  return solidOf(kit, [base, ...rails, ...studs], [...grooves, ...vents]);
}

/** A key that closes a rail, glued in; its broad side on the bed. */
export function keyPart(kit: Kit, key: KeyDimensions): Manifold {
  return alongX(kit, dovetail(key.topHalfMm, key.bottomHalfMm, key.heightMm, 0), 0, key.lengthMm);
}

/** A profile (y, z) drawn along x. */
export function alongX(kit: Kit, profile: readonly Vec2[], fromMm: number, toMm: number): Manifold {
  // The prism stands on the profile: its x becomes y, its y becomes z, its height becomes x.
  return section(kit, profile)
    .extrude(toMm - fromMm)
    .transform([0, 1, 0, 0, 0, 0, 1, 0, 1, 0, 0, 0, fromMm, 0, 0, 1]);
}
