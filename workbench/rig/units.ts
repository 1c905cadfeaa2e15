import { DIMENSIONS, type Dimension, type Scale } from './unit-table.ts';

export type { Dimension } from './unit-table.ts';

/** A value in the base unit of its dimension, or why there is none. */
export type Quantity =
  | { ok: true; value: number }
  | { ok: false; seen: string; expected: string; next: string };

/** Number, then whatever follows. No sign is needed by any field, but a minus must be seen to be refused. */
const NUMBER = /^([+-]?(?:\d+\.?\d*|\.\d+))(?:[eE]([+-]?\d{1,3}))?/;
/** `4k7`, `2M2`, `5R6`: the letter stands where the point would. */
const LETTER_AS_POINT = /^(\d+)([kKMR])(\d+)$/;

/** Spellings of one unit made one. */
function tidyUnit(unit: string): string {
  return unit
    .replace(/[\u00b5\u03bc]/g, 'u')
    .replace(/[\u03a9\u2126]/g, 'ohm')
    .replace(/Ohm|OHM/g, 'ohm')
    .replace(/°/g, 'deg')
    .replace(/degrees?/g, 'deg')
    .replace(/[\s·⋅*]/g, '');
}

/** The scale of a unit in one dimension. Wrong case is forgiven, but for m (milli) against M (mega). */
function findUnit(dimension: Dimension, unit: string): Scale | undefined {
  const { units } = DIMENSIONS[dimension];
  if (Object.hasOwn(units, unit)) return units[unit];
  const match = Object.keys(units).find(
    (name) => name.toLowerCase() === unit.toLowerCase() && name.startsWith('M') === unit.startsWith('M'),
  );
  return match === undefined ? undefined : units[match];
}

/** Powers of ten are shifted in the decimal text, so that `100 nF` is exactly 1e-7. */
function applyScale(mantissa: string, exponent: number, scale: Scale): number {
  if ('shift' in scale) return Number(`${mantissa}e${exponent + scale.shift}`);
  return Number(`${mantissa}e${exponent}`) * scale.factor;
}

/** The dimension, other than this one, that knows a unit. */
function otherDimension(not: Dimension, unit: string): Dimension | undefined {
  const others = (Object.keys(DIMENSIONS) as Dimension[]).filter((dimension) => dimension !== not);
  return (
    others.find((other) => Object.hasOwn(DIMENSIONS[other].units, unit)) ??
    others.find((other) => findUnit(other, unit) !== undefined)
  );
}

function refuse(dimension: Dimension, seen: string, next?: string): Quantity {
  const { noun, example } = DIMENSIONS[dimension];
  return {
    ok: false,
    seen,
    expected: `${noun}, such as ${example}`,
    next: next ?? `write it like ${example}`,
  };
}

function fromNumber(value: number, dimension: Dimension): Quantity {
  if (Number.isNaN(value)) return refuse(dimension, 'not a number (NaN)');
  if (!Number.isFinite(value)) return refuse(dimension, 'an infinite number');
  const { bare, base } = DIMENSIONS[dimension];
  if (bare || value === 0) return { ok: true, value };
  return refuse(
    dimension,
    `${value} without a unit`,
    `add the unit, such as ${DIMENSIONS[dimension].example}; its base unit is ${base}`,
  );
}

/**
 * Reads a value as people write it.
 * @param input what YAML made of it: a number, or text such as `12.5 mm`, `4k7`, `0.1uF`, `54 gf·cm`, `30 %`.
 *   A bare number is in the base unit of the dimension (mm, deg, ohm, N, mN·m, N/mm, V, Hz, ms, counts; a
 *   share counts from 0 to 1), except for capacitances and percentages of closure, where it would be unclear
 * @returns the value in the base unit, or what was seen, what was expected and what to do
 */
export function parseQuantity(input: unknown, dimension: Dimension): Quantity {
  if (typeof input === 'number') return fromNumber(input, dimension);
  if (input === null || input === undefined || input === '') return refuse(dimension, 'nothing');
  if (typeof input !== 'string') {
    return refuse(
      dimension,
      Array.isArray(input) ? 'a list' : typeof input === 'object' ? 'a mapping' : `${input}`,
    );
  }
  let text = input.trim();
  if (dimension === 'share') text = text.replace(/^(±|\+\/?-)\s*/, '');
  const letter = dimension === 'resistance' ? LETTER_AS_POINT.exec(text) : null;
  if (letter) text = `${letter[1]}.${letter[3]}${letter[2]}`;
  const number = NUMBER.exec(text);
  if (!number) return refuse(dimension, `"${input}", which does not start with a number`);
  const rest = text.slice(number[0].length);
  if (/^,\d/.test(rest)) {
    return refuse(dimension, `"${input}" with a comma`, `write a decimal point: ${text.replace(',', '.')}`);
  }
  const mantissa = number[1]!;
  const exponent = Number(number[2] ?? 0);
  const unit = tidyUnit(rest);
  if (unit === '') return fromNumber(Number(number[0]), dimension);
  const scale = findUnit(dimension, unit);
  if (scale === undefined) {
    const other = otherDimension(dimension, unit);
    if (other !== undefined) return refuse(dimension, `"${input}", which is ${DIMENSIONS[other].noun}`);
    const known = Object.keys(DIMENSIONS[dimension].units);
    return refuse(
      dimension,
      `"${input}" with the unknown unit "${rest.trim()}"`,
      known.length > 0 ? `use one of: ${known.slice(0, 10).join(', ')}` : 'write the number alone',
    );
  }
  const value = applyScale(mantissa, exponent, scale);
  return Number.isFinite(value) ? { ok: true, value } : refuse(dimension, `"${input}", which is too large`);
}

/** Text of a number moved by a power of ten: the shortest, if moving it back gives the number again. */
function shifted(value: number, power: number): string {
  const [mantissa, exponent] = String(value).split('e');
  const exact = `${mantissa}e${Number(exponent ?? 0) + power}`;
  const short = String(Number(exact));
  const [digits, tens] = short.split('e');
  return Number(`${digits}e${Number(tens ?? 0) - power}`) === value ? short : exact;
}

/**
 * Writes a value so that {@link parseQuantity} gives exactly the same number back.
 * @param value in the base unit of the dimension
 */
export function formatQuantity(value: number, dimension: Dimension): string {
  switch (dimension) {
    case 'share':
      return `${shifted(value, 2)} %`;
    case 'capacitance':
      return value === 0 ? '0 nF' : `${shifted(value, 9)} nF`;
    case 'resistance':
      return Math.abs(value) >= 1000 ? `${shifted(value, -3)} kΩ` : `${value} ohm`;
    case 'counts':
    case 'money':
    case 'plain':
      return String(value);
    default:
      return `${value} ${DIMENSIONS[dimension].base}`;
  }
}
