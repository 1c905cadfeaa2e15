/** What each command does, made of the hand's routines and the board's devices. */
import { PROTOCOL_VERSION } from '../../protocol/frame.ts';
import {
  openCalibration,
  packStates,
  SAVE_DONE,
  SAVE_UNCHANGED,
  saveCalibration,
} from '../storage/calibration-store.ts';
import type { BoardDevice, ProgramFacts } from './board-device.ts';
import type { CommandState } from './commands.ts';
import type { HandRoutines } from './hand-routines.ts';
import type { BoardActions } from './perform.ts';

/** @param after told what is to happen once the reply has gone */
export function createActions(
  hand: HandRoutines,
  device: BoardDevice,
  facts: ProgramFacts,
  commands: CommandState,
  after: { restart: boolean },
): BoardActions {
  return {
    version: function (which: number): number {
      return which === 0 ? PROTOCOL_VERSION * 256 + facts.programId : which === 1 ? facts.settingsId : NaN;
    },
    counter: function (which: number): number {
      return which === 2 ? commands.damaged : which === 3 ? commands.done : hand.counter(which);
    },
    setNumber: hand.setNumber,
    getNumber: hand.getNumber,
    raw: hand.raw,
    beginCapture: hand.beginCapture,
    endCapture: function (): number {
      return hand.isCapturing() ? hand.endCapture() : NaN;
    },
    store: function (replace: boolean): number {
      const store = openCalibration(device.storage, facts.settingsId, facts.rightHand, device.crc32);
      const saved = saveCalibration(
        store,
        device.storage,
        hand.captured(),
        hand.ends(),
        replace,
        device.crc32,
      );
      if (saved === SAVE_DONE || saved === SAVE_UNCHANGED) hand.markStored(hand.captured());
      return saved;
    },
    stored: function (which: number): number {
      const store = openCalibration(device.storage, facts.settingsId, facts.rightHand, device.crc32);
      return which === 0 ? store.record.sequence : which === 1 ? packStates(store) : NaN;
    },
    zero: hand.zero,
    identify: device.programCrc,
    stream: function (on: boolean): void {
      device.stopTicks();
      hand.refresh();
      if (on) device.startTicks();
    },
    failed: hand.countError,
    restart: function (): void {
      after.restart = true;
    },
  };
}
