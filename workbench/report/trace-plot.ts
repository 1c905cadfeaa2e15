import type { ExampleTraces } from '../../sim/study/result.ts';
import { axes, type Box, legend } from './axes.ts';
import { formatNumber, withUnit } from './numbers.ts';
import { extent, linearScale, padded } from './scale.ts';
import { dots, drawing, line, polyline, type Size } from './svg.ts';
import { fingerWords } from './words.ts';

/** True, raw and smoothed closure over time: raw as points, the truth dashed, smoothed as a full line. */
export function tracePlot(traces: ExampleTraces, size: Size, id: string): string {
  const key = legend(
    [
      { text: 'true closure', sign: (x, y) => line(x, y, x + 22, y, 'truth') },
      {
        text: 'raw readings',
        sign: (x, y) => dots([x + 3, x + 9, x + 15, x + 21], [y + 2, y - 2, y + 1, y - 1], 'raw-dot'),
      },
      { text: 'smoothed', sign: (x, y) => line(x, y, x + 22, y, 'smooth') },
    ],
    8,
    4,
    size.width - 16,
  );
  const box: Box = { left: 46, top: key.height + 30, right: size.width - 12, bottom: size.height - 44 };
  const from = traces.timeMs[0] ?? 0;
  const times = traces.timeMs.map((time) => time - from);
  const x = linearScale(extent([times]), [box.left, box.right], size.width < 500 ? 5 : 9);
  const lists = [traces.truthPct, traces.rawPct, traces.smoothedPct];
  const y = linearScale(padded(extent(lists), 0.03), [box.bottom, box.top], 5);
  const xs = times.map((time) => x.at(time));
  const at = (values: number[]): number[] =>
    values.map((value) => (Number.isFinite(value) ? y.at(value) : Number.NaN));
  const span = times.length > 0 ? times[times.length - 1] : 0;
  return drawing(
    {
      id,
      title: `Hardest grasp, ${fingerWords(traces.finger)}`,
      description: `Closure of the ${fingerWords(traces.finger)} over ${withUnit(formatNumber(span), 'ms')}: raw readings scatter about the true closure, the smoothed closure follows it later.`,
      size,
      class: 'plot',
    },
    [
      key.svg,
      axes(box, x, y, { x: 'time, ms', y: 'closure, %' }),
      dots(xs, at(traces.rawPct), 'raw-dot'),
      polyline(xs, at(traces.truthPct), 'truth'),
      polyline(xs, at(traces.smoothedPct), 'smooth'),
    ],
  );
}
