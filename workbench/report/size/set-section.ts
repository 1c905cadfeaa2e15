import type { SetSize } from '../../../sim/sizing/unit/set-size.ts';
import { CAUTIONS } from '../../printables/print-hints.ts';
import { escapeHtml } from '../escape.ts';
import { list, paragraph, scrollBox, section, table } from '../html.ts';
import {
  ALTERNATIVE_HEADS,
  alternativeNotes,
  alternativeRows,
  printRows,
  setSentences,
} from './set-words.ts';
import { unitDrawing } from './unit-drawing.ts';

const WIDE = 740;
const SLIM = 340;

/** The printed set: how large and heavy it is, one unit to scale, what slimmer choices cost, cautions. */
export function setSection(size: SetSize): string {
  const { plate, units } = size.dimensions;
  const { unit, finger } = units[0]!;
  const heads = ALTERNATIVE_HEADS.map((text, i) => ({ text, ...(i > 0 && { kind: 'n' }) }));
  const rows = alternativeRows(size).map((cells) =>
    cells.map((text, i) => ({ text, ...(i > 0 && { kind: 'n', name: `${ALTERNATIVE_HEADS[i]}` }) })),
  );
  const caption = `The ${finger}’s unit as its parts are printed; “--stl DIR” writes them. Cap of the potentiometer, wall, cup with spool and spring, lid.`;
  return section(
    'set',
    'Printed parts',
    ...setSentences(size).map((sentence) => paragraph(unitsHeld(sentence))),
    `<figure><div class="wide">${unitDrawing(unit, plate, WIDE, 'unit-wide')}</div><div class="slim">${unitDrawing(unit, plate, SLIM, 'unit-slim')}</div><figcaption>${escapeHtml(caption)}</figcaption></figure>`,
    '<h3>What slimmer choices cost</h3>',
    scrollBox('What slimmer choices cost', table(heads, rows, { class: 'stack' })),
    list(alternativeNotes(size)),
    '<h3>Parts to print</h3>',
    table(
      [{ text: 'part' }, { text: 'pieces', kind: 'n' }, { text: 'all, solid', kind: 'n' }, { text: 'how' }],
      printRows(size).map(({ name, files, pieces, massG, hint }) => [
        { text: files.length > 1 ? `${name}, ${files.length} files` : name },
        { text: `${pieces}`, kind: 'n', name: 'pieces' },
        { text: `${massG.toFixed(1)} g`, kind: 'n', name: 'all, solid' },
        { text: hint },
      ]),
      { class: 'stack' },
    ),
    `<div class="notice" role="note">${list([...CAUTIONS])}</div>`,
  );
}

/** Keeps a unit on the line of its number. */
function unitsHeld(text: string): string {
  return text.replace(/(\d) (mm|m|g|g\/cm³)(?=[ ,.;)])/g, '$1\u00a0$2');
}
