/** One line of a file, without its end. */
export interface TextLine {
  text: string;
  /** Counted from 1. */
  line: number;
  /** Whether a line end follows; the last line of a cut-off file lacks it. */
  isEnded: boolean;
}

/** Lines of a text; LF or CRLF. Holds one line at a time. */
export function* textLines(text: string): Generator<TextLine> {
  let start = 0;
  let line = 0;
  while (start < text.length) {
    const found = text.indexOf('\n', start);
    const end = found < 0 ? text.length : found;
    line += 1;
    yield { text: text.slice(start, text[end - 1] === '\r' ? end - 1 : end), line, isEnded: found >= 0 };
    start = end + 1;
  }
}

/** One cell of a row and the column (from 1) where its text starts. */
export interface Cell {
  text: string;
  column: number;
}

/** Cells of a row, spaces round them left out. Quoted cells with separators inside are not provided for. */
export function splitCells(text: string, separator: string): Cell[] {
  const cells: Cell[] = [];
  let offset = 0;
  for (const raw of text.split(separator)) {
    const trimmed = raw.trim();
    cells.push({ text: trimmed, column: offset + (trimmed === '' ? 0 : raw.indexOf(trimmed)) + 1 });
    offset += raw.length + separator.length;
  }
  return cells;
}
