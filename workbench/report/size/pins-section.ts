import type { Rig } from '../../../sim/rig/rig.ts';
import type { PinSize } from '../../../sim/sizing/pins/pins-size.ts';
import { pinName } from '../../../sim/sizing/pins/wiring-table.ts';
import { type Cell, figure, list, paragraph, section, table } from '../html.ts';
import { diagramHeight, wiringDiagram } from './wiring-diagram.ts';

const WIDE = 740;
const SLIM = 350;

/** Pins and wiring: the diagram, each wire with its part, and what is to be said against the pins. */
export function pinsSection(rig: Rig, size: PinSize): string {
  const { plan, problem } = size.proposal;
  const content: string[] = [];
  if (!plan)
    content.push(paragraph(`There is no pin plan: ${problem.seen}. Cure: ${problem.cure}.`, 'notice'));
  if (plan?.multiplexerReason !== undefined) {
    content.push(paragraph(`With a multiplexer of the 74HC4051 type, since ${plan.multiplexerReason}.`));
  }
  const warnings = [
    ...size.conflicts.map(
      ({ owner, seen, reason, cure }) =>
        `${capital(owner)} is on ${seen}${reason === '' ? '' : `: ${reason}`}. Cure: ${cure}.`,
    ),
    ...(size.pwm?.refused ?? []).map(
      ({ what, frequencyHz, reason, cure }) =>
        `No timer for ${what} at ${frequencyHz} Hz: ${reason}. Cure: ${cure}.`,
    ),
  ];
  if (warnings.length > 0) content.push(`<div class="notice">${list(warnings)}</div>`);
  if (plan) {
    const sizeOf = (width: number) => ({ width, height: diagramHeight(rig, plan, width) });
    content.push(
      figure(
        'wiring-diagram',
        (frame, id) => wiringDiagram(rig, plan, frame.width, id),
        { wide: sizeOf(WIDE), slim: sizeOf(SLIM) },
        'The wiring. 3V3 and the ground sign stand for the board’s pins of that name: all of the same name are joined. ',
      ),
      '<h3>Every wire</h3>',
      wireTable(size),
    );
    const moved = plan.pins.filter(({ movedFrom }) => movedFrom !== undefined);
    if (moved.length > 0) {
      content.push(
        list(
          moved.map(
            ({ key, pin, movedFrom }) =>
              `${key}: from GPIO${movedFrom}, where the rig file has it, to ${pinName(plan.board, pin)}.`,
          ),
        ),
      );
    }
  }
  return section('pins', 'Pins and wiring', ...content);
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function wireTable(size: PinSize): string {
  const heads: Cell[] = ['from', 'to', 'GPIO', 'through', 'note'].map((text) =>
    // beside the pin's printed name, where there is room for both
    text === 'GPIO' ? { text, kind: 'n wide' } : { text },
  );
  const rows = size.wiring.map(({ from, to, gpio, through, note }): Cell[] => [
    { text: from },
    { text: to, name: 'to' },
    { text: gpio === undefined ? '' : String(gpio), kind: 'n wide' },
    { text: through, name: 'through' },
    note === '' ? { text: '' } : { text: note, name: 'note:' },
  ]);
  return table(heads, rows, { class: 'stack' });
}
