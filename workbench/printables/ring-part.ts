import type { Vec2 } from 'manifold-3d';
import type { CapDimensions, RingDimensions } from '../../sim/sizing/unit/finger-dimensions.ts';
import { type Kit, type Manifold, section, sidesOf, solidOf, turned } from './kit.ts';

/** A guide ring, the finger's axis upright through the origin, the tower towards +y, open towards -y. */
export function ringPart(kit: Kit, ring: RingDimensions): Manifold {
  const bare = solidOf(kit, [...openRing(kit, ring, true), tower(kit, ring)]);
  return bare.subtract(guideHole(kit, ring));
}

/** A fingertip cap, its closed end on the bed; the string's knot goes to that end. */
export function capPart(kit: Kit, cap: CapDimensions): Manifold {
  const outer = cap.innerRadiusMm + cap.wallMm;
  const end = kit.CrossSection.circle(outer - 0.2, sidesOf(outer))
    .intersect(kit.CrossSection.square([2 * outer, outer]).translate([-outer, 0]))
    .extrude(cap.endMm);
  const bare = solidOf(kit, [...openRing(kit, cap, false), tower(kit, cap), end]);
  return bare.subtract(guideHole(kit, cap));
}

/** The ring's body with round ends; its edges at the skin are bevelled, at the bed only where nothing closes it. */
function openRing(kit: Kit, ring: RingDimensions, isBevelledBelow: boolean): Manifold[] {
  const { innerRadiusMm: inner, wallMm, lengthMm: top, bevelMm: bevel, openDeg } = ring;
  const outer = inner + wallMm;
  const foot: Vec2[] = isBevelledBelow
    ? [
        [inner, bevel],
        [inner + bevel, 0],
      ]
    : [[inner, 0]];
  const profile: Vec2[] = [...foot, [outer, 0], [outer, top], [inner + bevel, top], [inner, top - bevel]];
  const body = turned(kit, profile, sidesOf(outer), 360 - openDeg).rotate([0, 0, openDeg / 2 - 90]);
  const middle = inner + wallMm / 2;
  const round = wallMm / 2;
  const bead: Vec2[] = isBevelledBelow
    ? [
        [0, 0],
        [round - bevel, 0],
        [round, bevel],
      ]
    : [
        [0, 0],
        [round, 0],
      ];
  bead.push([round, top - bevel], [round - bevel, top], [0, top]);
  const ends = [-1, 1].map((side) => {
    const rad = ((side * openDeg) / 2 - 90) * (Math.PI / 180);
    return turned(kit, bead, 32).translate([middle * Math.cos(rad), middle * Math.sin(rad), 0]);
  });
  return [body, ...ends];
}

function tower(kit: Kit, ring: RingDimensions): Manifold {
  const { towerHalfMm: half, holeAtMm: at, lengthMm } = ring;
  const from = ring.innerRadiusMm + ring.wallMm / 2;
  const column = section(kit, [
    [-half, from],
    [half, from],
    [half, at],
    [-half, at],
  ]);
  return column
    .add(kit.CrossSection.circle(half, sidesOf(half)).translate([0, at]))
    .subtract(kit.CrossSection.circle(from, sidesOf(from)))
    .extrude(lengthMm);
}

function guideHole(kit: Kit, ring: RingDimensions): Manifold {
  const { holeRadiusMm: hole, mouthRadiusMm: mouth, lengthMm: top } = ring;
  const past = 0.2;
  const profile: Vec2[] = [
    [0, -past],
    [mouth + past, -past],
    [hole, mouth - hole],
    [hole, top - (mouth - hole)],
    [mouth + past, top + past],
    [0, top + past],
  ];
  return turned(kit, profile, sidesOf(hole)).translate([0, ring.holeAtMm, 0]);
}
