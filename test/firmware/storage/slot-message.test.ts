import { describe, expect, it } from 'vitest';
import { openCalibration, packStates } from '../../../firmware/storage/calibration-store.ts';
import { saveMessage, storedMessage, storedStates } from '../../../firmware/storage/slot-message.ts';

function packed(state0: number, state1: number, slot: number): number {
  const none = { read: () => undefined, write: () => false, freeBytes: () => 0 };
  return packStates({ ...openCalibration(none, 1, true, () => 0), states: [state0, state1], slot });
}

describe('what is told of the stored calibration', () => {
  it('survives the way through one number', () => {
    for (let state0 = 0; state0 < 6; state0++)
      for (let state1 = 0; state1 < 6; state1++)
        for (let slot = -1; slot < 2; slot++)
          expect(storedStates(packed(state0, state1, slot))).toEqual({ states: [state0, state1], slot });
    // as in SPEC.md: slot 0 valid, slot 1 of other settings, slot 0 in use
    expect(packed(0, 4, 0)).toBe(0x140);
  });

  it('names each slot and what is used', () => {
    expect(storedMessage({ states: [1, 4], slot: -1 })).toBe(
      'No stored calibration is used, the ends built into the program are: slot 0 is empty, slot 1 was captured for another rig or other pins; it is kept. Capture the ends and store them.',
    );
    expect(storedMessage({ states: [2, 0], slot: 1 })).toMatch(
      /slot 1 is used: slot 0 is damaged, slot 1 is valid/,
    );
    expect(storedMessage({ states: [3, 5], slot: -1 })).toMatch(/newer program.*other hand/);
  });

  it('names each outcome of a save and what to do', () => {
    const all = [0, 1, 2, 3, 4, 5].map(saveMessage);
    expect(new Set(all).size).toBe(6);
    expect(all[2]).toMatch(/without moving files.*compact/);
    expect(all[4]).toMatch(/replace/);
    expect(saveMessage(77)).toMatch(/77/);
  });
});
