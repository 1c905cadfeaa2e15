import { columnsOf, wrapWords } from '../report/wrap.ts';

/** Columns that give way keep at least this. */
const LEAST_WIDTH = 8;

/**
 * Plain columns, two spaces apart, for the terminal. Columns are as wide as their widest cell; if the whole is
 * wider than `columns`, the columns listed in `flexible` give way one after the other and their cells wrap.
 * @param rows texts without colour codes; the first row is the heading
 * @param right indices of columns that are set flush right
 * @returns lines without trailing spaces
 */
export function textTable(
  rows: string[][],
  options: { columns: number; right?: number[]; flexible?: number[]; indent?: number },
): string[] {
  const indent = ' '.repeat(options.indent ?? 0);
  const flexible = options.flexible ?? [0];
  const widths = rows[0].map((_, index) => Math.max(...rows.map((row) => columnsOf(row[index]))));
  let excess = indent.length + widths.reduce((sum, width) => sum + width + 2, -2) - options.columns;
  for (const index of flexible) {
    if (excess <= 0) break;
    const narrowed = Math.max(LEAST_WIDTH, widths[index] - excess);
    excess -= Math.max(0, widths[index] - narrowed);
    widths[index] = Math.min(widths[index], narrowed);
  }
  const lines: string[] = [];
  for (const row of rows) {
    const cells = row.map((cell, index) =>
      flexible.includes(index) ? wrapWords(cell, widths[index]) : [cell],
    );
    const height = Math.max(...cells.map((cell) => cell.length));
    for (let part = 0; part < height; part++) {
      const texts = cells.map((cell, index) =>
        padTo(cell[part] ?? '', widths[index], options.right?.includes(index) ?? false),
      );
      lines.push((indent + texts.join('  ')).trimEnd());
    }
  }
  return lines;
}

function padTo(text: string, width: number, right: boolean): string {
  const padding = ' '.repeat(Math.max(0, width - columnsOf(text)));
  return right ? padding + text : text + padding;
}
