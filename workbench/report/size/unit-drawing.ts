import { POT_BODY } from '../../../sim/sizing/unit/bought-parts.ts';
import type { PlateDimensions } from '../../../sim/sizing/unit/plate-dimensions.ts';
import { FREE_MM } from '../../../sim/sizing/unit/print-rules.ts';
import type { UnitDimensions } from '../../../sim/sizing/unit/unit-dimensions.ts';
import { coordinate, drawing, element, label, line } from '../svg.ts';
import { scaleBar } from './finger-drawing.ts';

/** Room for words above a view, below it, and for the string that leaves it, px. */
const HEAD_PX = 44;
const FOOT_PX = 24;
const STRING_PX = 16;
/** Largest scale, px a mm. */
const MOST_PER_MM = 8;
/** Between the two views on wide screens, mm. */
const GAP_MM = 16;

/**
 * One sensing unit to scale: along its axis with the lid off, standing on the plate, and from above, cut at the axis.
 * @param width px; below 600 the views stand one under the other
 */
export function unitDrawing(unit: UnitDimensions, plate: PlateDimensions, width: number, id: string): string {
  const isSlim = width < 600;
  const { halfMm, axisMm, widthMm } = unit;
  const standMm = plate.baseMm + plate.railHeightMm;
  const sideMm = { wide: plate.frontMm + Math.max(halfMm, -plate.rearMm), high: halfMm + axisMm + standMm };
  const perMm = Math.min(
    MOST_PER_MM,
    (width - 24 - 2 * STRING_PX) / (isSlim ? sideMm.wide : sideMm.wide + GAP_MM + widthMm),
  );
  const sideHeight = HEAD_PX + sideMm.high * perMm + FOOT_PX;
  const aboveHeight = HEAD_PX + 2 * halfMm * perMm + FOOT_PX;
  const height = (isSlim ? sideHeight + aboveHeight : Math.max(sideHeight, aboveHeight)) + 28;
  const left = 12 + Math.max(halfMm, -plate.rearMm) * perMm;
  const axis = { x: left, y: HEAD_PX + halfMm * perMm };
  const above = isSlim
    ? { x: 12 + ((sideMm.wide - widthMm) / 2) * perMm, y: sideHeight + HEAD_PX }
    : { x: 12 + STRING_PX + (sideMm.wide + GAP_MM) * perMm, y: HEAD_PX };
  return drawing(
    {
      id,
      title: 'One unit to scale',
      description: `A unit is ${widthMm.toFixed(1)} mm wide along its axis, ${(2 * halfMm).toFixed(1)} mm long and ${(axisMm + halfMm).toFixed(1)} mm high above its rails. The string leaves the spool, ${unit.spool.radiusMm} mm in radius, at the foot.`,
      size: { width, height },
      class: 'plot scale',
    },
    [
      ...sideView(unit, plate, axis, perMm),
      ...aboveView(unit, above, perMm),
      ...scaleBar(12, height - 10, perMm),
    ],
  );
}

type Point = { x: number; y: number };

/** Along the axis, fingers to the right: plate with its rails, housing, cup, spool, shaft, string. */
function sideView(unit: UnitDimensions, plate: PlateDimensions, axis: Point, perMm: number): string[] {
  // From the axis, y up, in mm.
  const path = (points: readonly (readonly [number, number])[]) =>
    `M${points.map(([x, y]) => `${coordinate(axis.x + x * perMm)} ${coordinate(axis.y - y * perMm)}`).join('L')}Z`;
  const { halfMm, axisMm, foot, spool } = unit;
  const skinMm = -axisMm - plate.railHeightMm - plate.baseMm;
  const baseMm = skinMm + plate.baseMm;
  const plateEdge = path([
    [plate.rearMm, skinMm],
    [plate.frontMm, skinMm],
    [plate.frontMm, baseMm],
    [plate.rearMm, baseMm],
  ]);
  const both = [-plate.railAtMm, plate.railAtMm];
  const rails = both.map((at) =>
    path([
      [at - plate.railHalfMm, baseMm],
      [at + plate.railHalfMm, baseMm],
      [at + plate.railHalfMm, -axisMm],
      [at - plate.railHalfMm, -axisMm],
    ]),
  );
  const feet = both.map((at) =>
    path([
      [at - foot.topHalfMm, -axisMm],
      [at + foot.topHalfMm, -axisMm],
      [at + foot.bottomHalfMm, -axisMm - foot.heightMm],
      [at - foot.bottomHalfMm, -axisMm - foot.heightMm],
    ]),
  );
  const half = halfMm * perMm;
  const foot0 = coordinate(axis.y + axisMm * perMm);
  const [leftX, rightX] = [coordinate(axis.x - half), coordinate(axis.x + half)];
  const housing = `M${leftX} ${foot0}L${leftX} ${coordinate(axis.y)}A${coordinate(half)} ${coordinate(half)} 0 0 1 ${rightX} ${coordinate(axis.y)}L${rightX} ${foot0}Z`;
  const circle = (radiusMm: number, kind: string) =>
    element('circle', { cx: axis.x, cy: axis.y, r: radiusMm * perMm, class: kind });
  const stringY = axis.y + spool.radiusMm * perMm;
  const bottom = axis.y - skinMm * perMm;
  return [
    ...[plateEdge, ...rails].map((d) => element('path', { d, class: 'cup' })),
    ...[housing, ...feet].map((d) => element('path', { d, class: 'housing' })),
    circle(unit.cupRadiusMm, 'cup'),
    circle(spool.flangeRadiusMm, 'spool'),
    circle(spool.radiusMm, 'groove'),
    circle(POT_BODY.shaftRadiusMm, 'shaft'),
    line(axis.x, stringY, axis.x + half + STRING_PX, stringY, 'string'),
    label(axis.x, axis.y - half - 24, 'along the axis, lid off', { anchor: 'middle', class: 'name' }),
    label(axis.x, axis.y - half - 7, `${(2 * halfMm).toFixed(1)} × ${(axisMm + halfMm).toFixed(1)} mm`, {
      anchor: 'middle',
      class: 'strong',
    }),
    label(axis.x + half + 5, stringY - 6, 'string', { class: 'tick' }),
    label(axis.x, bottom + 16, 'plate; skin below', { anchor: 'middle', class: 'tick' }),
  ];
}

