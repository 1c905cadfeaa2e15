import { PROBLEM_CAP, type Problem, TautlineError } from '../../sim/errors.ts';
import { type CellFault, cellsOf, eventOf, frameOf } from './recorded-cells.ts';
import { createOrderWatch } from './recorded-order.ts';
import {
  COLUMN_LINE,
  COLUMNS,
  cellText,
  EVENT_MARK,
  FORMAT_LINE,
  type RecordedItem,
  type RecordingFacts,
} from './recording-format.ts';
import { createLineCutter, LONGEST_LINE, type StreamedLine } from './recording-lines.ts';

/** More damaged lines than this: the file is no recording to work with. */
export const MOST_BAD_LINES = PROBLEM_CAP;
/** Lines above the first row of numbers. */
const MOST_HEADER_LINES = 200;
const LEAVE_OUT = 'nothing: the line is left out';

/** Reads a recording that comes in pieces; keeps a line and the first warnings, nothing else. */
export interface RecordingParser {
  /** @throws TautlineError `recording/...` where the file is none that can be read */
  push(text: string): RecordedItem[];
  /** @throws as push */
  end(): RecordedItem[];
  /** Known once the line of column names was read. */
  facts(): RecordingFacts | undefined;
  /** What was repaired or left out: the first {@link PROBLEM_CAP}, each at its line and column. */
  warnings(): Problem[];
  /** Warnings beyond those. */
  moreWarnings(): number;
}

