import type { TextCrc32 } from '../../protocol/commands.ts';
import type { Crc32 } from '../../protocol/encode.ts';
import type { SlotStorage } from '../storage/slot-storage.ts';

/** What the seldom run code needs of the board. */
export interface BoardDevice {
  storage: SlotStorage;
  crc32: Crc32;
  textCrc: TextCrc32;
  /** CRC-32 of the running program's file, 0 to 2^32 - 1. */
  programCrc: () => number;
  startTicks: () => void;
  stopTicks: () => void;
  /** Starts the program anew a moment later. */
  reload: () => void;
}

/** What a program says of itself. */
export interface ProgramFacts {
  /** 0-255 */
  programId: number;
  /** 32 bits: of all that a calibration's ends depend on. */
  settingsId: number;
  rightHand: boolean;
}
