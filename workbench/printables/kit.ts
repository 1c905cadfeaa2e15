import type { CrossSection, Manifold, ManifoldToplevel, Vec2 } from 'manifold-3d';

/** The solid modeller, once it is loaded. */
export type Kit = ManifoldToplevel;
export type { Manifold } from 'manifold-3d';

let loading: Promise<Kit> | undefined;

/** Loads the modeller on first use: it is half a megabyte that no other command needs. */
export function loadKit(): Promise<Kit> {
  loading ??= import('manifold-3d').then(async ({ default: load }) => {
    const kit = await load();
    kit.setup();
    return kit;
  });
  return loading;
}

/** Sides of a large circle; its area is then short by 0.07 %, a radius of 15 mm by at most 0.008 mm. */
const SIDES = 96;
const FEW_SIDES = 48;
const FEW_BELOW_MM = 4;

export function sidesOf(radiusMm: number): number {
  return radiusMm < FEW_BELOW_MM ? FEW_SIDES : SIDES;
}

/** An upright cylinder standing at this height. */
export function rod(
  kit: Kit,
  radiusMm: number,
  fromMm: number,
  toMm: number,
  at: readonly [number, number] = [0, 0],
): Manifold {
  return kit.Manifold.cylinder(toMm - fromMm, radiusMm, radiusMm, sidesOf(radiusMm)).translate([
    at[0],
    at[1],
    fromMm,
  ]);
}

/** A box between two corners. */
export function box(
  kit: Kit,
  from: readonly [number, number, number],
  to: readonly [number, number, number],
): Manifold {
  return kit.Manifold.cube([to[0] - from[0], to[1] - from[1], to[2] - from[2]]).translate([...from]);
}

/** Upright prism over a polygon. */
export function prism(kit: Kit, polygon: readonly Vec2[], fromMm: number, toMm: number): Manifold {
  return section(kit, polygon)
    .extrude(toMm - fromMm)
    .translate([0, 0, fromMm]);
}

export function section(kit: Kit, polygon: readonly Vec2[]): CrossSection {
  return new kit.CrossSection([[...polygon]]);
}

/** What turning a profile (radius, height) round the upright axis makes. */
export function turned(kit: Kit, profile: readonly Vec2[], sides: number, deg = 360): Manifold {
  return section(kit, profile).revolve(sides, deg);
}

/** Trapezoid of a dovetail round the middle, its narrow side at the top. */
export function dovetail(topHalfMm: number, bottomHalfMm: number, topMm: number, bottomMm: number): Vec2[] {
  return [
    [-bottomHalfMm, bottomMm],
    [bottomHalfMm, bottomMm],
    [topHalfMm, topMm],
    [-topHalfMm, topMm],
  ];
}

/** One solid of all, less what is drilled out. */
export function solidOf(kit: Kit, added: Manifold[], taken: Manifold[] = []): Manifold {
  const whole = kit.Manifold.union(added);
  return taken.length === 0 ? whole : whole.subtract(kit.Manifold.union(taken));
}
