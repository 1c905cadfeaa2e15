import type { RestHistogram } from '../../sim/study/result.ts';
import { axes, type Box, FONT_SIZE } from './axes.ts';
import { formatNumber, withUnit } from './numbers.ts';
import { extent, linearScale, type Scale } from './scale.ts';
import { coordinate, drawing, element, label, line, type Size } from './svg.ts';
import { fingerWords } from './words.ts';

/** Two histograms above each other on one axis: single readings and smoothed closure of a finger at rest. */
export function restPlot(rest: RestHistogram, size: Size, id: string): string {
  const half = (size.height - 74) / 2;
  const upper: Box = { left: 46, top: 30, right: size.width - 12, bottom: half + 6 };
  const lower: Box = { ...upper, top: half + 58, bottom: size.height - 44 };
  const x = linearScale(extent([rest.binEdgesPct]), [upper.left, upper.right], size.width < 500 ? 5 : 9);
  return drawing(
    {
      id,
      title: `${fingerWords(rest.finger)} at rest`,
      description: `Closure about its mean. Single readings: standard deviation ${withUnit(formatNumber(rest.rawSdPct, 2), '%')} of closure. Smoothed: ${withUnit(formatNumber(rest.smoothedSdPct, 2), '%')}.`,
      size,
      class: 'plot',
    },
    [
      panel(upper, x, rest.binEdgesPct, rest.raw, rest.rawSdPct, 'raw', 'single readings'),
      panel(lower, x, rest.binEdgesPct, rest.smoothed, rest.smoothedSdPct, 'smooth', 'smoothed'),
    ],
  );
}

function panel(
  box: Box,
  x: Scale,
  edges: number[],
  counts: number[],
  sdPct: number,
  kind: 'raw' | 'smooth',
  words: string,
): string {
  const total = counts.reduce((sum, count) => sum + count, 0);
  const shares = counts.map((count) => (total > 0 ? (100 * count) / total : 0));
  const y = linearScale([0, Math.max(1, ...shares) * 1.1], [box.bottom, box.top], 3);
  const sd = withUnit(formatNumber(sdPct, 2), '%');
  const bars = [line(x.at(0), box.top, x.at(0), box.bottom, 'zero')];
  if (sdPct > 0 && Number.isFinite(sdPct)) {
    const at = box.top + 22;
    bars.push(line(x.at(-sdPct), at, x.at(sdPct), at, 'sd-bar'));
    for (const end of [-sdPct, sdPct]) bars.push(line(x.at(end), at - 4, x.at(end), at + 4, 'sd-bar'));
  }
  return element(
    'g',
    {},
    axes(box, x, y, {
      x: kind === 'smooth' ? 'away from the mean, % of closure' : '',
      y: `${words}, % of them`,
    }),
    element('path', { d: outline(x, y, edges, shares), class: `${kind}-area` }),
    ...bars,
    label(box.right - 4, box.top + FONT_SIZE + 2, `sd ${sd}`, { anchor: 'end', class: 'halo' }),
  );
}

function outline(x: Scale, y: Scale, edges: number[], shares: number[]): string {
  if (shares.length === 0 || edges.length === 0) return '';
  let path = `M${coordinate(x.at(edges[0]))} ${coordinate(y.at(0))}`;
  for (let bin = 0; bin < shares.length && bin + 1 < edges.length; bin++)
    path += `V${coordinate(y.at(shares[bin]))}H${coordinate(x.at(edges[bin + 1]))}`;
  return `${path}V${coordinate(y.at(0))}Z`;
}
