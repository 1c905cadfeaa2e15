import { changeCostWords } from '../../parts/parts-words.ts';
import { changeWords } from '../../size/change-file.ts';
import type { SizeAnswer } from '../../size/size-rig-file.ts';
import { list, paragraph, section, table } from '../html.ts';
import { whoWords } from './answer-section.ts';

export function changesSection({ changes, left, ok }: SizeAnswer['proposal'], currency: string): string {
  const byHand = left.length === 0 ? [] : ['<h3>To do by hand</h3>', list(left)];
  if (changes.length === 0) {
    const words = left.length === 0 ? 'None: the values of the rig file can stay.' : 'None of single values.';
    return section('changes', 'Proposed changes', paragraph(words), ...byHand);
  }
  const rows = changes.map((change) => {
    const words = changeWords(change);
    return [
      { text: words.what },
      { text: whoWords(change), name: 'for' },
      { text: words.from, kind: 'n', name: 'now' },
      { text: words.to, kind: 'n', name: 'proposed' },
      { text: changeCostWords(change.cost, currency), kind: 'n', name: 'cost' },
      { text: change.why, kind: 'words' },
    ];
  });
  const heads = [
    { text: 'What' },
    { text: 'Fingers' },
    { text: 'Now', kind: 'n' },
    { text: 'Proposed', kind: 'n' },
    { text: 'Cost', kind: 'n' },
    { text: 'Why' },
  ];
  return section(
    'changes',
    'Proposed changes',
    table(heads, rows, { class: 'stack' }),
    paragraph(
      ok
        ? 'With all of them the build works on paper.'
        : 'With all of them something is still in the way, see above.',
    ),
    ...byHand,
    paragraph('“tautline size --write” puts them into the rig file; comments stay.', 'small'),
  );
}
