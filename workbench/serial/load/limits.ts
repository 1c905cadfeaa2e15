/** How long a load may wait, ms. */
export interface LoadLimits {
  /** For the first answer of the interpreter: a board that restarts on opening takes 1-3 s. */
  probeMs: number;
  /** Between two questions while there is no answer. */
  probeEveryMs: number;
  /** For the answer to one expression. */
  answerMs: number;
  /** For XON after XOFF. */
  xonMs: number;
  /** For the answer to a packet, before its missing bytes are made up for. */
  nudgeMs: number;
  /** For the next acknowledged packet of a file; the upload tools themselves give up after 5 s. */
  stallMs: number;
  /** For the frames of the program after it was started. */
  runMs: number;
  /** For everything together. */
  totalMs: number;
}

export const USUAL_LIMITS: LoadLimits = {
  probeMs: 8000,
  probeEveryMs: 1000,
  answerMs: 2000,
  xonMs: 4000,
  nudgeMs: 1500,
  stallMs: 6000,
  runMs: 6000,
  totalMs: 60_000,
};
