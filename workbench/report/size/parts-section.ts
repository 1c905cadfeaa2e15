import type { PartsSize } from '../../../sim/sizing/parts/parts-size.ts';
import {
  amountWords,
  budgetWords,
  changeCostWords,
  costWords,
  missingWords,
  NOT_COUNTED,
  partRows,
  priceWords,
} from '../../parts/parts-words.ts';
import { type Cell, paragraph, section, table } from '../html.ts';

/** Parts, prices and budget as a section of the report. */
export function partsSection(size: PartsSize): string {
  const missing = missingWords(size);
  const budget = budgetWords(size);
  const content = [paragraph(priceWords(size), 'notice'), partsTable(size)];
  for (const text of [missing, budget]) if (text !== undefined) content.push(paragraph(text));
  content.push(paragraph(NOT_COUNTED, 'small'));
  if (size.changes.length > 0)
    content.push('<h3>What changes would cost, one hand</h3>', changes(size, size.changes));
  if (size.savings.length > 0)
    content.push('<h3>What would save money, one hand</h3>', changes(size, size.savings));
  return section('parts', 'Parts and prices', ...content);
}

function partsTable(size: PartsSize): string {
  const heads: Cell[] = [
    { text: 'Part' },
    { text: 'Value or kind' },
    { text: 'One hand', kind: 'n' },
    { text: 'Cost', kind: 'n' },
    { text: 'Two hands', kind: 'n' },
    { text: 'Cost', kind: 'n' },
    { text: 'What for' },
  ];
  const rows = partRows(size).map(({ one, two }): Cell[] => [
    { text: one.name },
    { text: one.spec },
    { text: amountWords(one), kind: 'n', name: 'one hand:' },
    { text: costWords(one), kind: 'n', name: '·' },
    { text: amountWords(two), kind: 'n', name: 'two:' },
    { text: costWords(two), kind: 'n', name: '·' },
    { text: `${one.why} (${one.from})`, kind: 'small' },
  ]);
  const total = (amount: number, name: string): Cell => ({ text: amount.toFixed(2), kind: 'n', name });
  rows.push([
    { text: size.two.missing.length === 0 ? 'Total' : 'Total, incomplete' },
    { text: size.currency },
    { text: '', kind: 'n' },
    total(size.one.total, 'one hand:'),
    { text: '', kind: 'n' },
    total(size.two.total, 'two:'),
    { text: '' },
  ]);
  return table(heads, rows, { class: 'stack parts' });
}

function changes(size: PartsSize, list: PartsSize['changes']): string {
  return table(
    [{ text: 'Change' }, { text: `Cost in ${size.currency}`, kind: 'n' }],
    list.map((change) => [{ text: change.what }, { text: changeCostWords(change, ''), kind: 'n' }]),
  );
}
