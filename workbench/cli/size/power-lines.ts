import type { PowerSize } from '../../../sim/sizing/power/power-size.ts';
import { faradWords } from '../../../sim/sizing/value-words.ts';
import { wrapWords } from '../../report/wrap.ts';
import { textTable } from '../text-table.ts';

/** Current, cell and brakes, for the terminal. */
export function powerLines(size: PowerSize, columns: number): string[] {
  const lines = ['Power'];
  const say = (text: string) => lines.push(...wrapWords(text, columns - 2).map((line) => `  ${line}`));
  say(aboutCell(size));
  lines.push(
    ...textTable([['board', 'current', 'lasts', 'with a switching regulator'], ...modeRows(size)], {
      columns,
      right: [1, 2, 3],
      indent: 2,
    }),
  );
  for (const text of powerNotes(size)) say(text);
  for (const caution of size.cautions) say(`- ${caution}`);
  return lines;
}

/** What the times are told for. */
export function aboutCell({ cell }: PowerSize): string {
  const maxA = cell.maxA < 1 ? `${(1000 * cell.maxA).toFixed(0)} mA` : `${cell.maxA.toFixed(1)} A`;
  return cell.isStated
    ? `Cell of ${cell.capacityMAh} mAh, at most ${maxA}:`
    : `The rig names no cell; on one of ${cell.capacityMAh} mAh:`;
}

/** One row a mode, as cells. */
export function modeRows({ modes }: PowerSize): string[][] {
  return modes.map((mode) => [
    mode.label,
    milliampere(mode.loadMA),
    hours(mode.hours),
    `${milliampere(mode.buckMA)}, ${hours(mode.buckHours)}`,
  ]);
}

/** What goes with the table, a sentence or two each. */
export function powerNotes(size: PowerSize): string[] {
  const { brownOut, charge, brakes } = size;
  const extras = [
    size.railMA > 0 ? `, the rail’s divider ${milliampere(size.railMA)}` : '',
    size.joystickMA > 0 ? `, the joystick ${milliampere(size.joystickMA)}` : '',
  ].join('');
  const notes = [
    `Of this the potentiometers take ${milliampere(size.potentiometersMA)}${extras}, asleep as well, since they hang on the 3V3 pin: in deep sleep that is nearly all.`,
    `Starting radio: ${(1000 * brownOut.stepA).toFixed(0)} mA more at once, for which ${faradWords(brownOut.capacitorF)} or more belongs beside the board. A good regulator leaves ${brownOut.goodV.toFixed(2)} V, a poor one ${brownOut.poorV.toFixed(2)} V; below ${brownOut.detectorV} V the board restarts.`,
    `Charge with at most ${charge.most.toFixed(0)} mA, kinder ${charge.kinder.toFixed(0)} mA, to ${charge.chargeTo}, between ${charge.chargeBetween}. Stop at ${charge.cutOffV.toFixed(1)} V, never below ${charge.neverBelowV} V; store at ${charge.storeBetween}.`,
  ];
  if (brakes) {
    const verdict =
      brakes.lacks.length === 0
        ? ''
        : ` The plan is refused, since people get hurt: ${brakes.lacks.join(', ')}.`;
    notes.push(
      `Brakes: ${brakes.count === 1 ? 'one servo takes' : `${brakes.count} servos take`} ${brakes.stallA.toFixed(2)} A when held; ${faradWords(brakes.togetherF)} beside them if they start together, ${faradWords(brakes.staggeredF)} if one after the other.${verdict}`,
    );
  }
  return notes;
}

function milliampere(value: number): string {
  return `${value < 10 ? value.toFixed(2) : value.toFixed(0)} mA`;
}

function hours(value: number): string {
  return value < 100 ? `${value.toFixed(1)} h` : `${(value / 24).toFixed(0)} days`;
}
