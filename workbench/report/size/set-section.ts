import type { SetSize } from '../../../sim/sizing/unit/set-size.ts';
import { CAUTIONS } from '../../printables/print-hints.ts';
import { escapeHtml } from '../escape.ts';
import { list, paragraph, scrollBox, section, table } from '../html.ts';
import { ALTERNATIVE_HEADS, alternativeNotes, alternativeRows, setSentences } from './set-words.ts';
import { unitDrawing } from './unit-drawing.ts';

const WIDE = 740;
const SLIM = 340;

/** The printed set: how large and heavy it is, one unit to scale, what slimmer choices cost, cautions. */
export function setSection(size: SetSize): string {
  const { unit, finger } = size.dimensions.units[0]!;
  const heads = ALTERNATIVE_HEADS.map((text, i) => ({ text, ...(i > 0 && { kind: 'n' }) }));
  const rows = alternativeRows(size).map((cells) =>
    cells.map((text, i) => ({ text, ...(i > 0 && { kind: 'n', name: `${ALTERNATIVE_HEADS[i]}` }) })),
  );
  const caption = `The ${finger}’s unit as its parts are printed; “--stl DIR” writes them. Cap of the potentiometer, wall, cup with spool and spring, lid.`;
  return section(
    'set',
    'Printed parts',
    ...setSentences(size).map((sentence) => paragraph(sentence)),
    `<figure><div class="wide">${unitDrawing(unit, WIDE, 'unit-wide')}</div><div class="slim">${unitDrawing(unit, SLIM, 'unit-slim')}</div><figcaption>${escapeHtml(caption)}</figcaption></figure>`,
    '<h3>What slimmer choices cost</h3>',
    scrollBox('What slimmer choices cost', table(heads, rows, { class: 'stack' })),
    list(alternativeNotes(size)),
    `<div class="notice" role="note">${list([...CAUTIONS])}</div>`,
  );
}
