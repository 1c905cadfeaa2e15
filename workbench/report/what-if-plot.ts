import type { WhatIf } from '../../sim/study/result.ts';
import { axes, type Box, FONT_SIZE } from './axes.ts';
import { formatChange } from './numbers.ts';
import { extent, linearScale, padded } from './scale.ts';
import { drawing, element, label, line, type Size } from './svg.ts';
import { wrapWords } from './wrap.ts';

/** Changes of the build from the one that helps most to the one that harms most. */
export function sortedWhatIf(whatIf: WhatIf[]): WhatIf[] {
  return [...whatIf].sort((a, b) => a.ratioChange.value - b.ratioChange.value);
}

/** What a change does, in words; never by colour alone. */
export function effectWord(change: WhatIf): 'helps' | 'harms' | 'no clear difference' {
  if (!change.clear) return 'no clear difference';
  return change.ratioChange.value < 0 ? 'helps' : 'harms';
}

/** Bars of the change of the hardest wish's ratio, each with its interval; left of zero is better. */
export function whatIfPlot(whatIf: WhatIf[], width: number, id: string): string {
  const changes = sortedWhatIf(whatIf);
  const perLine = Math.floor((width - 32) / (FONT_SIZE * 0.58));
  const names = changes.map((change) => wrapWords(change.change, perLine));
  const heights = names.map((lines) => lines.length * 15 + 24);
  const bottom = 30 + heights.reduce((sum, height) => sum + height, 0);
  const size: Size = { width, height: bottom + 46 };
  const box: Box = { left: 12, top: 24, right: width - 12, bottom };
  const ranges = changes.map((change) => [
    change.ratioChange.value,
    change.ratioChange.low,
    change.ratioChange.high,
  ]);
  const x = linearScale(padded(extent(ranges, [0]), 0.04), [box.left, box.right], width < 500 ? 5 : 9);
  const noTicks = { at: (): number => box.top, ticks: [], floor: undefined };
  const rows: string[] = [];
  let top = box.top + 6;
  changes.forEach((change, index) => {
    rows.push(whatIfRow(change, names[index], top, x.at, box));
    top += heights[index];
  });
  return drawing(
    {
      id,
      title: 'What a change of the build would bring',
      description: changes
        .map(
          (change) =>
            `${change.change}: ${effectWord(change)}, ratio changes by ${formatChange(change.ratioChange)}`,
        )
        .join('; '),
      size,
      class: 'plot',
    },
    [
      label(12, 14, '◂ better', { class: 'name' }),
      label(width - 12, 14, 'worse ▸', { anchor: 'end', class: 'name' }),
      axes(box, x, noTicks, { x: 'change of the worst score-to-wish ratio', y: '' }),
      line(x.at(0), box.top - 4, x.at(0), box.bottom, 'zero'),
      ...rows,
    ],
  );
}

function whatIfRow(
  change: WhatIf,
  name: string[],
  top: number,
  xAt: (value: number) => number,
  box: Box,
): string {
  const effect = effectWord(change);
  const kind = effect === 'helps' ? 'helps' : effect === 'harms' ? 'harms' : 'unclear';
  const nameBottom = top + name.length * 15;
  const middle = nameBottom + 9;
  const { value, low, high } = change.ratioChange;
  const parts = name.map((words, index) =>
    label(box.left + 6, top + 11 + index * 15, words, { class: kind === 'unclear' ? 'halo faded' : 'halo' }),
  );
  if ([value, low, high].every(Number.isFinite)) {
    const from = Math.min(xAt(0), xAt(value));
    const to = Math.max(xAt(0), xAt(value));
    parts.push(
      element('rect', {
        x: from,
        y: middle - 5,
        width: Math.max(1, to - from),
        height: 10,
        class: `bar-${kind}`,
      }),
      line(xAt(low), middle, xAt(high), middle, 'whisker'),
      line(xAt(low), middle - 4, xAt(low), middle + 4, 'whisker'),
      line(xAt(high), middle - 4, xAt(high), middle + 4, 'whisker'),
    );
    if (kind === 'unclear') parts.push(unclearText(middle, xAt(high), xAt(low), box));
  }
  return element('g', {}, ...parts);
}

function unclearText(middle: number, right: number, left: number, box: Box): string {
  const words = 'no clear difference';
  const needed = words.length * FONT_SIZE * 0.58;
  if (right + 8 + needed < box.right) return label(right + 8, middle + 4, words, { class: 'halo faded' });
  if (left - 8 - needed > box.left)
    return label(left - 8, middle + 4, words, { anchor: 'end', class: 'halo faded' });
  return '';
}
