import type { Alternative } from '../../../sim/sizing/unit/alternatives.ts';
import type { SetSize } from '../../../sim/sizing/unit/set-size.ts';
import { MOST_TRAVEL_SHARE } from '../../../sim/spool/radius.ts';
import { partDrafts } from '../../printables/part-drafts.ts';

export const ALTERNATIVE_HEADS = ['built as', 'units', 'height', 'mass', 'travel', 'counts/deg', 'pull'];

/** What slimmer choices bring and cost. */
export function alternativeRows({ alternatives }: SetSize): string[][] {
  return alternatives.map((one) => [
    one.name,
    `${one.widthMm.toFixed(0)} mm`,
    `${one.heightMm.toFixed(0)} mm`,
    `${one.massG.toFixed(0)} g`,
    `${(100 * one.travelShare).toFixed(0)} %`,
    one.countsPerDeg.toFixed(1),
    `${one.pullN.toFixed(2)} N`,
  ]);
}

/** How much thinner a unit gets, and what stands against an alternative. */
export function alternativeNotes({ alternatives }: SetSize): string[] {
  const [first, ...others] = alternatives;
  const named = (is: (one: Alternative) => boolean, more: (one: Alternative) => string = () => '') =>
    alternatives.filter(is).map((one) => `“${one.name}”${more(one)}`);
  const thinner = others.filter((one) => one.unitWidthMm < first!.unitWidthMm - 0.05);
  const small = named((one) => one.isTooSmall);
  const weak = named(
    (one) => !one.isTooSmall && one.springRatio < 1,
    (one) => ` (${(100 * one.springRatio).toFixed(0)} % of them)`,
  );
  const stopped = named((one) => one.travelShare > 1);
  const far = named((one) => one.travelShare > MOST_TRAVEL_SHARE && one.travelShare <= 1);
  return [
    `The worst finger counts, the largest hand, every part at its worst. One unit gets thinner by ${thinner.map((one) => `${(first!.unitWidthMm - one.unitWidthMm).toFixed(1)} mm (${one.name})`).join(', ')}.`,
    ...(small.length > 0 ? [`Too small for shaft, spring and knot: ${small.join(', ')}.`] : []),
    ...(weak.length > 0 ? [`No room for the turns that the spring needs: ${weak.join(', ')}.`] : []),
    ...(stopped.length > 0 ? [`The finger runs beyond the end of the travel: ${stopped.join(', ')}.`] : []),
    ...(far.length > 0 ? [`Less than 5 % of the travel left at the ends: ${far.join(', ')}.`] : []),
  ];
}

/** The set as it is, in sentences. */
export function setSentences(size: SetSize): string[] {
  const { massG, unitMm, springs, dimensions } = size;
  const tight = springs.reduce((a, b) =>
    b.givenTurns / b.neededTurns < a.givenTurns / a.neededTurns ? b : a,
  );
  const { strip } = dimensions.units.find(({ finger }) => finger === tight.finger)!.unit;
  return [
    `On the back of the hand: ${size.widthMm.toFixed(0)} mm wide, ${size.lengthMm.toFixed(0)} mm long, ${size.heightMm.toFixed(0)} mm high; one unit is ${unitMm.widthMm.toFixed(1)} mm wide, ${unitMm.lengthMm.toFixed(1)} mm long and ${unitMm.heightMm.toFixed(1)} mm high.`,
    `Mass: ${massG.total.toFixed(0)} g in all, of which ${massG.plateAndUnits.toFixed(0)} g plate and units, ${massG.onFingers.toFixed(0)} g rings and caps, ${massG.bought.toFixed(0)} g potentiometers and springs; parts taken as solid PLA (1.24 g/cm³, generic data sheets), with usual infill less.`,
    `A strip of ${strip.widthMm} × ${strip.thicknessMm} mm and ${(strip.lengthMm / 1000).toFixed(2)} m has room for ${tight.givenTurns.toFixed(1)} turns; preload and stroke need ${tight.neededTurns.toFixed(1)}. A strap of up to ${Math.floor(dimensions.plate.strapMm)} mm passes under the units. Made for a 9 mm potentiometer with a shaft of 6 mm, cut to ${dimensions.units[0]!.unit.shaftMm.toFixed(1)} mm; clearances of 0.1 to 0.3 mm are common practice (assumed): print one spool and one ring first.`,
  ];
}

/** What is printed, one row for each kind of part. */
export interface PrintRow {
  /** File names without `.stl`; of several that differ in size only, what they share. */
  files: string[];
  name: string;
  pieces: number;
  /** All pieces, solid. */
  massG: number;
  hint: string;
}

export function printRows(size: SetSize): PrintRow[] {
  const rows = new Map<string, PrintRow>();
  for (const { name, kind, count, massG, hint } of partDrafts(size.dimensions)) {
    const row = rows.get(kind) ?? { files: [], name, pieces: 0, massG: 0, hint };
    row.files.push(name);
    // All names of a kind begin with the same word.
    if (row.files.length > 1) row.name = `${row.files[0]!.split('-')[0]}-…`;
    row.pieces += count;
    row.massG += count * massG;
    rows.set(kind, row);
  }
  return [...rows.values()];
}

/** The kinds of parts with their counts in one sentence. */
export function printSentence(size: SetSize): string {
  const rows = printRows(size);
  const pieces = rows.reduce((sum, row) => sum + row.pieces, 0);
  const files = rows.reduce((sum, row) => sum + row.files.length, 0);
  const list = rows.map((row) => (row.pieces > 1 ? `${row.pieces} × ${row.name}` : row.name)).join(', ');
  return `To print, ${pieces} pieces from ${files} files, none of them with supports: ${list}.`;
}
