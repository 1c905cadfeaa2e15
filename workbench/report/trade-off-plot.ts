import type { RatedSettings, TableRow, TradeOffPoint } from '../../sim/study/result.ts';
import { axes, type Box, FONT_SIZE, legend } from './axes.ts';
import { formatNumber, formatSetting, formatValueOf, withUnit } from './numbers.ts';
import { logScale } from './scale.ts';
import { diamond, dots, drawing, element, label, line, polyline, type Size, textWidth } from './svg.ts';

export interface TradeOff {
  table: TableRow[];
  pareto: TradeOffPoint[];
  pick: RatedSettings;
  wishes: { jitterPct: number; lagMs: number };
}

/** Jitter against lag, both logarithmic: every settings tried, the best compromises, the wishes and the pick. */
export function tradeOffPlot(data: TradeOff, size: Size, id: string): string {
  const { lagMs, jitterPct } = data.pick.scores;
  const pareto = data.pareto
    .filter((point) => Number.isFinite(point.lagMs) && Number.isFinite(point.jitterPct))
    .sort((a, b) => a.lagMs - b.lagMs);
  const rowLags = data.table.map((row) => row.scores.lagMs);
  const rowJitters = data.table.map((row) => row.scores.jitterPct);
  const key = legend(
    [
      { text: 'settings tried', sign: (x, y) => dots([x + 5, x + 11, x + 17], [y + 2, y - 3, y + 3], 'dot') },
      {
        text: 'no other is better in both',
        sign: (x, y) => line(x, y, x + 22, y, 'front') + diamond(x + 11, y, 3.5, 'front-mark'),
      },
      { text: 'wish', sign: (x, y) => line(x, y, x + 22, y, 'wish') },
      { text: 'pick', sign: (x, y) => pickMark(x + 11, y) },
    ],
    8,
    4,
    size.width - 16,
  );
  const box: Box = { left: 46, top: key.height + 30, right: size.width - 12, bottom: size.height - 44 };
  const x = logScale(
    [...rowLags, ...pareto.map((point) => point.lagMs), lagMs.value, lagMs.high, data.wishes.lagMs],
    [box.left, box.right],
    size.width < 500 ? 5 : 9,
  );
  const y = logScale(
    [
      ...rowJitters,
      ...pareto.map((point) => point.jitterPct),
      jitterPct.value,
      jitterPct.high,
      data.wishes.jitterPct,
    ],
    [box.bottom, box.top],
    7,
  );
  const wishX = x.at(data.wishes.lagMs);
  const wishY = y.at(data.wishes.jitterPct);
  const parts = [
    key.svg,
    element('rect', {
      x: box.left,
      y: wishY,
      width: wishX - box.left,
      height: box.bottom - wishY,
      class: 'wished-area',
    }),
    axes(box, x, y, {
      x: 'lag at fast grasps, ms (further left is better)',
      y: 'jitter at rest, % of closure (lower is better)',
    }),
    y.floor === undefined ? '' : label(box.left + 5, box.bottom - 5, 'this or less', { class: 'tick' }),
    dots(
      rowLags.map((value) => (Number.isNaN(value) ? value : x.at(value))),
      rowJitters.map((value) => (Number.isNaN(value) ? value : y.at(value))),
      'dot',
    ),
    line(wishX, box.top, wishX, box.bottom, 'wish'),
    line(box.left, wishY, box.right, wishY, 'wish'),
    ...wishLabels(box, wishX, wishY, data.wishes),
    polyline(
      pareto.map((point) => x.at(point.lagMs)),
      pareto.map((point) => y.at(point.jitterPct)),
      'front',
    ),
    ...pareto.map((point) =>
      diamond(
        x.at(point.lagMs),
        y.at(point.jitterPct),
        3.5,
        'front-mark',
        `${point.id}: ${pointText(point)}`,
      ),
    ),
    ...pickParts(data.pick, box, x.at, y.at),
  ];
  return drawing(
    { id, title: 'Jitter against lag', description: describe(data), size, class: 'plot' },
    parts,
  );
}

function describe(data: TradeOff): string {
  const { lagMs, jitterPct } = data.pick.scores;
  const at = pointText({ lagMs: lagMs.value, jitterPct: jitterPct.value });
  const wished = pointText(data.wishes);
  return `${data.table.length} settings tried; ${data.pareto.length} of them are not bettered in both by another. The pick ${data.pick.id} lies at ${at}; wished are at most ${wished}.`;
}

function pointText(point: { lagMs: number; jitterPct: number }): string {
  return `lag ${withUnit(formatNumber(point.lagMs), 'ms')}, jitter ${withUnit(formatNumber(point.jitterPct), '%')}`;
}

function wishLabels(
  box: Box,
  wishX: number,
  wishY: number,
  wishes: { jitterPct: number; lagMs: number },
): string[] {
  const lagText = `wish ${withUnit(formatSetting(wishes.lagMs), 'ms')}`;
  const jitterText = `wish ${withUnit(formatSetting(wishes.jitterPct), '%')}`;
  const fitsRight = wishX + 6 + textWidth(lagText, FONT_SIZE) < box.right;
  const above = wishY - 6 - FONT_SIZE > box.top;
  return [
    label(fitsRight ? wishX + 6 : wishX - 6, box.top + 13, lagText, {
      anchor: fitsRight ? 'start' : 'end',
      class: 'halo wish-text',
    }),
    label(box.right - 4, above ? wishY - 6 : wishY + 15, jitterText, {
      anchor: 'end',
      class: 'halo wish-text',
    }),
  ];
}

function pickParts(
  pick: RatedSettings,
  box: Box,
  xAt: (value: number) => number,
  yAt: (value: number) => number,
): string[] {
  const { lagMs, jitterPct } = pick.scores;
  if (!Number.isFinite(lagMs.value) || !Number.isFinite(jitterPct.value)) return [];
  const x = xAt(lagMs.value);
  const y = yAt(jitterPct.value);
  const text = `pick: ${withUnit(formatValueOf(lagMs), 'ms')}, ${withUnit(formatValueOf(jitterPct), '%')}`;
  const fitsLeft = x - 14 - textWidth(text, FONT_SIZE) > box.left;
  const low = y + 22 > box.bottom;
  return [
    line(xAt(lagMs.low), y, xAt(lagMs.high), y, 'pick-bar'),
    line(x, yAt(jitterPct.low), x, yAt(jitterPct.high), 'pick-bar'),
    pickMark(x, y),
    label(fitsLeft ? x - 12 : x + 12, low ? y - 10 : y + 18, text, {
      anchor: fitsLeft ? 'end' : 'start',
      class: 'halo pick-text',
    }),
  ];
}

function pickMark(x: number, y: number): string {
  return (
    element('circle', { cx: x, cy: y, r: 7, class: 'pick-ring' }) +
    element('circle', { cx: x, cy: y, r: 3, class: 'pick-core' })
  );
}
