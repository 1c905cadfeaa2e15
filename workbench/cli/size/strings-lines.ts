import type { StringsSize } from '../../../sim/sizing/strings/strings-size.ts';
import {
  GUIDE_HEADS,
  guideNotes,
  guideRows,
  PRELOAD_HEADS,
  preloadRows,
  SPOOL_HEADS,
  SPRING_HEADS,
  spoolNotes,
  spoolRows,
  springNotes,
  springRows,
} from '../../report/size/strings-words.ts';
import { wrapWords } from '../../report/wrap.ts';
import { textTable } from '../text-table.ts';

/** String, spool, spring and guides for the terminal: three headings with their tables. */
export function stringsLines(size: StringsSize, columns: number): string[] {
  const lines: string[] = [];
  const say = (text: string) =>
    lines.push(...wrapWords(text, columns - 4).map((line, i) => `${i > 0 ? '    ' : '  '}${line}`));
  const show = (rows: string[][]) =>
    lines.push(...textTable(rows, { columns, right: rows[0]!.map((_, i) => i).slice(1), indent: 2 }));
  lines.push('String and spool');
  show([SPOOL_HEADS, ...spoolRows(size)]);
  spoolNotes(size).forEach(say);
  lines.push('', 'Spring');
  show([SPRING_HEADS, ...springRows(size)]);
  lines.push('  Preload, turns');
  show([PRELOAD_HEADS, ...preloadRows(size)]);
  springNotes(size).forEach(say);
  lines.push('', 'Guides and lost motion');
  show([GUIDE_HEADS, ...guideRows(size)]);
  guideNotes(size).forEach(say);
  return lines;
}
