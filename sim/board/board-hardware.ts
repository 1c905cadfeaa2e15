import type { InterpreterStorage } from '../../firmware/storage/slot-storage.ts';

/** The outside of a board as a program sees it. Pins are GPIO numbers. */
export interface BoardHardware {
  /** 0-1; the converter's count over 4096. */
  analogRead: (pin: number) => number;
  /** 0 or 1. */
  digitalRead: (pin: number) => number;
  digitalWrite: (pin: number, level: number) => void;
  /** Clock, s. */
  getTime: () => number;
  /** Takes one frame. The array is used again: copy it. */
  write: (frame: Uint8Array) => void;
  storage: InterpreterStorage;
  /** CRC-32 of the running program's file. */
  programCrc: () => number;
  /** Called for timer changes: true = ticks wanted. */
  setTicking: (on: boolean) => void;
  reload: () => void;
}
