/** Looks whether what comes is a line at another rate: bytes all the time, most without sense, and never a frame. */

const BIN_S = 0.25;
/** Bytes must come in so many bins in a row: the ROM's log at a lower rate is over sooner (2 kB at 74880 baud: 0.3 s). */
const BINS = 6;
/** Share of senseless bytes that counts; nine usual rates read at 115200 give 0.55 to 1 (computed bit by bit). */
const LEAST_GARBAGE = 0.3;
const LEAST_BYTES = 60;

export interface BaudWatch {
  /** Call every so often. @returns what is wrong: bytes and the share of them without sense; undefined while nothing is */
  look(
    nowS: number,
    bytesIn: number,
    garbage: number,
    frames: number,
  ): { bytes: number; share: number } | undefined;
  /** The port was opened. */
  reset(nowS: number, bytesIn: number, garbage: number, frames: number): void;
}

export function createBaudWatch(): BaudWatch {
  let bins: { bytes: number; garbage: number }[] = [];
  let last = { atS: 0, bytes: 0, garbage: 0, frames: 0 };
  return {
    look(nowS, bytesIn, garbageIn, frames) {
      if (nowS - last.atS < BIN_S) return undefined;
      const bin = { bytes: bytesIn - last.bytes, garbage: garbageIn - last.garbage };
      const isFrame = frames > last.frames;
      last = { atS: nowS, bytes: bytesIn, garbage: garbageIn, frames };
      if (isFrame || bin.bytes === 0) bins = [];
      else bins.push(bin);
      if (bins.length < BINS) return undefined;
      bins = bins.slice(-BINS);
      const bytes = bins.reduce((sum, one) => sum + one.bytes, 0);
      const share = bins.reduce((sum, one) => sum + one.garbage, 0) / bytes;
      return bytes >= LEAST_BYTES && share >= LEAST_GARBAGE ? { bytes, share } : undefined;
    },
    reset(nowS, bytes, garbage, frames) {
      bins = [];
      last = { atS: nowS, bytes, garbage, frames };
    },
  };
}
