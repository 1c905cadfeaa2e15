import { SCREW } from './bought-parts.ts';
import type { CapDimensions, RingDimensions } from './finger-dimensions.ts';
import type { ChannelDimensions, KeyDimensions, PlateDimensions } from './plate-dimensions.ts';
import type { SpoolDimensions } from './spool-dimensions.ts';
import type { UnitDimensions } from './unit-dimensions.ts';

/*
 * Volumes of the printed parts by hand: cylinders, frustums, prisms, mm3. Where a small slot meets a round wall the
 * wall is taken as flat. Parts are taken as solid.
 */

const circle = (radius: number) => Math.PI * radius * radius;

/** Frustum of a cone. */
function frustum(a: number, b: number, height: number): number {
  return (Math.PI * height * (a * a + a * b + b * b)) / 3;
}

/** Part of a circle on the far side of a chord at this distance from its middle. */
function segment(radius: number, distance: number): number {
  return (
    radius * radius * Math.acos(distance / radius) -
    distance * Math.sqrt(radius * radius - distance * distance)
  );
}

/** Integral of sqrt(R^2 - h^2) from 0 to h. */
function underArc(radius: number, h: number): number {
  return (h * Math.sqrt(radius * radius - h * h) + radius * radius * Math.asin(h / radius)) / 2;
}

export function spoolVolumeMm3(spool: SpoolDimensions): number {
  const { coreRadiusMm: core, flangeRadiusMm: flange, flangeMm, hollow, knot } = spool;
  const bore =
    circle(spool.boreRadiusMm) -
    (spool.boreFlatMm === undefined ? 0 : segment(spool.boreRadiusMm, spool.boreFlatMm));
  let volume =
    2 * circle(flange) * flangeMm + circle(core) * spool.floorMm + frustum(core, flange, flange - core);
  // The slot runs from the knot's edge to the rim.
  const slotMm = flange - knot.atMm - knot.radiusMm;
  volume -= (circle(knot.radiusMm) + slotMm * knot.slotMm) * knot.depthMm;
  const above = spool.heightMm - spool.discMm;
  if (hollow) {
    volume += circle(core) * above;
    const depth = spool.heightMm - hollow.floorMm;
    volume -= (circle(hollow.radiusMm) - circle(spool.hubRadiusMm)) * depth;
    volume += 2 * spool.ribMm ** 2 * depth;
  } else {
    volume += circle(spool.hubRadiusMm) * above - spool.slotMm * spool.slotDepthMm * above;
  }
  return volume - bore * spool.heightMm;
}

/** Outline of a unit: a rectangle with a half circle on top. */
function outline(unit: UnitDimensions): number {
  return 2 * unit.halfMm * unit.axisMm + circle(unit.halfMm) / 2;
}

export function bracketVolumeMm3(unit: UnitDimensions): number {
  const { foot, cupDepthMm: depth, cupRadiusMm: cup, wallMm, spool, exitHalfMm: exit } = unit;
  const feet = 2 * (foot.topHalfMm + foot.bottomHalfMm) * foot.heightMm;
  const [low, high] = [spool.radiusMm - exit, spool.radiusMm + exit];
  const slot = unit.halfMm * 2 * exit - (underArc(cup, high) - underArc(cup, low));
  let volume = (outline(unit) + feet) * (wallMm + depth) - circle(cup) * depth;
  volume -=
    circle(unit.shaftHoleRadiusMm) * wallMm + 2 * circle(SCREW.pilotRadiusMm) * (SCREW.biteMm + wallMm);
  volume -= slot * (depth - unit.stringAtMm + exit);
  if (unit.collar) {
    const { outerRadiusMm: outer, innerRadiusMm: inner, heightMm } = unit.collar;
    volume += (circle(outer) - circle(inner) - spool.slotMm * (outer - inner)) * heightMm;
  } else {
    volume += 2 * spool.ribMm ** 2 * unit.strip.widthMm;
  }
  return volume;
}

