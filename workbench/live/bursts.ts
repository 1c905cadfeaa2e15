/** Looks whether frames come in bursts, as a USB adapter sends them that waits for its latency timer. */

/** Waits looked at before anything is said. */
const WAITS = 150;
/** Where the usual timer of 16 ms shows, ms (FTDI AN232B-04; Fazecast/jSerialComm#355: 62 round trips a second). */
const TIMER_MS: readonly [number, number] = [13, 19];
/** Share of waits that must lie there. Assumed. */
const LEAST_SHARE = 0.6;

export interface Bursts {
  /** @param arrivalS of a chunk of bytes */
  chunk(arrivalS: number): void;
  /** Largest wait of the last ones, ms. */
  longestMs(): number;
  /** Whether the latency timer shows: frames are due more often than chunks come. */
  isTimer(): boolean;
  /** The port was opened: what was before says nothing. */
  reset(): void;
}

/** @param framePeriodS time between frames as they are sent */
export function createBursts(framePeriodS: number): Bursts {
  const waitsMs = new Float64Array(WAITS);
  let count = 0;
  let lastS = Number.NaN;

  return {
    chunk(arrivalS) {
      const waitMs = 1000 * (arrivalS - lastS);
      lastS = arrivalS;
      // Chunks of one burst arrive together.
      if (!(waitMs > 2)) return;
      waitsMs[count % WAITS] = waitMs;
      count++;
    },
    longestMs: () => waitsMs.subarray(0, Math.min(count, WAITS)).reduce((a, b) => Math.max(a, b), 0),
    isTimer() {
      if (count < WAITS || 1000 * framePeriodS > TIMER_MS[0]) return false;
      const inside = waitsMs.filter((ms) => ms >= TIMER_MS[0] && ms <= TIMER_MS[1]).length;
      return inside >= LEAST_SHARE * WAITS;
    },
    reset() {
      count = 0;
      lastS = Number.NaN;
    },
  };
}

/**
 * What to do about it, for each system. Windows: FTDI AN232B-04. Linux: attribute latency_timer of its ftdi_sio driver.
 * macOS: assumed.
 */
export const BURST_CURE =
  'Set the adapter’s latency timer to 1 ms. Linux: echo 1 | sudo tee /sys/bus/usb-serial/devices/ttyUSB0/latency_timer, with the name of your port. Windows: device manager, the port’s properties, port settings, advanced, latency timer. macOS: the driver’s own settings, if it has any. Or take a board with a USB port of its own.';
