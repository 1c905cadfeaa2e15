import { PROBLEM_CAP, type Problem, TautlineError } from '../../sim/errors.ts';
import type { RestRecording } from '../../sim/rig/rig.ts';
import { decodeText, type FileKind, readUserFile } from './read-text-file.ts';
import { type RestHeader, readHeader } from './rest-header.ts';
import { type Cell, splitCells, type TextLine, textLines } from './rest-lines.ts';
import { problemAt } from './yaml-source.ts';

export const REST_FILE: FileKind = {
  area: 'rest',
  noun: 'a recording at rest',
  maxBytes: 200_000_000,
  ifMissing: 'check the path; in a rig file it is taken from the folder of the rig file',
};

/** Fewer rows say too little about noise: the standard deviation of 50 is known to 10 % only. */
export const MIN_REST_ROWS = 50;
/** A gap this many times the usual step is worth a warning. */
const GAP_FACTOR = 3;
const MAX_COUNTS = 4095;
const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;

export interface RestFile {
  recording: RestRecording;
  warnings: Problem[];
}

/** Rows read so far, and what was wrong with the others. */
class RestRows {
  readonly problems: Problem[] = [];
  readonly timesS: number[] = [];
  readonly counts: number[][];
  /** Line of each row in the file. */
  readonly lines: number[] = [];

  constructor(
    readonly file: string,
    readonly header: RestHeader,
  ) {
    this.counts = header.channelNames.map(() => []);
  }

  private complain(line: number, column: number, seen: string, expected: string, next: string): void {
    this.problems.push(problemAt({ file: this.file, line, column }, seen, expected, next));
  }

  private number(cell: Cell, line: number, expected: string): number | undefined {
    const text = this.header.hasDecimalComma ? cell.text.replace(',', '.') : cell.text;
    if (NUMBER.test(text)) return Number(text);
    const seen = cell.text === '' ? 'an empty cell' : `"${cell.text.slice(0, 40)}"`;
    this.complain(line, cell.column, seen, expected, 'remove the row, or record again');
    return undefined;
  }

  private readTime(cell: Cell, line: number): number | undefined {
    const raw = this.number(cell, line, 'a time');
    if (raw === undefined) return undefined;
    const timeS = raw * this.header.secondsPerUnit;
    const before = this.timesS[this.timesS.length - 1];
    if (before === undefined || timeS > before) return timeS;
    this.complain(
      line,
      cell.column,
      `the time ${cell.text}, not after that of line ${this.lines[this.lines.length - 1]}`,
      'times that grow from row to row',
      'check that the file holds one recording, in order',
    );
    return undefined;
  }

  private readCounts(cell: Cell, line: number): number | undefined {
    const value = this.number(cell, line, `counts of 0 to ${MAX_COUNTS}`);
    if (value === undefined || (value >= 0 && value <= MAX_COUNTS)) return value;
    const next =
      value > MAX_COUNTS ? 'record 12-bit readings' : 'record raw readings, without any offset taken off';
    this.complain(line, cell.column, `${cell.text} counts`, `counts of 0 to ${MAX_COUNTS}`, next);
    return undefined;
  }

  /** Adds a row, or notes all that is wrong with it. */
  add(row: TextLine, cells: Cell[]): void {
    const wanted = this.counts.length + 1;
    if (cells.length !== wanted) {
      const comma = this.header.separator === ',' && cells.length > wanted;
      this.complain(
        row.line,
        cells[Math.min(cells.length, wanted + 1) - 1]!.column,
        `${cells.length} cells`,
        `${wanted} cells, as in the header`,
        comma
          ? 'if the numbers have decimal commas, separate the cells by semicolons'
          : 'remove the row, or record again',
      );
      return;
    }
    const timeS = this.readTime(cells[0]!, row.line);
    const counts = cells.slice(1).map((cell) => this.readCounts(cell, row.line));
    if (timeS === undefined || counts.includes(undefined)) return;
    this.lines.push(row.line);
    this.timesS.push(timeS);
    for (let channel = 0; channel < counts.length; channel++) this.counts[channel]!.push(counts[channel]!);
  }
}