/** @param file name for messages */
export function createRecordingParser(file: string): RecordingParser {
  const cutter = createLineCutter();
  const order = createOrderWatch();
  const header = new Map<string, string>();
  let facts: RecordingFacts | undefined;
  const warnings: Problem[] = [];
  const bad: Problem[] = [];
  let more = 0;
  let isMixedTold = false;

  const problem = (line: number, column: number, seen: string, expected: string, next: string): Problem => ({
    file,
    line,
    column,
    seen,
    expected,
    next,
  });

  function warn(one: Problem): void {
    if (warnings.length < PROBLEM_CAP) warnings.push(one);
    else more++;
  }

  function leaveOut(one: Problem): void {
    bad.push(one);
    warn(one);
    if (bad.length > MOST_BAD_LINES) throw TautlineError.fromProblems('recording/invalid', bad);
  }

  function refuse(cause: string, line: number, seen: string, expected: string, next: string): TautlineError {
    return TautlineError.fromProblems(`recording/${cause}`, [problem(line, 1, seen, expected, next)]);
  }

  function firstLine({ text, line }: StreamedLine): void {
    const plain = text.replace(/[,\s]+$/, '');
    if (plain === FORMAT_LINE) return;
    const version = /^# tautline recording (\d{1,9})$/.exec(plain);
    if (version) {
      const next = 'update tautline, or record again';
      throw refuse('version', line, `a recording of format ${version[1]}`, 'format 1', next);
    }
    const start = plain.includes('\0') ? 'bytes that are no text' : `"${plain.slice(0, 40)}"`;
    throw refuse(
      'foreign',
      line,
      start,
      `"${FORMAT_LINE}" as the first line`,
      'name a file that "tautline record" made; a recording of the pins at rest belongs to --rest',
    );
  }

  function headerLine({ text, line }: StreamedLine): void {
    if (text.trim() === '') return;
    if (text.startsWith('#')) {
      const [key, value] = cellsOf(text);
      header.set(key!.text.replace(/^#\s*/, ''), cellText(value?.text ?? ''));
      if (line > MOST_HEADER_LINES)
        throw refuse(
          'foreign',
          line,
          'a header without end',
          `the line "${COLUMN_LINE.slice(0, 24)}..."`,
          'record again',
        );
      return;
    }
    if (text.trim() !== COLUMN_LINE) {
      const isResaved = text.includes(';') || text.includes('\t');
      throw refuse(
        isResaved ? 'resaved' : 'foreign',
        line,
        `the columns "${text.slice(0, 40)}"`,
        `the columns ${COLUMN_LINE}`,
        isResaved
          ? 'use the file as it was recorded: a spreadsheet has saved this one with other separators'
          : 'use the file as it was recorded',
      );
    }
    facts = factsOf(header);
  }

  function bodyLine({ text, line }: StreamedLine): RecordedItem | undefined {
    if (text.trim() === '') return undefined;
    if (text.length > LONGEST_LINE) {
      leaveOut(problem(line, 1, 'a line without end', 'a line of a recording', LEAVE_OUT));
      return undefined;
    }
    const nul = text.indexOf('\0');
    if (nul >= 0) {
      leaveOut(problem(line, nul + 1, 'a character that is no text (U+0000)', 'a line of text', LEAVE_OUT));
      return undefined;
    }
    if (text.startsWith(FORMAT_LINE)) {
      throw refuse(
        'second',
        line,
        'the start of a second recording',
        'one recording in a file',
        `put the lines from here on into a file of their own`,
      );
    }
    const isEvent = text.startsWith(EVENT_MARK);
    if (text.startsWith('#') && !isEvent) return undefined;
    const cells = cellsOf(text);
    const wanted = isEvent ? 5 : COLUMNS.length;
    if (cells.length !== wanted) {
      const { column } = cells[Math.min(cells.length, wanted + 1) - 1]!;
      leaveOut(problem(line, column, `${cells.length} cells`, `${wanted} cells`, LEAVE_OUT));
      return undefined;
    }
    const faults: CellFault[] = [];
    const item: RecordedItem = isEvent
      ? {
          event: {
            ...eventOf(cells, faults),
            seen: cellText(cells[3]!.text),
            next: cellText(cells[4]!.text),
          },
        }
      : { frame: frameOf(cells, faults) };
    if (faults.length > 0) {
      const { cell, expected } = faults[0]!;
      const seen = cell.text === '' ? 'an empty cell' : `"${cell.text.slice(0, 40)}"`;
      leaveOut(problem(line, cell.column, seen, expected, LEAVE_OUT));
      return undefined;
    }
    const wrong = order.see(item);
    if (!wrong) return item;
    const expected = 'lines in the order in which they were recorded';
    if (wrong.isLeftOut) {
      leaveOut(problem(line, 1, wrong.seen, expected, LEAVE_OUT));
      return undefined;
    }
    warn(problem(line, 1, wrong.seen, expected, 'nothing: it is replayed as it stands'));
    return item;
  }

  function take(lines: StreamedLine[]): RecordedItem[] {
    const items: RecordedItem[] = [];
    for (const one of lines) {
      let { text } = one;
      if (one.line === 1 && text.startsWith('\ufeff')) {
        text = text.slice(1);
        warn(
          problem(
            1,
            1,
            'a byte order mark',
            'none',
            'nothing: it is passed over; an editor may have saved the file',
          ),
        );
      }
      if (one.line === 1) firstLine({ ...one, text });
      else if (!facts) headerLine(one);
      else {
        const item = bodyLine(one);
        if (item) items.push(item);
      }
    }
    const mixedAt = cutter.mixedAt();
    if (!isMixedTold && mixedAt !== undefined) {
      isMixedTold = true;
      warn(
        problem(mixedAt, 1, 'line ends of more than one kind', 'LF', 'nothing: all of them are understood'),
      );
    }
    return items;
  }

  return {
    push: (text) => take(cutter.push(text)),
    end() {
      const [last] = cutter.end();
      if (last && (last.line === 1 || !facts)) take([last]);
      else if (last) {
        const isZeros = last.text.endsWith('\0');
        const seen = isZeros
          ? 'zeros at the end, as a power cut leaves them'
          : 'a last line that was cut off';
        warn(problem(last.line, 1, seen, 'a line end after the last line', LEAVE_OUT));
      }
      if (!facts) {
        throw refuse(
          'foreign',
          last?.line ?? 1,
          last ? 'the end of the file' : 'a file without rows',
          `the line "${COLUMN_LINE.slice(0, 24)}..." and rows`,
          'record again: this recording was cut before its first frame',
        );
      }
      return [];
    },
    facts: () => facts,
    warnings: () => warnings,
    moreWarnings: () => more,
  };
}

function factsOf(header: Map<string, string>): RecordingFacts {
  const number = (key: string): number | undefined => {
    const text = header.get(key) ?? '';
    return /^\d{1,10}(\.\d+)?(e-\d{1,2})?$/.test(text) ? Number(text) : undefined;
  };
  const framePeriodS = number('frame period s') ?? 0;
  return {
    rigName: header.get('rig') ?? '',
    rigFile: header.get('rig file') ?? '',
    settingsId: number('settings id'),
    programId: number('program id'),
    framePeriodS: framePeriodS > 0 && framePeriodS <= 10 ? framePeriodS : 0.01,
    started: header.get('started') ?? '',
    version: header.get('tautline') ?? '',
    isSimulated: header.get('source') === 'simulator',
  };
}
