/** What a program costs and contains, as plain text. */

import type { BoardId } from '../../firmware/boards/board.ts';
import { boardFacts } from '../../firmware/boards/boards.ts';
import { programCost } from '../../firmware/boards/cost.ts';
import type { BoardPlan } from '../../firmware/main/board-plan.ts';
import { FINGER_NAMES, type Rig } from '../../sim/rig/rig.ts';
import { textTable } from '../cli/text-table.ts';
import { settingsLine } from '../report/words.ts';
import { wrapWords } from '../report/wrap.ts';
import { fitOf, lineShare } from './fit.ts';
import type { BoardText } from './make-program.ts';

const COLUMNS = 80;

function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}

/** @returns text for the terminal and for report.txt, ending with a line end */
export function bundleReport(rig: Rig, plan: BoardPlan, program: BoardText): string {
  const lines: string[] = [];
  const say = (text: string) => lines.push(...wrapWords(text, COLUMNS));
  const own = rig.board;
  const facts = boardFacts(own);
  say(`${rig.name}: program for the ${facts.label}, ${plan.facts.rightHand ? 'right' : 'left'} hand`);
  lines.push('');
  say(`Chain: ${settingsLine(plan.settings)}; ${plan.frameRateHz} frames a second.`);
  say(
    `Program version ${plan.facts.programId}, settings id ${hexId(plan.facts.settingsId)}, ${program.text.length} bytes, ${program.variables} names.`,
  );
  lines.push('', ...pinTable(plan), '');
  say('Size');
  lines.push(
    ...textTable([['part', 'bytes'], ...program.routines.map((r) => [r.name, String(r.bytes)])], {
      columns: COLUMNS,
      right: [1],
      indent: 2,
    }),
    '',
  );
  say('Time for a frame, every finger moving');
  lines.push(
    ...textTable(
      [
        ['board', 'interpreter', 'analog reads', 'of the frame time'],
        ...fitOf(plan, own).map((fit) => [
          boardFacts(fit.board).label,
          `${fit.cpuMs.toFixed(1)} ms`,
          `${fit.adcMs.toFixed(1)} ms`,
          percent(fit.share),
        ]),
      ],
      { columns: COLUMNS, right: [1, 2, 3], indent: 2 },
    ),
    '',
  );
  const { instructions } = programCost(plan, own);
  say(
    `Times come from ${(instructions / 1e6).toFixed(2)} million instructions of the interpreter on a PC and are good to a factor of two. The frames take ${percent(lineShare(plan))} of the serial line.`,
  );
  return `${lines.join('\n')}\n`;
}

export function hexId(id: number): string {
  return id.toString(16).padStart(8, '0');
}

function pinTable(plan: BoardPlan): string[] {
  const rows = plan.fingers.map((f) => [
    f.channel < 0 ? String(f.pin) : `${f.pin}, input ${f.channel}`,
    FINGER_NAMES[f.slot]!,
    `open at ${f.ends.open.toFixed(3)}, closed at ${f.ends.closed.toFixed(3)} of full scale until calibrated`,
  ]);
  plan.selectPins.forEach((pin, line) => {
    rows.push([String(pin), `multiplexer line ${line}`, '']);
  });
  plan.axisPins.forEach((pin, axis) => {
    rows.push([String(pin), axis === 0 ? 'joystick x' : 'joystick y', '8 bits; the host finds its centre']);
  });
  plan.buttonPins.forEach((pin, i) => {
    rows.push([String(pin), `button ${i + 1}`, 'to ground']);
  });
  if (plan.rail)
    rows.push([
      String(plan.rail.pin),
      'supply',
      `${plan.rail.nominal.toFixed(3)} of full scale at ${plan.rail.supplyMv} mV`,
    ]);
  return textTable([['pin', 'what', ''], ...rows], { columns: COLUMNS, flexible: [2], indent: 2 });
}

/** What the same report says as data. */
export function bundleFacts(rig: Rig, plan: BoardPlan, program: BoardText): { [key: string]: unknown } {
  const own: BoardId = rig.board;
  return {
    rig: rig.name,
    board: own,
    hand: plan.facts.rightHand ? 'right' : 'left',
    frameRateHz: plan.frameRateHz,
    settings: plan.settings,
    settingsId: hexId(plan.facts.settingsId),
    bytes: program.text.length,
    names: program.variables,
    parts: program.routines,
    instructions: Math.round(programCost(plan, own).instructions),
    boards: fitOf(plan, own),
    lineShare: lineShare(plan),
  };
}
