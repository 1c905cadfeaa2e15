import { z } from 'zod';
import { DIMENSIONS, type Dimension } from './unit-table.ts';
import { formatQuantity, parseQuantity } from './units.ts';

/** What a schema adds to its issues, so that messages need not be guessed from zod's. */
export interface IssueParams {
  seen?: string;
  expected: string;
  next: string;
  /** Key beside the missing one that would do in its place. */
  instead?: string;
}

/** Adds an issue in our words. */
export function pushIssue(ctx: z.RefinementCtx, input: unknown, params: IssueParams): never {
  ctx.issues.push({ code: 'custom', input, message: params.expected, params: { ...params } });
  return z.NEVER;
}

/** `0 to 50 %`, or `more than 0 up to 50 %`. */
function rangeText(dimension: Dimension, min: number, max: number, above: boolean): string {
  const [low, high] = [formatQuantity(min, dimension), formatQuantity(max, dimension)];
  return above ? `more than ${low} and at most ${high}` : `${low} to ${high}`;
}

/**
 * A number with a unit.
 * @param above whether `min` itself is refused
 */
export function quantity(dimension: Dimension, min: number, max: number, above = false) {
  return z.unknown().transform((input, ctx): number => {
    const read = parseQuantity(input, dimension);
    if (!read.ok) return pushIssue(ctx, input, { seen: read.seen, expected: read.expected, next: read.next });
    const { value } = read;
    if (value >= min && value <= max && !(above && value === min)) return value;
    const percent = dimension === 'share' && typeof input === 'number' && value > 1 && value / 100 <= max;
    return pushIssue(ctx, input, {
      expected: `${DIMENSIONS[dimension].noun} of ${rangeText(dimension, min, max, above)}`,
      next: percent ? `write ${value} % if percent is meant` : 'check the value and its unit',
    });
  });
}

/** A whole number without a unit. */
export function whole(min: number, max: number, noun = 'a whole number') {
  const expected = `${noun} of ${min} to ${max}`;
  return z.unknown().transform((input, ctx): number => {
    if (typeof input === 'number' && Number.isInteger(input) && input >= min && input <= max) return input;
    return pushIssue(ctx, input, { expected, next: 'write digits only' });
  });
}

/** Something that is there or not: `true`, or not written at all. */
export function present() {
  return z.unknown().transform((input, ctx): true => {
    if (input === true) return true;
    return pushIssue(ctx, input, {
      expected: 'true',
      next: input === false ? 'remove the line' : 'write true, or remove the line',
    });
  });
}

/** `yes` or `no`, as people write it; `true` and `false` do as well. */
export function yesNo() {
  return z.unknown().transform((input, ctx): boolean => {
    if (input === true || input === 'yes') return true;
    if (input === false || input === 'no') return false;
    return pushIssue(ctx, input, { expected: 'yes or no', next: 'write yes or no' });
  });
}

/** What a pin for a string has to be. */
export const ADC_PIN = 'the GPIO number of an ADC pin, such as 36';

/** A GPIO number, bare or as `GPIO36`. */
export function pinNumber(expected = ADC_PIN) {
  return z.unknown().transform((input, ctx): number => {
    const named = typeof input === 'string' ? /^(?:GPIO|IO) ?(\d{1,2})$/i.exec(input.trim()) : null;
    const pin = named ? Number(named[1]) : input;
    if (typeof pin === 'number' && Number.isInteger(pin) && pin >= 0 && pin <= 99) return pin;
    return pushIssue(ctx, input, { expected, next: 'write digits only' });
  });
}

/** One line of text. */
export function line(noun: string, longest: number) {
  return z.unknown().transform((input, ctx): string => {
    if (
      typeof input === 'string' &&
      input.trim() !== '' &&
      input.length <= longest &&
      !/\p{Cc}/u.test(input)
    ) {
      return input;
    }
    const isNumber = typeof input === 'number' || typeof input === 'boolean';
    return pushIssue(ctx, input, {
      expected: `${noun}: one line of text, at most ${longest} characters`,
      next: isNumber ? `put quotes round it: "${input}"` : 'write it on the same line as its key',
    });
  });
}

/** One of a few words. */
export function word<const T extends string>(words: readonly T[]) {
  return z.enum(words);
}

/**
 * A mapping that refuses unknown keys. An empty one (all its lines commented out) counts as `{}`.
 * zod does not tell which keys it knows, so the message of an unknown key lists them, joined by commas.
 */
export function mapping<T extends z.core.$ZodLooseShape>(shape: T) {
  return z.preprocess((value) => (value === null ? {} : value), strict(shape));
}

/** The same without the leniency, for members of a union. */
export function strict<T extends z.core.$ZodLooseShape>(shape: T) {
  return z.strictObject(shape, {
    error: (issue) => (issue.code === 'unrecognized_keys' ? Object.keys(shape).join(',') : undefined),
  });
}
