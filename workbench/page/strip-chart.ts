import uPlot from 'uplot';

/** A strip of one finger's travel over the last seconds. */
export interface StripChart {
  element: HTMLElement;
  draw(times: number[], travel: (number | null)[], truth?: (number | null)[]): void;
  resize(): void;
}

/** Seconds on the strip. */
export const STRIP_S = 10;
const HEIGHT = 112;

/** A colour of the page, as it is in the scheme now. */
export function colour(name: string): string {
  return getComputedStyle(document.documentElement).getPropertyValue(`--${name}`).trim();
}

export function createStripChart(title: string): StripChart {
  const element = document.createElement('div');
  element.className = 'strip';
  element.setAttribute('role', 'img');
  element.setAttribute('aria-label', `${title}: closure over the last ${STRIP_S} seconds`);
  const axis = () => ({
    stroke: colour('soft'),
    grid: { stroke: colour('grid'), width: 1 },
    ticks: { stroke: colour('grid') },
    font: '11px system-ui, sans-serif',
  });
  let plot: uPlot | undefined;

  function make(): void {
    plot?.destroy();
    const width = Math.max(200, element.clientWidth);
    plot = new uPlot(
      {
        width,
        height: HEIGHT,
        legend: { show: false },
        cursor: { show: false },
        padding: [6, 16, 0, 0],
        scales: { x: { time: false }, y: { range: [-12, 112] } },
        axes: [
          { ...axis(), size: 24, values: (_, values) => values.map((value) => `${value} s`) },
          {
            ...axis(),
            size: 54,
            splits: () => [0, 50, 100],
            values: (_, values) => values.map((v) => `${v} %`),
          },
        ],
        series: [
          {},
          { stroke: colour('string'), width: 2, spanGaps: false, points: { show: false } },
          { stroke: colour('ink'), width: 1, dash: [5, 4], points: { show: false } },
        ],
      },
      [[], [], []],
      element,
    );
  }

  return {
    element,
    draw(times, travel, truth) {
      if (!plot) {
        if (element.clientWidth === 0) return;
        make();
      }
      const last = times.at(-1) ?? 0;
      const x = times.map((time) => time - last);
      const pct = (values: (number | null)[]) => values.map((value) => (value === null ? null : 100 * value));
      plot!.setData([x, pct(travel), truth ? pct(truth) : times.map(() => null)], false);
      plot!.setScale('x', { min: -STRIP_S, max: 0 });
    },
    resize() {
      if (plot) make();
    },
  };
}
