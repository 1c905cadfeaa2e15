import type { LiveFrame, SessionEvent } from './session-types.ts';

/** One cell of a line with the column (from 1) at which it starts. */
export interface RecordedCell {
  text: string;
  column: number;
}

/** Cells of a line of comma-separated values; quotes round a cell are taken off, doubled ones inside made single. */
export function cellsOf(text: string): RecordedCell[] {
  const cells: RecordedCell[] = [];
  for (const match of text.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"(?=,|$)|([^,]*))/g)) {
    const isFirst = match.index === 0 && !match[0].startsWith(',');
    cells.push({
      text: match[1] !== undefined ? match[1].replaceAll('""', '"') : (match[2] ?? '').trim(),
      column: match.index + (isFirst ? 1 : 2),
    });
  }
  return cells;
}

/** What is wrong with a cell. */
export interface CellFault {
  cell: RecordedCell;
  expected: string;
}

/** Time steps of the board's clock in a second. */
const STEPS = 4000;
const KINDS: readonly string[] = ['hand', 'raw', 'health', 'reply'] satisfies LiveFrame['kind'][];
const EVENTS: readonly string[] = [
  'state',
  'port-busy',
  'port-refused',
  'port-gone',
  'port-back',
  'board-started',
  'brown-out',
  'board-text',
  'wrong-baud',
  'wrong-program',
  'bursts',
  'no-reply',
] satisfies SessionEvent['kind'][];

function seconds(cell: RecordedCell, faults: CellFault[]): number {
  if (/^-?\d{1,9}(\.\d{1,9})?$/.test(cell.text)) return Number(cell.text);
  faults.push({ cell, expected: 'a time in s' });
  return Number.NaN;
}

function whole(cell: RecordedCell, least: number, most: number, faults: CellFault[]): number {
  const value = /^-?\d{1,9}$/.test(cell.text) ? Number(cell.text) : Number.NaN;
  if (value >= least && value <= most) return value;
  faults.push({ cell, expected: `a whole number from ${least} to ${most}` });
  return Number.NaN;
}

/** A frame from the 15 cells of its line; what is wrong is put to the faults. */
export function frameOf(cells: RecordedCell[], faults: CellFault[]): LiveFrame {
  const steps = seconds(cells[0]!, faults) * STEPS;
  if (Math.abs(steps - Math.round(steps)) > 0.01)
    faults.push({ cell: cells[0]!, expected: 'a whole number of 250 us' });
  const [kind, side] = [cells[2]!, cells[3]!];
  if (!KINDS.includes(kind.text)) faults.push({ cell: kind, expected: KINDS.join(', ') });
  if (side.text !== 'left' && side.text !== 'right') faults.push({ cell: side, expected: 'left or right' });
  return {
    deviceS: Math.round(steps) / STEPS,
    hostS: seconds(cells[1]!, faults),
    kind: kind.text as LiveFrame['kind'],
    side: side.text as LiveFrame['side'],
    sequence: whole(cells[4]!, 0, 255, faults),
    step: whole(cells[5]!, -99_999_999, 99_999_999, faults),
    values: cells.slice(6, 11).map((cell) => whole(cell, 0, 65_535, faults)),
    joystick: [whole(cells[11]!, 0, 255, faults), whole(cells[12]!, 0, 255, faults)],
    buttons: whole(cells[13]!, 0, 15, faults),
    status: whole(cells[14]!, 0, 255, faults),
  };
}

/** An event from the five cells of its line, still without its texts. */
export function eventOf(cells: RecordedCell[], faults: CellFault[]): Omit<SessionEvent, 'seen' | 'next'> {
  const kind = cells[2]!;
  if (!EVENTS.includes(kind.text)) faults.push({ cell: kind, expected: `one of ${EVENTS.join(', ')}` });
  return { hostS: seconds(cells[1]!, faults), kind: kind.text as SessionEvent['kind'] };
}
