/** What a program costs and contains, as plain text. */

import type { BoardId } from '../../firmware/boards/board.ts';
import { boardFacts } from '../../firmware/boards/boards.ts';
import { programCost } from '../../firmware/boards/cost.ts';
import type { BoardPlan, FingerPlan } from '../../firmware/main/board-plan.ts';
import { FINGER_NAMES, type Rig } from '../../sim/rig/rig.ts';
import { textTable } from '../cli/text-table.ts';
import { settingsLine } from '../report/words.ts';
import { wrapWords } from '../report/wrap.ts';
import { CONSOLE_BAUD, fitOf, lineShare } from './fit.ts';
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
  lines.push('', ...pinTable(rig, plan), '');
  for (const feature of features(plan)) say(feature);
  lines.push('');
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

/** Whether a finger hangs on the multiplexer; beside one, others may have pins of their own. */
function isMultiplexed(rig: Rig, finger: FingerPlan): boolean {
  return rig.multiplexer?.signalPin === finger.pin;
}

/** What the program does beside reading, filtering and sending. */
function features(plan: BoardPlan): string[] {
  const { frameUart, watchdogS, dummyRead, fingers, watched } = plan;
  const baud = frameUart === 'console' ? CONSOLE_BAUD : frameUart.baud;
  const port = frameUart === 'console' ? 'the console' : 'the second serial port';
  const said = [`Frames go out on ${port}, ${baud} bits a second.`];
  if (dummyRead) said.push('Each finger’s first reading is thrown away.');
  if (watched) {
    const blind = fingers.filter((f) => f.openBelow === 0).map((f) => FINGER_NAMES[f.slot]!);
    said.push(
      blind.length === 0
        ? 'Open and frozen wipers are told.'
        : `Frozen wipers are told; an open one cannot be told from the wiring of: ${blind.join(', ')}.`,
    );
  }
  if (watchdogS > 0) said.push(`The watchdog restarts a board that hangs for ${watchdogS} s.`);
  return said;
}

function pinTable(rig: Rig, plan: BoardPlan): string[] {
  const rows = plan.fingers.map((f) => [
    isMultiplexed(rig, f) ? `${f.pin}, input ${f.channel}` : String(f.pin),
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
  if (plan.frameUart !== 'console') rows.push([String(plan.frameUart.txPin), 'frames out', '']);
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
    fingers: plan.fingers.map((f) => ({
      finger: FINGER_NAMES[f.slot],
      pin: f.pin,
      channel: isMultiplexed(rig, f) ? f.channel : null,
      ...f.ends,
      openBelow: f.openBelow,
    })),
    frames: plan.frameUart,
    dummyRead: plan.dummyRead,
    watchdogS: plan.watchdogS,
  };
}