export function lidVolumeMm3(unit: UnitDimensions): number {
  return (outline(unit) - circle(unit.lidHoleRadiusMm) - 2 * circle(SCREW.passRadiusMm)) * unit.lidMm;
}

export function potCapVolumeMm3(unit: UnitDimensions): number {
  const { hollowMm, wallMm, earMm, earHeightMm, earHalfMm, wireSlotMm } = unit.pot;
  const [long, high, deep] = hollowMm;
  const outerLong = long + 2 * wallMm;
  const box = outerLong * (high + 2 * wallMm) * (deep + wallMm) - long * high * deep;
  const ears = ((2 * earHalfMm - outerLong) * earHeightMm - 2 * circle(SCREW.passRadiusMm)) * earMm;
  return box + ears - wireSlotMm * wallMm * deep;
}

/** The ring without its tower. */
function openRing(ring: RingDimensions, lengthMm: number, bevels: number): number {
  const { innerRadiusMm: inner, wallMm, bevelMm } = ring;
  const share = 1 - ring.openDeg / 360;
  const bevel = frustum(inner, inner + bevelMm, bevelMm) - circle(inner) * bevelMm;
  const closed = (circle(inner + wallMm) - circle(inner)) * lengthMm - bevels * bevel;
  // Both ends of the ring are rounded.
  return closed * share + circle(wallMm / 2) * lengthMm;
}

/** Tower on the ring with its hole. */
function tower(ring: RingDimensions, lengthMm: number): number {
  const { towerHalfMm: half, holeAtMm: at, holeRadiusMm: hole, mouthRadiusMm: mouth } = ring;
  const outer = ring.innerRadiusMm + ring.wallMm;
  const onTop = 2 * half * at + circle(half) / 2 - 2 * underArc(outer, half);
  const mouthMm = mouth - hole;
  const drilled = circle(hole) * (lengthMm - 2 * mouthMm) + 2 * frustum(hole, mouth, mouthMm);
  return onTop * lengthMm - drilled;
}

export function ringVolumeMm3(ring: RingDimensions): number {
  return openRing(ring, ring.lengthMm, 2) + tower(ring, ring.lengthMm);
}

export function capVolumeMm3(cap: CapDimensions): number {
  // The half disc closes what the ring leaves open inside.
  return (
    openRing(cap, cap.lengthMm, 1) + tower(cap, cap.lengthMm) + (circle(cap.innerRadiusMm) / 2) * cap.endMm
  );
}

export function channelVolumeMm3(channel: ChannelDimensions, studs: number): number {
  const { innerWidthMm: inner, innerHeightMm, gapMm, lipMm, floorMm } = channel;
  const slope = (inner - gapMm) / 2;
  const hollow = inner * innerHeightMm + ((inner + gapMm) / 2) * slope + gapMm * lipMm;
  const profile = channel.widthMm * channel.heightMm - hollow;
  return profile * channel.lengthMm - studs * circle(channel.studHoleRadiusMm) * floorMm;
}

export function keyVolumeMm3(key: KeyDimensions): number {
  return (key.topHalfMm + key.bottomHalfMm) * key.heightMm * key.lengthMm;
}

export function plateVolumeMm3(plate: PlateDimensions): number {
  const { widthMm: width, cornerMm: corner, baseMm, vent, stud, railHalfMm, railHeightMm } = plate;
  const base = width * (plate.frontMm - plate.rearMm) - (4 - Math.PI) * corner * corner;
  const vents = vent.atMm.length * (vent.widthMm * (vent.lengthMm - vent.widthMm) + circle(vent.widthMm / 2));
  const groove = (plate.grooveTopHalfMm + plate.grooveBottomHalfMm) * railHeightMm;
  const rail = 2 * railHalfMm * railHeightMm * width - groove * (width - plate.endMm);
  return (base - vents) * baseMm + 2 * rail + stud.atMm.length * circle(stud.radiusMm) * stud.heightMm;
}
