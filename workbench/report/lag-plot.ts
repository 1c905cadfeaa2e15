import { axes, type Box, FONT_SIZE } from './axes.ts';
import { decimalsFor, formatFixed, formatSetting, withUnit } from './numbers.ts';
import { extent, linearScale } from './scale.ts';
import { drawing, element, label, line, type Size, textWidth } from './svg.ts';

export interface LagParts {
  parts: { part: string; ms: number }[];
  wishMs: number;
}

const ROW = 42;

/** Where the lag comes from: each part begins where the one before ended; the sum and the wish at the foot. */
export function lagPlot(lag: LagParts, width: number, id: string): string {
  const size: Size = { width, height: 30 + (lag.parts.length + 1) * ROW + 50 };
  const box: Box = { left: 12, top: 26, right: width - 12, bottom: size.height - 46 };
  const starts: number[] = [];
  let sum = 0;
  for (const part of lag.parts) {
    starts.push(sum);
    sum += part.ms;
  }
  const ends = lag.parts.map((part, index) => starts[index] + part.ms);
  const x = linearScale(
    extent([starts, ends], [0, sum, lag.wishMs * 1.04]),
    [box.left, box.right],
    width < 500 ? 5 : 9,
  );
  const inMs = (ms: number): string => withUnit(formatFixed(ms, decimalsFor(sum, 3)), 'ms');
  const rows = [
    ...lag.parts.map((part, index) => ({
      words: `${part.part}: ${inMs(part.ms)}`,
      ms: part.ms,
      from: starts[index],
      kind: 'part',
    })),
    { words: `lag in all: ${inMs(sum)}`, ms: sum, from: 0, kind: 'sum' },
  ];
  const noTicks = { at: (): number => box.top, ticks: [], floor: undefined };
  const wishText = `wish ${withUnit(formatSetting(lag.wishMs), 'ms')}`;
  const wishX = x.at(lag.wishMs);
  const wishLeft = wishX + textWidth(wishText, FONT_SIZE) > width - 8;
  return drawing(
    {
      id,
      title: 'Where the lag comes from',
      description: `${lag.parts.map((part) => `${part.part}: ${inMs(part.ms)}`).join('; ')}. In all ${inMs(sum)}, wished at most ${withUnit(formatSetting(lag.wishMs), 'ms')}.`,
      size,
      class: 'plot',
    },
    [
      axes(box, x, noTicks, { x: 'ms', y: '' }),
      line(wishX, box.top - 6, wishX, box.bottom, 'wish'),
      label(wishX, 14, wishText, { anchor: wishLeft ? 'end' : 'start', class: 'wish-text' }),
      ...rows.map((row, index) => lagRow(row, box.top + 8 + index * ROW, x.at, width)),
    ],
  );
}

function lagRow(
  row: { words: string; ms: number; from: number; kind: string },
  top: number,
  xAt: (value: number) => number,
  width: number,
): string {
  const from = xAt(Math.min(row.from, row.from + row.ms));
  const to = xAt(Math.max(row.from, row.from + row.ms));
  const room = width - 8 - textWidth(row.words, FONT_SIZE);
  return element(
    'g',
    {},
    element('rect', {
      x: from,
      y: top + 16,
      width: Math.max(1, to - from),
      height: 14,
      class: `lag-${row.kind}`,
    }),
    label(Math.max(18, Math.min(from, room)), top + 11, row.words, {
      class: row.kind === 'sum' ? 'halo strong' : 'halo',
    }),
  );
}
