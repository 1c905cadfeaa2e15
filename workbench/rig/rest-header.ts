import type { Problem } from '../../sim/errors.ts';
import { type Cell, splitCells, type TextLine } from './rest-lines.ts';
import { problemAt } from './yaml-source.ts';

export interface RestHeader {
  separator: string;
  /** Whether numbers have a comma for a point; so in files whose cells are separated by semicolons. */
  hasDecimalComma: boolean;
  /** Seconds for one step of the time column. */
  secondsPerUnit: number;
  channelNames: string[];
}

const SECONDS: Record<string, number> = { s: 1, ms: 1e-3, us: 1e-6, µs: 1e-6 };

const unquoted = (text: string) => text.replace(/^"(.*)"$/, '$1').trim();

/** Unit of a time column, from a name such as `time_ms`, `t_s` or `time (s)`; undefined when unclear. */
function secondsPerUnit(name: string): number | undefined {
  const match = /^(?:time|t)[ _]*[([]?(s|ms|us|µs)[)\]]?$/i.exec(name);
  return match ? SECONDS[match[1]!.toLowerCase()] : undefined;
}

function channelProblems(file: string, line: number, cells: Cell[]): Problem[] {
  const problems: Problem[] = [];
  const known = new Set<string>();
  for (const { text, column } of cells) {
    const name = unquoted(text);
    const place = { file, line, column };
    const expected = 'a name of its own for each channel';
    if (name === '')
      problems.push(problemAt(place, 'a channel without a name', expected, 'name it, such as "thumb"'));
    else if (known.has(name))
      problems.push(problemAt(place, `the name "${name}" again`, expected, 'rename one of them'));
    known.add(name);
  }
  return problems;
}

/** Reads the header line: the time column first, then one column a channel. */
export function readHeader(file: string, row: TextLine): { header: RestHeader; problems: Problem[] } {
  const separator = row.text.includes(';') ? ';' : row.text.includes('\t') ? '\t' : ',';
  const cells = splitCells(row.text, separator);
  const first = cells[0]!;
  const place = { file, line: row.line, column: first.column };
  const seconds = secondsPerUnit(unquoted(first.text));
  const problems = channelProblems(file, row.line, cells.slice(1));
  if (seconds === undefined) {
    const isNumber = first.text !== '' && !Number.isNaN(Number(first.text));
    problems.unshift(
      problemAt(
        place,
        isNumber
          ? `the number ${first.text} where the header should be`
          : `the first column "${unquoted(first.text)}"`,
        'a header whose first column is the time with its unit: time_s, time_ms or time_us',
        isNumber
          ? 'put a line such as "time_s,thumb,index" above the numbers'
          : 'rename it, such as "time_ms"',
      ),
    );
  }
  if (cells.length < 2) {
    problems.push(
      problemAt(
        place,
        'a time column alone',
        'at least one channel beside it, separated by commas',
        'add a column of counts for each channel',
      ),
    );
  }
  return {
    header: {
      separator,
      hasDecimalComma: separator === ';',
      secondsPerUnit: seconds ?? 1,
      channelNames: cells.slice(1).map((cell) => unquoted(cell.text)),
    },
    problems,
  };
}
