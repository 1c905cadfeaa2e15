/** A construct that cannot be specialised, or that the interpreter would misread. */
export class SpecialiseError extends Error {
  readonly seen: string;
  readonly expected: string;
  /** Offset in the parsed text; -1 = none. */
  readonly offset: number;
  constructor(seen: string, expected: string, offset: number) {
    super(`${seen}; expected ${expected}`);
    this.name = 'SpecialiseError';
    this.seen = seen;
    this.expected = expected;
    this.offset = offset;
  }
}
