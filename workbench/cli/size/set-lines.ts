import type { SetSize } from '../../../sim/sizing/unit/set-size.ts';
import { CAUTIONS } from '../../printables/print-hints.ts';
import {
  ALTERNATIVE_HEADS,
  alternativeNotes,
  alternativeRows,
  printSentence,
  setSentences,
} from '../../report/size/set-words.ts';
import { wrapWords } from '../../report/wrap.ts';
import { textTable } from '../text-table.ts';

/** The printed set for the terminal. */
export function setLines(size: SetSize, columns: number): string[] {
  const lines = ['Printed parts'];
  const say = (text: string) =>
    lines.push(...wrapWords(text, columns - 4).map((line, i) => `${i > 0 ? '    ' : '  '}${line}`));
  setSentences(size).forEach(say);
  const rows = [ALTERNATIVE_HEADS, ...alternativeRows(size)];
  lines.push(...textTable(rows, { columns, right: [1, 2, 3, 4, 5, 6], flexible: [0], indent: 2 }));
  alternativeNotes(size).forEach(say);
  say(printSentence(size));
  CAUTIONS.forEach(say);
  return lines;
}
