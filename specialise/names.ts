/** Short names, none of them a word of the language or of the interpreter. */

// `E` is the interpreter's own object; `$` begins the names of what is not used in every frame.
const FIRST = 'abcdefghijklmnopqrstuvwxyzABCDFGHIJKLMNOPQRSTUVWXYZ';
const NEXT = `${FIRST}E_0123456789`;
const TAKEN = new Set([
  'do',
  'if',
  'in',
  'of',
  'PI',
  'fs',
  'for',
  'let',
  'new',
  'try',
  'var',
  'NaN',
  'Pin',
  'SPI',
  'I2C',
]);

/** The n-th name: one letter first, then two. @param prefix '' or '$' */
export function* shortNames(prefix: '' | '$'): Generator<string, never> {
  for (let length = 1; ; length++) {
    for (let n = 0; n < FIRST.length * NEXT.length ** (length - 1); n++) {
      let rest = n;
      let name = prefix + FIRST[rest % FIRST.length]!;
      rest = Math.floor(rest / FIRST.length);
      for (let i = 1; i < length; i++) {
        name += NEXT[rest % NEXT.length]!;
        rest = Math.floor(rest / NEXT.length);
      }
      if (!TAKEN.has(name) && !/^[A-Z]\d+$/.test(name)) yield name;
    }
  }
}
