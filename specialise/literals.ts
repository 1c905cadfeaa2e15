/**
 * Numbers as the interpreter reads them. It adds decimal places one by one with a factor that it divides by ten each
 * time, so that most decimals come out one unit in the last place off (read in espruino/Espruino c5ff787,
 * stringToFloatWithRadix). Whole numbers and quotients of whole numbers are exact.
 */

/** Value that the interpreter gives a decimal literal without sign. */
export function interpreterValue(text: string): number {
  const parts = /^(\d*)(?:\.(\d*))?(?:[eE]([+-]?\d+))?$/.exec(text);
  if (!parts) return Number.NaN;
  const [, whole = '', fraction, exponent] = parts;
  if (fraction === undefined && exponent === undefined) return wholeValue(whole);
  let value = 0;
  for (const digit of whole) value = value * 10 + Number(digit);
  let factor = 0.1;
  for (const digit of fraction ?? '') {
    value += factor * Number(digit);
    factor /= 10;
  }
  let e = exponent === undefined ? 0 : Number(exponent);
  for (; e > 0; e--) value *= 10;
  for (; e < 0; e++) value /= 10;
  return value;
}

/** Whole literals go through a 64-bit integer. */
function wholeValue(digits: string): number {
  return Number(BigInt.asIntN(64, BigInt(digits === '' ? '0' : digits)));
}

/** Largest whole number up to which doubles have no gaps. */
const EXACT_MAX = 2 ** 53;

/**
 * Text that the interpreter reads as exactly this number.
 * @returns without blanks; a quotient or a sign stands in brackets
 */
export function exactLiteral(value: number): string {
  if (Number.isNaN(value)) return '(0/0)';
  if (value === Number.POSITIVE_INFINITY) return '(1/0)';
  if (value < 0) return value === Number.NEGATIVE_INFINITY ? '(-1/0)' : `(-${exactLiteral(-value)})`;
  // a minus before a whole 0 gives a whole 0 there
  if (Object.is(value, -0)) return '(0/-1)';
  const shortest = shorten(String(value));
  if (interpreterValue(shortest) === value) return shortest;
  return quotient(value);
}

/** Longest number that is read in place as fast as a name is looked up, characters. */
const SHORT = 6;

/** Whether a number is best written where it stands: in few digits, without a quotient. */
export function isPlain(value: number): boolean {
  const text = exactLiteral(Math.abs(value));
  return text.length <= SHORT && !text.includes('/');
}

/** Without the zero before the point and the plus in the exponent. */
function shorten(text: string): string {
  return text.replace(/^0\./, '.').replace('e+', 'e');
}

/** The number as a quotient of two whole numbers, decimal where that is short. */
function quotient(value: number): string {
  const parts = /^(\d+)(?:\.(\d+))?(?:e([+-]\d+))?$/.exec(String(value))!;
  const digits = (parts[1]! + (parts[2] ?? '')).replace(/^0+(?=\d)/, '');
  const power = (parts[2]?.length ?? 0) - Number(parts[3] ?? 0);
  // Both sides exact: the quotient is rounded once, as the decimal is.
  if (Number(digits) <= EXACT_MAX && power >= 0 && power <= 22) {
    const text = `(${digits}/${power <= 3 ? 10 ** power : `1e${power}`})`;
    if (Number(digits) / 10 ** power === value) return text;
  }
  if (Number.isInteger(value)) return product(value);
  let numerator = value;
  let shift = 0;
  while (!Number.isInteger(numerator) && shift < 1074) {
    numerator *= 2;
    shift++;
  }
  return shift <= 52 ? `(${numerator}/${2 ** shift})` : `(${numerator}/${2 ** 52}${divisions(shift - 52)})`;
}

/** A whole number too large for digits as a product of smaller ones. Exact: only the exponent grows. */
function product(value: number): string {
  let factor = value;
  let shift = 0;
  for (; factor > EXACT_MAX; factor /= 2) shift++;
  let text = String(factor);
  for (let left = shift; left > 0; left -= 52) text += `*${2 ** Math.min(52, left)}`;
  return `(${text})`;
}

/** Further divisions by powers of two; each is exact. */
function divisions(shift: number): string {
  let text = '';
  for (let left = shift; left > 0; left -= 52) text += `/${2 ** Math.min(52, left)}`;
  return text;
}
