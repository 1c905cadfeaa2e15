/** What the process tells its caller. */
export const EXIT = {
  done: 0,
  /** The answer is no, for instance no settings meet the wishes. */
  no: 1,
  /** Wrong input: a file, an option, a value. */
  input: 2,
  /** A fault of the program itself; the number that sysexits.h gives to such faults. */
  fault: 70,
  /** Stopped with Ctrl-C: 128 + SIGINT, as shells count it. */
  interrupted: 130,
} as const;
