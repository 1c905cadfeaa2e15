import type { PinPlan, PlannedPin } from '../../../sim/sizing/pins/pin-plan.ts';
import type { PinSize } from '../../../sim/sizing/pins/pins-size.ts';
import { pinName, type WiringRow } from '../../../sim/sizing/pins/wiring-table.ts';
import { wrapWords } from '../../report/wrap.ts';
import { textTable } from '../text-table.ts';

/** Pin plan, what is to be said against the pins, and the wiring in short, for the terminal. */
export function pinsLines(size: PinSize, columns: number): string[] {
  const lines = ['Pins'];
  const say = (text: string, indent = 2) => {
    const [first, ...rest] = wrapWords(text, columns - indent - 2);
    lines.push(' '.repeat(indent) + (first ?? ''), ...rest.map((line) => ' '.repeat(indent + 2) + line));
  };
  const { plan, problem } = size.proposal;
  if (plan) {
    lines.push(...planTable(plan, columns));
    if (plan.multiplexerReason !== undefined) {
      say(`With a multiplexer of the 74HC4051 type, since ${plan.multiplexerReason}.`);
    }
  } else say(`No plan: ${problem.seen}. Cure: ${problem.cure}.`);
  for (const { owner, seen, reason, cure, isError } of size.conflicts) {
    const why = reason === '' ? '' : `: ${reason}`;
    say(`${isError ? 'Wrong' : 'Mind'}: ${owner} is on ${seen}${why}. Cure: ${cure}.`);
  }
  for (const { what, frequencyHz, reason, cure } of size.pwm?.refused ?? []) {
    say(`No timer for ${what} at ${frequencyHz} Hz: ${reason}. Cure: ${cure}.`);
  }
  const [slot] = size.pwm?.slots ?? [];
  if (slot) {
    say(
      `Servo pulses of ${slot.frequencyHz} Hz in ${slot.bits} bits change in steps of ${slot.stepUs.toFixed(1)} µs.`,
    );
  }
  if (plan) {
    lines.push('', 'Wires', ...wireTable(size.wiring, columns));
    if (size.wanted.buttons > 0) say('Each button goes from its pin to GND; the pull-up is in the board.');
  }
  return lines;
}

/** What a pin does in the plan, by what the rig has there now. */
export function stateWords({ movedFrom }: PlannedPin): string {
  return movedFrom === undefined ? '' : `moves here from GPIO${movedFrom}`;
}

/** Name of a wire for people. */
export function wireWords({ key, role }: Pick<PlannedPin, 'key' | 'role'>): string {
  if (key === 'signal') return 'multiplexer, common line';
  if (role === 'select') return `multiplexer, ${key.replace('select ', 'S')}`;
  return key;
}

function planTable(plan: PinPlan, columns: number): string[] {
  const rows = plan.pins.map((wire) => [wireWords(wire), pinName(plan.board, wire.pin), stateWords(wire)]);
  for (const [name, channel] of Object.entries(plan.channels))
    rows.push([name, `Y${channel}`, 'on the multiplexer']);
  return textTable([['wire', 'pin', ''], ...rows], { columns, indent: 2, flexible: [2, 0] });
}

/** Wires with a part in them; plain ones are in the plan. */
function wireTable(wiring: readonly WiringRow[], columns: number): string[] {
  const rows = shortRows(wiring).map(({ from, through, to }) => [from, through, to]);
  return textTable([['from', 'through', 'to'], ...rows], { columns, indent: 2, flexible: [0, 2] });
}

/** The same parts at several fingers told once. */
function shortRows(wiring: readonly WiringRow[]): WiringRow[] {
  const told = new Map<string, { row: WiringRow; names: string[] }>();
  for (const row of wiring) {
    const isPlain = row.through === 'wire' && !row.from.startsWith('multiplexer') && row.to !== '3V3';
    if (row.gpio !== undefined || (isPlain && row.to !== 'GND') || row.from.startsWith('button')) continue;
    const found = /^(thumb|index|middle|ring|little) (.*)$/.exec(row.from);
    const key = JSON.stringify([found?.[2] ?? row.from, row.to, row.through]);
    const before = told.get(key);
    if (before) before.names.push(found?.[1] ?? '');
    else told.set(key, { row, names: found?.[1] === undefined ? [] : [found[1]] });
  }
  return [...told.values()].map(({ row, names }) => {
    if (names.length < 2) return row;
    const who = names.length === 5 ? 'each finger' : names.join(', ');
    return { ...row, from: `${who}: ${row.from.replace(/^\w+ /, '')}` };
  });
}
