import type { PartsSize } from '../../../sim/sizing/parts/parts-size.ts';
import {
  amountWords,
  budgetWords,
  changeWords,
  costWords,
  missingWords,
  NOT_COUNTED,
  partRows,
  priceWords,
} from '../../parts/parts-words.ts';
import { plainText } from '../../report/escape.ts';
import { wrapWords } from '../../report/wrap.ts';
import { textTable } from '../text-table.ts';

/** Parts and their prices for the terminal: a heading, the table, totals, what changes would cost. */
export function partsLines(size: PartsSize, columns: number): string[] {
  const lines = ['Parts and prices'];
  const say = (text: string, indent = 2) => {
    const pad = ' '.repeat(indent);
    lines.push(
      ...wrapWords(text, columns - indent - 2).map((line, i) => (i > 0 ? `${pad}  ${line}` : pad + line)),
    );
  };
  say(priceWords(size));
  lines.push(
    ...textTable(
      [
        ['part', 'one hand', 'cost', 'two hands', 'cost'],
        ...partRows(size).map(({ one, two }) => [
          `${one.name}, ${one.spec}`,
          amountWords(one),
          costWords(one),
          amountWords(two),
          costWords(two),
        ]),
        ['Total', '', size.one.total.toFixed(2), '', size.two.total.toFixed(2)],
      ],
      { columns, right: [1, 2, 3, 4], indent: 2 },
    ),
  );
  for (const text of [missingWords(size), budgetWords(size)]) if (text !== undefined) say(text);
  say(NOT_COUNTED);
  if (size.changes.length > 0) {
    lines.push('  Changes, for one hand');
    for (const change of size.changes) say(changeWords(change, size.currency), 4);
  }
  if (size.margins.some(({ ratio }) => ratio < 1) && size.savings.length > 0) {
    lines.push('  Savings, for one hand');
    for (const change of size.savings) say(changeWords(change, size.currency), 4);
  }
  return lines.map(plainText);
}
