import type { LiveFrame, SessionEvent } from './session-types.ts';

/**
 * The text of a recording: CSV whose first lines are comments. Every line is written whole, so that a file that was
 * cut anywhere is readable up to there.
 */

/** First line of every recording. */
export const FORMAT_LINE = '# tautline recording 1';
/** Start of a line that tells an event: host time, kind, what was seen, what to do. */
export const EVENT_MARK = '#event';

export const COLUMNS = [
  'device_s',
  'host_s',
  'kind',
  'side',
  'sequence',
  'step',
  'value_0',
  'value_1',
  'value_2',
  'value_3',
  'value_4',
  'joystick_x',
  'joystick_y',
  'buttons',
  'status',
] as const;
export const COLUMN_LINE = COLUMNS.join(',');

const UNITS =
  'device_s is the board’s clock and host_s the host’s, both in s; values, joystick, buttons and status are those of protocol/SPEC.md, 65535 means not measured; a step of 1 means the next frame, of n that 1 less were lost before it, of 0 the same again, of less that it came late';

/** Who made a recording, and of what. */
export interface RecordingFacts {
  rigName: string;
  /** Path of the rig file as the user gave it. */
  rigFile: string;
  /** Ids of the build and of the program that the rig file makes; undefined where they are not known. */
  settingsId: number | undefined;
  programId: number | undefined;
  framePeriodS: number;
  /** Date and time of day at which host time was `hostS` of the first line; ISO 8601. */
  started: string;
  /** Version of tautline. */
  version: string;
  /** The board was simulated: nothing was measured. */
  isSimulated: boolean;
}

/** Frames and events in the order in which they came. */
export type RecordedItem = { frame: LiveFrame } | { event: SessionEvent };

/** Signs with which spreadsheets begin a formula, where a cell may begin: at whatever they take for a separator. */
const FORMULA = /(^|[,;|:\t"'\s])[=+\-@]/g;
const unicode = (sign: string) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`;

/**
 * Any text as one quoted cell on one line. What a spreadsheet would take for a formula or another cell's start, and
 * all that is no printable sign, is written as \uXXXX.
 */
export function textCell(text: string): string {
  const plain = text
    .replaceAll('\\', '\\\\')
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what must not get into the file
    .replace(/[\u0000-\u001f\u007f-\u009f"\u2028\u2029\ufeff]|[\ud800-\udfff]/gu, unicode);
  return `"${plain.replace(FORMULA, (found) => found.slice(0, -1) + unicode(found.slice(-1)))}"`;
}

/** The text that {@link textCell} wrote. */
export function cellText(cell: string): string {
  return cell.replace(/\\(?:\\|u([0-9a-f]{4}))/g, (_, code?: string) =>
    code === undefined ? '\\' : String.fromCharCode(Number.parseInt(code, 16)),
  );
}

/** All lines above the first frame, with their ends. */
export function headerText(facts: RecordingFacts): string {
  const id = (value: number | undefined) => (value === undefined ? '' : String(value));
  const lines = [
    FORMAT_LINE,
    `# tautline,${textCell(facts.version)}`,
    `# rig,${textCell(facts.rigName)}`,
    `# rig file,${textCell(facts.rigFile)}`,
    `# settings id,${id(facts.settingsId)}`,
    `# program id,${id(facts.programId)}`,
    `# frame period s,${facts.framePeriodS}`,
    `# started,${textCell(facts.started)}`,
    `# source,${facts.isSimulated ? 'simulator' : 'board'}`,
    `# units,${textCell(UNITS)}`,
    COLUMN_LINE,
  ];
  return `${lines.join('\n')}\n`;
}

/** One frame. The board's time is a whole number of 250 us: five digits write it exactly. */
export function frameLine(frame: LiveFrame): string {
  const { deviceS, hostS, kind, side, sequence, step, values, joystick, buttons, status } = frame;
  return `${deviceS.toFixed(5)},${hostS.toFixed(6)},${kind},${side},${sequence},${step},${values.join(',')},${joystick[0]},${joystick[1]},${buttons},${status}\n`;
}

export function eventLine(event: SessionEvent): string {
  return `${EVENT_MARK},${event.hostS.toFixed(6)},${event.kind},${textCell(event.seen)},${textCell(event.next)}\n`;
}
