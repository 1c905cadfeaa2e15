import type { PowerSize } from '../../../sim/sizing/power/power-size.ts';
import { aboutCell, modeRows, powerNotes } from '../../cli/size/power-lines.ts';
import { list, paragraph, section, table } from '../html.ts';

const HEADS = ['board', 'current', 'lasts', 'with a switching regulator'];

/** Current, cell and brakes, for the report. */
export function powerSection(size: PowerSize): string {
  return section(
    'power',
    'Power',
    paragraph(aboutCell(size)),
    table(
      HEADS.map((text) => ({ text })),
      modeRows(size).map((row) => row.map((text, i) => (i === 0 ? { text } : { text, name: HEADS[i]! }))),
      { class: 'stack' },
    ),
    ...powerNotes(size).map((text) => paragraph(text)),
    `<div class="notice">${list([...size.cautions])}</div>`,
  );
}
