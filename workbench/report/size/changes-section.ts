import type { Change } from '../../../sim/sizing/change.ts';
import { changeWords } from '../../size/change-file.ts';
import { paragraph, section, table } from '../html.ts';
import { whoWords } from './answer-section.ts';

/** A proposed change with what it costs, if that is known. */
export interface PricedChange extends Change {
  /** In words, with the currency. */
  cost?: string;
}

export function changesSection(changes: readonly PricedChange[], afterWords: string): string {
  if (changes.length === 0) {
    return section('changes', 'Proposed changes', paragraph('None: the values of the rig file can stay.'));
  }
  const rows = changes.map((change) => {
    const words = changeWords(change);
    return [
      { text: words.what },
      { text: whoWords(change), name: 'for' },
      { text: words.from, kind: 'n', name: 'now' },
      { text: words.to, kind: 'n', name: 'proposed' },
      { text: change.why, kind: 'words' },
      { text: change.cost ?? '–', kind: 'n', name: 'cost' },
    ];
  });
  const heads = [
    { text: 'What' },
    { text: 'Fingers' },
    { text: 'Now', kind: 'n' },
    { text: 'Proposed', kind: 'n' },
    { text: 'Why' },
    { text: 'Cost', kind: 'n' },
  ];
  return section(
    'changes',
    'Proposed changes',
    table(heads, rows, { class: 'stack' }),
    paragraph(afterWords),
    paragraph('“tautline size --write” puts them into the rig file; comments stay.', 'small'),
  );
}