/** From above, cut at the axis, fingers upwards: potentiometer in its cap, wall, cup with the spool, lid. */
function aboveView(unit: UnitDimensions, corner: Point, perMm: number): string[] {
  const { pot, wallMm, cupDepthMm, lidMm, halfMm } = unit;
  const capMm = pot.hollowMm[2] + pot.wallMm;
  const cupFrom = capMm + wallMm;
  const lidFrom = cupFrom + cupDepthMm;
  const middle = corner.y + halfMm * perMm;
  const box = (fromMm: number, toMm: number, reachMm: number, kind: string) =>
    element('rect', {
      x: corner.x + fromMm * perMm,
      y: middle - reachMm * perMm,
      width: (toMm - fromMm) * perMm,
      height: 2 * reachMm * perMm,
      class: kind,
    });
  const face = lidFrom - FREE_MM;
  const x = (mm: number) => corner.x + mm * perMm;
  const stringX = x(cupFrom + unit.stringAtMm);
  const centre = x(unit.widthMm / 2);
  return [
    box(0, capMm, pot.hollowMm[0] / 2 + pot.wallMm, 'housing'),
    box(capMm - POT_BODY.depthMm, capMm, POT_BODY.widthMm / 2, 'cup'),
    box(capMm, lidFrom, halfMm, 'housing'),
    box(cupFrom, lidFrom, unit.cupRadiusMm, 'cup'),
    ...(unit.collar
      ? [box(cupFrom, cupFrom + unit.collar.heightMm, unit.collar.outerRadiusMm, 'housing')]
      : []),
    element('path', { d: spoolOutline(unit, x, middle, perMm), class: 'spool' }),
    box(capMm, capMm + unit.shaftMm, POT_BODY.shaftRadiusMm, 'shaft'),
    box(lidFrom, lidFrom + lidMm, halfMm, 'housing'),
    line(x(0), middle, x(unit.widthMm), middle, 'axis-line'),
    line(stringX, middle, stringX, corner.y - STRING_PX + 12, 'string'),
    label(centre, corner.y - 24, 'from above, cut', { anchor: 'middle', class: 'name' }),
    label(centre, corner.y - 7, `${unit.widthMm.toFixed(1)} mm`, { anchor: 'middle', class: 'strong' }),
    label(x(face), corner.y + 2 * halfMm * perMm + 16, 'lid', { anchor: 'middle', class: 'tick' }),
    label(x(capMm / 2), middle + (pot.hollowMm[0] / 2 + pot.wallMm) * perMm + 16, 'pot', {
      anchor: 'middle',
      class: 'tick',
    }),
  ];
}

/** Both halves of the spool's profile, with the hollow of a spring inside. */
function spoolOutline(
  unit: UnitDimensions,
  x: (mm: number) => number,
  middle: number,
  perMm: number,
): string {
  const { spool } = unit;
  const { flangeRadiusMm: flange, coreRadiusMm: core, hubRadiusMm: hub, hollow } = spool;
  const face = unit.pot.hollowMm[2] + unit.pot.wallMm + unit.wallMm + unit.cupDepthMm - FREE_MM;
  const floorEnd = spool.flangeMm + spool.floorMm;
  const points: [number, number][] = [
    [0, 0],
    [0, flange],
    [spool.flangeMm, flange],
    [spool.flangeMm, core],
    [floorEnd, core],
    [floorEnd + flange - core, flange],
    [spool.discMm, flange],
    ...(hollow
      ? ([
          [spool.discMm, core],
          [spool.heightMm, core],
          [spool.heightMm, hollow.radiusMm],
          [hollow.floorMm, hollow.radiusMm],
          [hollow.floorMm, hub],
        ] as [number, number][])
      : ([[spool.discMm, hub]] as [number, number][])),
    [spool.heightMm, hub],
    [spool.heightMm, 0],
  ];
  const half = (sign: number) =>
    points
      .map(([along, up]) => `${coordinate(x(face - along))} ${coordinate(middle + sign * up * perMm)}`)
      .join('L');
  return `M${half(1)}ZM${half(-1)}Z`;
}