function gapWarning(rows: RestRows, periodS: number): Problem | undefined {
  const { timesS, file } = rows;
  let row = 0;
  for (let i = 1; i < timesS.length && row === 0; i++)
    if (timesS[i]! - timesS[i - 1]! > GAP_FACTOR * periodS) row = i;
  if (row === 0) return undefined;
  const gapS = timesS[row]! - timesS[row - 1]!;
  return problemAt(
    { file, line: rows.lines[row]!, column: 1 },
    `a gap of ${gapS.toPrecision(3)} s after ${timesS[row - 1]!.toPrecision(4)} s, where a row usually takes ${periodS.toPrecision(3)} s`,
    'rows at one rate',
    'record again without pauses if you can: slow noise is judged by the rate',
  );
}

function finish(rows: RestRows, headerLine: number, warnings: Problem[]): RestFile {
  const { file, header, timesS, problems } = rows;
  const fail = (list: Problem[]) => TautlineError.fromProblems('rest/invalid', list);
  if (problems.length > 0) throw fail(problems);
  if (timesS.length < MIN_REST_ROWS) {
    const seen = timesS.length === 0 ? 'a header without rows' : `${timesS.length} rows`;
    const next = 'record for a few seconds with the hand at rest';
    throw fail([
      problemAt({ file, line: headerLine, column: 1 }, seen, `at least ${MIN_REST_ROWS} rows`, next),
    ]);
  }
  const periodS = (timesS[timesS.length - 1]! - timesS[0]!) / (timesS.length - 1);
  const gap = gapWarning(rows, periodS);
  if (gap) warnings.push(gap);
  const counts = rows.counts.map((channel) => Float64Array.from(channel));
  return { recording: { file, periodS, counts, channelNames: header.channelNames }, warnings };
}

/**
 * Reads a recording of all channels at rest from CSV text: a header line, then one row a reading. The first
 * column is the time, its unit in its name (`time_s`, `time_ms`, `time_us`); every other column is a channel in
 * counts of a 12-bit reading. Lines that start with # and blank lines are passed over. Cells are separated by
 * commas, tabs, or semicolons (then numbers may have decimal commas). A last line that was cut off is left out
 * with a warning.
 * @throws TautlineError `rest/invalid` with every problem at its line and column
 */
export function parseRest(text: string, fileName: string): RestFile {
  const clean = text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
  const fail = (problems: Problem[]) => TautlineError.fromProblems('rest/invalid', problems);
  const nul = clean.indexOf('\u0000');
  if (nul >= 0) {
    const before = clean.slice(0, nul).split('\n');
    const place = { file: fileName, line: before.length, column: before[before.length - 1]!.length + 1 };
    throw fail([
      problemAt(
        place,
        'a character that is no text (U+0000)',
        'a CSV file',
        'check that this is the recording',
      ),
    ]);
  }
  const warnings: Problem[] = [];
  let rows: RestRows | undefined;
  let headerLine = 0;
  for (const row of textLines(clean)) {
    if (row.text.trim() === '' || row.text.startsWith('#')) continue;
    if (rows === undefined) {
      const { header, problems } = readHeader(fileName, row);
      if (problems.length > 0) throw fail(problems);
      rows = new RestRows(fileName, header);
      headerLine = row.line;
      continue;
    }
    const cells = splitCells(row.text, rows.header.separator);
    const isWhole = cells.length === rows.counts.length + 1 && cells[cells.length - 1]!.text !== '';
    if (!row.isEnded && !isWhole && cells.length <= rows.counts.length + 1) {
      warnings.push(
        problemAt(
          { file: fileName, line: row.line, column: 1 },
          'a last line that was cut off',
          'a line end after the last row',
          'nothing: the line is left out',
        ),
      );
      continue;
    }
    rows.add(row, cells);
    // A file of another kind would be wrong in every line.
    if (rows.problems.length > 10 * PROBLEM_CAP) break;
  }
  if (rows === undefined) {
    const place = { file: fileName, line: 1, column: 1 };
    throw fail([
      problemAt(place, 'an empty file', 'a header and rows of counts', 'record the hand at rest first'),
    ]);
  }
  return finish(rows, headerLine, warnings);
}

/**
 * Reads a recording at rest from a file.
 * @throws TautlineError as {@link parseRest}, and `rest/not-found`, `rest/directory`, `rest/too-large`,
 *   `rest/binary`, `rest/unreadable` for the file as a whole
 */
export function readRest(path: string): RestFile {
  return parseRest(decodeText(readUserFile(path, REST_FILE), path, REST_FILE), path);
}
