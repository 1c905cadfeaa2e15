import { POT_BODY } from '../../../sim/sizing/unit/bought-parts.ts';
import type { UnitDimensions } from '../../../sim/sizing/unit/unit-dimensions.ts';
import { coordinate, drawing, element, label, line } from '../svg.ts';
import { scaleBar } from './finger-drawing.ts';

/** One sensing unit to scale: from the side, along its axis, and from above. */
export function unitDrawing(unit: UnitDimensions, width: number, id: string): string {
  const isSlim = width < 600;
  const { halfMm, axisMm, widthMm } = unit;
  const gapMm = 14;
  const allMm = isSlim ? Math.max(2 * halfMm, widthMm) + 16 : 2 * halfMm + widthMm + gapMm + 16;
  const perMm = Math.min((width - 24) / allMm, 9);
  const sideHeight = (axisMm + halfMm + unit.foot.heightMm) * perMm;
  const aboveHeight = 2 * halfMm * perMm;
  const height = isSlim ? sideHeight + aboveHeight + 130 : Math.max(sideHeight, aboveHeight) + 84;
  const side = { x: 12 + (halfMm + 2) * perMm, y: 30 + halfMm * perMm };
  const above = isSlim ? { x: 12, y: sideHeight + 84 } : { x: side.x + (halfMm + gapMm) * perMm, y: 30 };
  return drawing(
    {
      id,
      title: 'One unit to scale',
      description: `A unit is ${widthMm.toFixed(1)} mm wide along its axis, ${(2 * halfMm).toFixed(1)} mm long and ${(axisMm + halfMm).toFixed(1)} mm high. The spool has a radius of ${unit.spool.radiusMm} mm.`,
      size: { width, height },
      class: 'plot scale',
    },
    [...sideView(unit, side, perMm), ...aboveView(unit, above, perMm), ...scaleBar(12, height - 12, perMm)],
  );
}

type Point = { x: number; y: number };

/** Along the axis: housing, spool with its groove, shaft, foot, and where the string leaves. */
function sideView(unit: UnitDimensions, centre: Point, perMm: number): string[] {
  const half = unit.halfMm * perMm;
  const foot = centre.y + unit.axisMm * perMm;
  const at = (x: number) => coordinate(centre.x + x);
  const outline = `M${at(-half)} ${coordinate(foot)}V${coordinate(centre.y)}A${coordinate(half)} ${coordinate(half)} 0 0 1 ${at(half)} ${coordinate(centre.y)}V${coordinate(foot)}Z`;
  const stringY = centre.y + unit.spool.radiusMm * perMm;
  const { topHalfMm, bottomHalfMm, heightMm } = unit.foot;
  const feet = [-1, 1].map((sign) => {
    const middle = centre.x + sign * 0.6 * half;
    const points = [
      [middle - topHalfMm * perMm, foot],
      [middle + topHalfMm * perMm, foot],
      [middle + bottomHalfMm * perMm, foot + heightMm * perMm],
      [middle - bottomHalfMm * perMm, foot + heightMm * perMm],
    ].map(([x, y]) => `${coordinate(x!)},${coordinate(y!)}`);
    return element('polygon', { points: points.join(' '), class: 'housing' });
  });
  return [
    ...feet,
    element('path', { d: outline, class: 'housing' }),
    element('circle', { cx: centre.x, cy: centre.y, r: unit.cupRadiusMm * perMm, class: 'cup' }),
    element('circle', { cx: centre.x, cy: centre.y, r: unit.spool.flangeRadiusMm * perMm, class: 'spool' }),
    element('circle', { cx: centre.x, cy: centre.y, r: unit.spool.radiusMm * perMm, class: 'groove' }),
    element('circle', { cx: centre.x, cy: centre.y, r: POT_BODY.shaftRadiusMm * perMm, class: 'shaft' }),
    line(centre.x, stringY, centre.x + half + 14, stringY, 'string'),
    label(centre.x, centre.y - half - 8, 'from the side', { anchor: 'middle', class: 'name' }),
    label(centre.x + half + 6, stringY - 6, 'string', { class: 'tick' }),
  ];
}

/** From above: cap of the potentiometer, wall, cup with the spool in it, lid. */
function aboveView(unit: UnitDimensions, corner: Point, perMm: number): string[] {
  const [long, , deep] = unit.pot.hollowMm;
  const capMm = deep + unit.pot.wallMm;
  const cupMm = unit.wallMm + unit.cupDepthMm;
  const length = 2 * unit.halfMm * perMm;
  const middle = corner.y + length / 2;
  const box = (fromMm: number, widthMm: number, halfMm: number, kind: string) =>
    element('rect', {
      x: corner.x + fromMm * perMm,
      y: middle - halfMm * perMm,
      width: widthMm * perMm,
      height: 2 * halfMm * perMm,
      class: kind,
    });
  const spoolFrom = capMm + cupMm - unit.spool.heightMm - 0.6;
  return [
    box(0, capMm, long / 2 + unit.pot.wallMm, 'housing'),
    box(capMm, cupMm, unit.halfMm, 'housing'),
    box(spoolFrom, unit.spool.discMm, unit.spool.flangeRadiusMm, 'spool'),
    box(capMm + cupMm, unit.lidMm, unit.halfMm, 'housing'),
    line(corner.x, middle, corner.x + unit.widthMm * perMm, middle, 'axis-line'),
    label(corner.x + (unit.widthMm * perMm) / 2, corner.y - 8, 'from above', {
      anchor: 'middle',
      class: 'name',
    }),
    label(corner.x + (unit.widthMm * perMm) / 2, corner.y + length + 16, `${unit.widthMm.toFixed(1)} mm`, {
      anchor: 'middle',
      class: 'strong',
    }),
  ];
}
