/**
 * What the seldom run code (commands, start-up) asks of the frame program. On the board each of these is a function
 * made for the rig, whose numbers live in the program's own variables.
 */
export interface HandRoutines {
  setNumber: (slot: number, index: number, value: number) => boolean;
  getNumber: (slot: number, index: number) => number;
  /** @param which 0: frames dropped, 1: errors */
  counter: (which: number) => number;
  /** @param slot 255 = hand frames again. False if the channel is not wired. */
  raw: (slot: number) => boolean;
  beginCapture: () => boolean;
  endCapture: () => number;
  isCapturing: () => boolean;
  zero: (slot: number) => boolean;
  /** Takes ends that were stored. */
  takeEnds: (slot: number, open: number, closed: number) => void;
  /** Bits of the fingers with ends of their own. */
  captured: () => number;
  /** Open and closed end of each of the five fingers. */
  ends: () => Float32Array;
  /** Which fingers' ends are stored: while one is missing, the status says so. */
  markStored: (captured: number) => void;
  /** Reads once, centres the stick, sets the frames up. */
  begin: () => void;
  /** Counts an error that a command threw. */
  countError: () => void;
  /** The next frame takes the readings as they are, and none of the time before counts. */
  refresh: () => void;
  reply: (command: number, result: number, answer: number, tag: number) => void;
}
