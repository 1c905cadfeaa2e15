import type { Alternative } from '../../../sim/sizing/unit/alternatives.ts';
import type { SetSize } from '../../../sim/sizing/unit/set-size.ts';

export const ALTERNATIVE_HEADS = [
  'built as',
  'units',
  'height',
  'mass',
  'travel',
  'counts/deg',
  'pull',
];

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

/** What stands against an alternative. */
export function alternativeNotes({ alternatives }: SetSize): string[] {
  const named = (is: (one: Alternative) => boolean) => alternatives.filter(is).map(({ name }) => `“${name}”`);
  const small = named((one) => one.isTooSmall);
  const weak = named((one) => !one.isTooSmall && one.springRatio < 1);
  const far = named((one) => one.travelShare > 0.9);
  return [
    ...(small.length > 0 ? [`Too small for shaft, spring and knot: ${small.join(', ')}.`] : []),
    ...(weak.length > 0 ? [`No room for the turns that the spring needs: ${weak.join(', ')}.`] : []),
    ...(far.length > 0 ? [`Less than 5 % of the travel left at the ends: ${far.join(', ')}.`] : []),
  ];
}

/** The set as it is, in sentences. */
export function setSentences(size: SetSize): string[] {
  const { massG, unitMm } = size;
  return [
    `On the back of the hand: ${size.widthMm.toFixed(0)} mm wide, ${size.lengthMm.toFixed(0)} mm long, ${size.heightMm.toFixed(0)} mm high; one unit is ${unitMm.widthMm.toFixed(1)} mm wide.`,
    `Mass: ${massG.total.toFixed(0)} g in all, of which ${massG.plateAndUnits.toFixed(0)} g plate and units, ${massG.onFingers.toFixed(0)} g rings and caps, ${massG.bought.toFixed(0)} g potentiometers and springs; parts taken as solid PLA, with usual infill less.`,
  ];
}
