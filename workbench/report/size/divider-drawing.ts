import { element, label, line } from '../svg.ts';

/** What the drawing of a divider shows. */
export interface DividerView {
  supplyV: number;
  topOhm: number;
  potOhm: number;
  bottomOhm: number;
  /** Voltage at the pin, open and closed, nominal. */
  endsV: readonly [number, number];
  /** Lowest and highest in any corner of tolerance. */
  cornersV: readonly [number, number];
  /** Range that the chip's maker vouches for. */
  rangeV: readonly [number, number];
}

/** Least distance between two texts, px. */
const LINE = 15;

/**
 * The divider to scale: height is voltage. On the left the resistors as high as the voltage that falls over them, in
 * the middle the chip's straight range, on the right where the pin is with the finger open and closed.
 */
export function dividerDrawing(
  view: DividerView,
  box: { left: number; top: number; right: number; bottom: number },
): string[] {
  const y = (volts: number) => box.bottom - ((box.bottom - box.top) * volts) / view.supplyV;
  const totalOhm = view.topOhm + view.potOhm + view.bottomOhm;
  const potFrom = (view.supplyV * view.bottomOhm) / totalOhm;
  const potTo = (view.supplyV * (view.bottomOhm + view.potOhm)) / totalOhm;
  const x = box.left + 62;
  const [low, high] = view.rangeV;
  const [openV, closedV] = view.endsV;
  const isOut = view.cornersV[0] < low || view.cornersV[1] > high;
  const band = { x: x + 34, width: 46 };
  const middle = band.x + band.width / 2;
  const texts = spread(
    [
      { volts: high, text: `straight to ${high.toFixed(2)} V`, kind: 'tick' },
      { volts: low, text: low > 0 ? `straight from ${low.toFixed(2)} V` : 'straight from 0 V', kind: 'tick' },
      { volts: closedV, text: `closed ${closedV.toFixed(2)} V`, kind: 'strong' },
      { volts: openV, text: `open ${openV.toFixed(2)} V`, kind: 'strong' },
      { volts: view.cornersV[1], text: `worst ${view.cornersV[1].toFixed(2)} V`, kind: '' },
      { volts: view.cornersV[0], text: `worst ${view.cornersV[0].toFixed(2)} V`, kind: '' },
    ].map((one) => ({ ...one, y: y(one.volts) })),
    box.top,
    box.bottom,
  );
  return [
    element('rect', { x: band.x, y: y(high), width: band.width, height: y(low) - y(high), class: 'range' }),
    line(x, y(0), x, y(view.supplyV), 'axis'),
    ...[
      { ohm: view.topOhm, from: potTo, to: view.supplyV },
      { ohm: view.potOhm, from: potFrom, to: potTo },
      { ohm: view.bottomOhm, from: 0, to: potFrom },
    ].flatMap(({ ohm, from, to }) => {
      if (ohm === 0) return [];
      const height = y(from) - y(to);
      const inset = Math.min(4, height / 4);
      return [
        element('rect', {
          x: x - 9,
          y: y(to) + inset,
          width: 18,
          height: height - 2 * inset,
          class: 'resistor',
        }),
        label(x - 15, (y(from) + y(to)) / 2 + 4, ohmText(ohm), { anchor: 'end' }),
      ];
    }),
    label(x, y(view.supplyV) - 7, `${view.supplyV} V`, { anchor: 'middle', class: 'tick' }),
    label(x, y(0) + 15, '0 V', { anchor: 'middle', class: 'tick' }),
    line(middle, y(view.cornersV[0]), middle, y(view.cornersV[1]), isOut ? 'span is-bad' : 'span'),
    element('rect', {
      x: middle - 9,
      y: y(Math.max(openV, closedV)),
      width: 18,
      height: Math.abs(y(openV) - y(closedV)),
      class: 'swing',
    }),
    ...texts.map(({ text, kind, y: at, wantedY }) => {
      const start = band.x + band.width + 6;
      return [
        element('path', {
          d: `M${start} ${wantedY.toFixed(1)}l6 0L${start + 16} ${at.toFixed(1)}`,
          class: 'lead',
        }),
        label(start + 20, at + 4, text, kind === '' ? {} : { class: kind }),
      ].join('');
    }),
  ];
}

/** Moves texts apart, keeping their order: up from where they belong, but none above `top` or below `bottom`. */
function spread<T extends { y: number }>(
  texts: T[],
  top: number,
  bottom: number,
): (T & { wantedY: number })[] {
  const sorted = texts.map((one) => ({ ...one, wantedY: one.y })).sort((a, b) => a.y - b.y);
  let limit = bottom;
  for (const one of [...sorted].reverse()) {
    one.y = Math.min(one.y, limit);
    limit = one.y - LINE;
  }
  limit = top;
  for (const one of sorted) {
    one.y = Math.max(one.y, limit);
    limit = one.y + LINE;
  }
  return sorted;
}

export function ohmText(ohm: number): string {
  return ohm < 1000 ? `${Math.round(ohm)} Ω` : `${Number((ohm / 1000).toFixed(2))} kΩ`;
}
