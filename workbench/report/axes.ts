import { decimalsFor, formatFixed } from './numbers.ts';
import type { Scale } from './scale.ts';
import { element, label, line, textWidth } from './svg.ts';

/** Font size of all texts in drawings, user units. */
export const FONT_SIZE = 12;

/** The plotting area inside a drawing, user units. */
export interface Box {
  left: number;
  top: number;
  right: number;
  bottom: number;
}

/** Grid, tick labels and names of both axes. The name of the y axis stands above the area, to be read level. */
export function axes(box: Box, x: Scale, y: Scale, names: { x: string; y: string }): string {
  const parts: string[] = [];
  const xDecimals = tickDecimals(x.ticks);
  const yDecimals = tickDecimals(y.ticks);
  for (const tick of x.ticks) {
    const at = x.at(tick);
    parts.push(line(at, box.top, at, box.bottom, 'grid'));
    parts.push(label(at, box.bottom + 16, tickText(tick, xDecimals), { anchor: 'middle', class: 'tick' }));
  }
  for (const tick of y.ticks) {
    const at = y.at(tick);
    parts.push(line(box.left, at, box.right, at, 'grid'));
    parts.push(label(box.left - 6, at + 4, tickText(tick, yDecimals), { anchor: 'end', class: 'tick' }));
  }
  parts.push(line(box.left, box.bottom, box.right, box.bottom, 'axis'));
  parts.push(line(box.left, box.top, box.left, box.bottom, 'axis'));
  if (names.x !== '')
    parts.push(label(box.right, box.bottom + 34, names.x, { anchor: 'end', class: 'name' }));
  if (names.y !== '') parts.push(label(4, box.top - 10, names.y, { class: 'name' }));
  return element('g', {}, ...parts);
}

/** Decimals that keep all ticks apart; undefined when each tick has its own (logarithmic axes). */
function tickDecimals(ticks: number[]): number | undefined {
  if (ticks.length < 2) return undefined;
  const step = ticks[1] - ticks[0];
  const even = ticks.every((tick, index) => Math.abs(tick - ticks[0] - index * step) < step * 1e-6);
  return even ? decimalsFor(step, 1) : undefined;
}

function tickText(tick: number, decimals: number | undefined): string {
  return formatFixed(tick, decimals ?? decimalsFor(tick, 1));
}

export interface LegendEntry {
  text: string;
  /** Draws the sign for a box of 22 by 12 with its left middle at (x, y). */
  sign: (x: number, y: number) => string;
}

/** Signs with their words in rows from the left; returns what was drawn and how high it is. */
export function legend(
  entries: LegendEntry[],
  left: number,
  top: number,
  width: number,
): { svg: string; height: number } {
  const parts: string[] = [];
  let x = left;
  let y = top + 8;
  for (const entry of entries) {
    const needed = 28 + textWidth(entry.text, FONT_SIZE) + 16;
    if (x > left && x + needed > left + width) {
      x = left;
      y += 18;
    }
    parts.push(entry.sign(x, y), label(x + 28, y + 4, entry.text));
    x += needed;
  }
  return { svg: element('g', {}, ...parts), height: y + 10 - top };
}
