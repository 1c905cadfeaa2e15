/** Numbers for people: as many digits as they can bear, a real minus sign, the unit one space away. */

const MINUS = '\u2212';
const NO_BREAK_SPACE = '\u00a0';
const NARROW_NO_BREAK_SPACE = '\u202f';
const MOST_DECIMALS = 4;

/** A value with the two ends of its interval, all in the same unit. */
export interface Interval {
  value: number;
  low: number;
  high: number;
}

/** Fixed decimals; thousands set apart from 10 000 on; never a negative zero. */
export function formatFixed(value: number, decimals: number): string {
  if (Number.isNaN(value)) return 'unknown';
  if (!Number.isFinite(value)) return value > 0 ? 'endless' : `${MINUS}endless`;
  const rounded = Math.abs(value).toFixed(decimals);
  const sign = value < 0 && Number(rounded) !== 0 ? MINUS : '';
  const [whole, fraction] = rounded.split('.') as [string, string | undefined];
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, NARROW_NO_BREAK_SPACE) : whole;
  return sign + grouped + (fraction === undefined ? '' : `.${fraction}`);
}

/** Decimals (0-4) that show `significant` digits of `magnitude`. */
export function decimalsFor(magnitude: number, significant: number): number {
  if (!(Math.abs(magnitude) > 0) || !Number.isFinite(magnitude)) return 0;
  const exponent = Number(
    Math.abs(magnitude)
      .toExponential(significant - 1)
      .split('e')[1],
  );
  return Math.min(MOST_DECIMALS, Math.max(0, significant - 1 - exponent));
}

/** Three digits unless told; what would show as zero without being zero becomes `<0.0001`. */
export function formatNumber(value: number, significant = 3): string {
  const decimals = decimalsFor(value, significant);
  const text = formatFixed(value, decimals);
  if (value !== 0 && Number(Math.abs(value).toFixed(decimals)) === 0) return tooSmall(value, decimals);
  return text;
}

function tooSmall(value: number, decimals: number): string {
  const least = (10 ** -decimals).toFixed(decimals);
  return value > 0 ? `<${least}` : `>${MINUS}${least}`;
}

/** A number as a maker would type it (`0.6`, `20`): no padding zeros, at most 4 decimals. */
export function formatSetting(value: number): string {
  return formatFixed(value, MOST_DECIMALS).replace(/\.?0+$/, '');
}

/**
 * Decimals that suit an interval: one digit of its half-width, two where that would round away a third of it.
 * Without any width: three digits of the value.
 */
export function intervalDecimals(interval: Interval): number {
  const halfWidth = (interval.high - interval.low) / 2;
  if (!(halfWidth > 0) || !Number.isFinite(halfWidth)) return decimalsFor(interval.value, 3);
  const mantissa = Number(halfWidth.toExponential(3).split('e')[0]);
  return decimalsFor(halfWidth, mantissa < 2.5 ? 2 : 1);
}

/** Value alone, with the decimals that its interval deserves. */
export function formatValueOf(interval: Interval): string {
  const decimals = intervalDecimals(interval);
  const vanishes = interval.value !== 0 && Number(Math.abs(interval.value).toFixed(decimals)) === 0;
  return vanishes ? tooSmall(interval.value, decimals) : formatFixed(interval.value, decimals);
}

/** `0.21 to 0.26`; empty when both ends come out the same. */
export function formatRange(interval: Interval): string {
  if (!(interval.high > interval.low)) return '';
  const decimals = intervalDecimals(interval);
  const low = formatFixed(interval.low, decimals);
  const high = formatFixed(interval.high, decimals);
  return low === high ? '' : `${low} to ${high}`;
}

/** `0.23 (0.21 to 0.26)`. */
export function formatInterval(interval: Interval): string {
  const range = formatRange(interval);
  return range === '' ? formatValueOf(interval) : `${formatValueOf(interval)} (${range})`;
}

/** `0.23 ms (0.21 to 0.26)`. */
export function formatWithUnit(interval: Interval, unit: string): string {
  const range = formatRange(interval);
  return withUnit(formatValueOf(interval), unit) + (range === '' ? '' : ` (${range})`);
}

/** A difference alone, with the decimals that its interval deserves and a plus sign above zero. */
export function formatChangeOf(interval: Interval): string {
  return signed(interval.value, intervalDecimals(interval));
}

/** Like formatInterval for differences: a plus sign before what is above zero. */
export function formatChange(interval: Interval): string {
  const decimals = intervalDecimals(interval);
  if (!(interval.high > interval.low)) return signed(interval.value, decimals);
  return `${signed(interval.value, decimals)} (${signed(interval.low, decimals)} to ${signed(interval.high, decimals)})`;
}

function signed(value: number, decimals: number): string {
  const text = formatFixed(value, decimals);
  return value > 0 && Number(value.toFixed(decimals)) !== 0 ? `+${text}` : text;
}

/** Share 0-1 as percent: whole below 99 %, never rounded up to 100 % or down to 0 %. */
export function formatShare(share: number): string {
  const percent = share * 100;
  if (percent > 99 && percent < 100)
    return percent > 99.9 ? withUnit('>99.9', '%') : withUnit(percent.toFixed(1), '%');
  if (percent > 0 && percent < 0.5) return withUnit('<0.5', '%');
  return withUnit(formatFixed(percent, 0), '%');
}

/** Number text and unit, held together; the degree sign follows without a space. */
export function withUnit(text: string, unit: string): string {
  if (unit === '') return text;
  return unit.startsWith('°') ? text + unit : text + NO_BREAK_SPACE + unit;
}
