/** What the process tells its caller. */
export const EXIT = {
  done: 0,
  /** The answer is no, for instance no settings meet the wishes. */
  no: 1,
  /** Wrong input: a file, an option, a value. */
  input: 2,
} as const;
