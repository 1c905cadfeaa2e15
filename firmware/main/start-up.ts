import { openCalibration } from '../storage/calibration-store.ts';
import type { BoardDevice, ProgramFacts } from './board-device.ts';
import type { HandRoutines } from './hand-routines.ts';

/** Brings the program up: frames set up, stored ends taken, timer started. Blocks for nothing. */
export function startUp(
  hand: Pick<HandRoutines, 'begin' | 'takeEnds' | 'markStored'>,
  device: BoardDevice,
  facts: ProgramFacts,
): void {
  hand.begin();
  const store = openCalibration(device.storage, facts.settingsId, facts.rightHand, device.crc32);
  const record = store.record;
  if (store.slot >= 0) {
    for (let slot = 0; slot < 5; slot++) {
      if (record.captured & (1 << slot))
        hand.takeEnds(slot, record.ends[2 * slot], record.ends[2 * slot + 1]);
    }
  }
  hand.markStored(store.slot < 0 ? 0 : record.captured);
  device.startTicks();
}
