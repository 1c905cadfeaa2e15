import { buildCalibration } from '../../firmware/chain/calibration-curve.ts';
import { type Problem, TautlineError } from '../../sim/errors.ts';
import { FINGER_NAMES, type FingerName } from '../../sim/rig/rig.ts';
import { PROFILE_FORMAT, PROFILE_VERSION, type Profile, type ProfileFinger } from './profile.ts';

const MAKE = 'capture the ends once more: the workbench writes a whole profile';
/** Longer files are no profiles. */
const MOST_CHARS = 100_000;
const MOST_POINTS = 9;

type Row = Record<string, unknown>;

/**
 * Reads a profile. Nothing in it is trusted.
 * @param file name for messages
 * @throws TautlineError `profile/unreadable` with all that is wrong
 */
export function readProfile(text: string, file: string): Profile {
  const problems: Problem[] = [];
  const say = (seen: string, expected: string, next = MAKE) =>
    void problems.push({ file, line: 0, column: 0, seen, expected, next });
  const row = parse(text, say);
  if (row && row.format !== PROFILE_FORMAT) {
    say(
      `"format" is ${shown(row.format)}`,
      `"${PROFILE_FORMAT}"`,
      'name a file that the workbench has written',
    );
  } else if (row && row.formatVersion !== PROFILE_VERSION) {
    say(
      `"formatVersion" is ${shown(row.formatVersion)}`,
      `${PROFILE_VERSION}`,
      'use the tautline that wrote it',
    );
  } else if (row) {
    const profile = take(row, say);
    if (problems.length === 0) return profile;
  }
  throw TautlineError.fromProblems('profile/unreadable', problems);
}

type Say = (seen: string, expected: string, next?: string) => void;

function parse(text: string, say: Say): Row | undefined {
  if (text.length > MOST_CHARS) {
    say(`${text.length} characters`, `at most ${MOST_CHARS}`, 'name a file that the workbench has written');
    return undefined;
  }
  try {
    const value: unknown = JSON.parse(text);
    if (isRow(value)) return value;
    say(shown(value), 'a JSON object');
  } catch (error) {
    say(error instanceof Error ? error.message : 'no JSON', 'a JSON object');
  }
  return undefined;
}

function take(row: Row, say: Say): Profile {
  const words = (key: string) => {
    const value = row[key];
    if (typeof value === 'string' && value.trim() !== '' && value.length <= 200) return value;
    say(`"${key}" is ${shown(value)}`, 'a text of 1 to 200 characters');
    return '';
  };
  const whole = (key: string, most: number) => {
    const value = row[key];
    if (Number.isInteger(value) && (value as number) >= 0 && (value as number) <= most)
      return value as number;
    say(`"${key}" is ${shown(value)}`, `a whole number from 0 to ${most}`);
    return 0;
  };
  if (row.side !== 'left' && row.side !== 'right') say(`"side" is ${shown(row.side)}`, '"left" or "right"');
  const when = words('when');
  if (when !== '' && Number.isNaN(Date.parse(when))) say(`"when" is "${when}"`, 'a date and time, ISO 8601');
  const rows = Array.isArray(row.fingers) ? row.fingers : [];
  if (rows.length < 1 || rows.length > FINGER_NAMES.length) {
    say(`"fingers" has ${rows.length} entries`, '1 to 5 fingers');
  }
  const fingers = rows.slice(0, FINGER_NAMES.length).map((entry) => finger(entry, say));
  const names = fingers.map(({ name }) => name);
  if (new Set(names).size < names.length) say(`fingers ${names.join(', ')}`, 'each finger once');
  return {
    format: PROFILE_FORMAT,
    formatVersion: PROFILE_VERSION,
    wearer: words('wearer'),
    rig: words('rig'),
    side: row.side === 'left' ? 'left' : 'right',
    settingsId: whole('settingsId', 2 ** 32 - 1),
    programId: row.programId === null ? null : whole('programId', 255),
    when,
    tautline: words('tautline'),
    protocol: whole('protocol', 255),
    fingers,
  };
}

function finger(entry: unknown, say: Say): ProfileFinger {
  const row = isRow(entry) ? entry : {};
  const name = FINGER_NAMES.find((one) => one === row.name);
  if (name === undefined) say(`a finger named ${shown(row.name)}`, FINGER_NAMES.join(', '));
  const made: ProfileFinger = { name: name ?? ('thumb' as FingerName), open: 0, closed: 1, points: [] };
  for (const pose of ['open', 'closed'] as const) {
    const value = row[pose];
    if (isReading(value)) made[pose] = value;
    else say(`"${pose}" of ${shown(row.name)} is ${shown(value)}`, 'a reading from 0 to 1');
  }
  const points = Array.isArray(row.points) ? row.points.slice(0, MOST_POINTS + 1) : [];
  if (points.length < 2 || points.length > MOST_POINTS) {
    say(`${points.length} points of ${shown(row.name)}`, `2 to ${MOST_POINTS}`);
    return made;
  }
  for (const point of points) {
    if (isRow(point) && isReading(point.x) && typeof point.closure === 'number') {
      made.points.push({ x: point.x, closure: point.closure });
    } else
      say(`a point of ${shown(row.name)} is ${shown(point)}`, 'a reading "x" and a "closure", both 0 to 1');
  }
  if (made.points.length < points.length) return made;
  try {
    buildCalibration(made.points, {});
  } catch (error) {
    say(`points of ${shown(row.name)}: ${error instanceof Error ? error.message : ''}`, 'points in order');
  }
  const [first, last] = [made.points[0]!.x, made.points[made.points.length - 1]!.x];
  if (first !== made.open || last !== made.closed) {
    say(
      `points of ${shown(row.name)} run from ${first} to ${last}`,
      `from "open" to "closed", ${made.open} to ${made.closed}`,
    );
  }
  return made;
}

function isRow(value: unknown): value is Row {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function isReading(value: unknown): value is number {
  return typeof value === 'number' && value >= 0 && value <= 1;
}

/** A value in a message: short, whatever it is. */
function shown(value: unknown): string {
  const text = JSON.stringify(value) ?? 'missing';
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}
