import type { BoardId } from '../../../firmware/boards/board.ts';

/** The chip's pulse generator (LEDC): timers give frequency and resolution, channels the width at a pin. */
export interface PwmFacts {
  groups: number;
  timersPerGroup: number;
  channelsPerGroup: number;
  mostBits: number;
  /** Clocks that a timer may count, Hz, the fastest first. */
  clocksHz: number[];
  /** All timers count the same clock: two frequencies may then exclude each other. */
  sharesClock: boolean;
}

/**
 * Timers and channels: table of the LEDC page in the documentation of espressif/arduino-esp32. Bits and clocks:
 * LEDC pages of ESP-IDF; a shared clock on all chips but the first: espressif/esp-idf#13769 (ESP32-S3, 50 Hz and
 * 4 kHz, on two timers, refused).
 */
export const PWM_FACTS: { [board in BoardId]: PwmFacts } = {
  esp32: {
    groups: 2,
    timersPerGroup: 4,
    channelsPerGroup: 8,
    mostBits: 20,
    clocksHz: [80e6, 1e6],
    sharesClock: false,
  },
  'esp32-s3': {
    groups: 1,
    timersPerGroup: 4,
    channelsPerGroup: 8,
    mostBits: 14,
    clocksHz: [80e6, 40e6],
    sharesClock: true,
  },
  'esp32-c3': {
    groups: 1,
    timersPerGroup: 4,
    channelsPerGroup: 6,
    mostBits: 14,
    clocksHz: [80e6, 40e6],
    sharesClock: true,
  },
};

/**
 * How the interpreter's analogWrite hands them out, all read in espruino/Espruino c5ff787 (jshardwarePWM): 10 bits;
 * 5 kHz on timer 3 for up to five pins; any other frequency on a timer of its own for each pin, three of them, on
 * the channels after the first five.
 */
export const INTERPRETER_PWM = {
  bits: 10,
  sharedHz: 5000,
  sharedTimer: 3,
  sharedPins: 5,
  ownTimers: 3,
} as const;
