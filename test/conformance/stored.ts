/** Calibration files that a board may find when it starts. */
import type { ProgramFacts } from '../../firmware/main/board-device.ts';
import { SLOT_NAMES } from '../../firmware/storage/calibration-store.ts';
import { createRecord, createRecordViews, encodeRecord } from '../../protocol/calibration-record.ts';
import { crc32 } from '../../protocol/crc32.ts';
import type { LEVELS } from './choices.ts';

type Stored = (typeof LEVELS.stored)[number];

export function storedFiles(kind: Stored, facts: ProgramFacts, slots: number[]): [string, number[]][] {
  const [first, second] = SLOT_NAMES as [string, string];
  const captured = slots.reduce((bits, slot) => bits | (1 << slot), 0);
  switch (kind) {
    case 'nothing':
      return [];
    case 'own':
      // the second one is the later one, and has ends of one finger only
      return [
        [first, record(facts, 4294967295, captured, 0.15)],
        [second, record(facts, 0, 1 << slots[0]!, 0.19)],
      ];
    case 'own, old version':
      return [[second, oldRecord(facts)]];
    case 'other hand':
      return [
        [first, record({ ...facts, rightHand: !facts.rightHand }, 3, captured, 0.15)],
        [second, record({ ...facts, settingsId: 1 }, 4, captured, 0.15)],
      ];
    case 'damaged':
      return [
        [first, record(facts, 3, captured, 0.17)],
        [second, record(facts, 4, captured, 0.15).map((byte, i) => (i === 50 ? byte ^ 1 : byte))],
      ];
  }
}

function record(facts: ProgramFacts, sequence: number, captured: number, open: number): number[] {
  const one = createRecord();
  const views = createRecordViews();
  Object.assign(one, { sequence, settingsId: facts.settingsId, rightHand: facts.rightHand, captured });
  for (let finger = 0; finger < 5; finger++) {
    one.ends[2 * finger] = open + 0.003 * finger;
    one.ends[2 * finger + 1] = 0.7 - 0.01 * finger;
  }
  encodeRecord(one, views, crc32);
  return [...views.bytes];
}

/** Version 1, as SPEC.md describes it: 40 bytes, ends as shares of 65536. */
function oldRecord(facts: ProgramFacts): number[] {
  const view = new DataView(new ArrayBuffer(40));
  view.setUint32(0, 0x52434c54, true);
  view.setUint16(4, 1, true);
  view.setUint16(6, 40, true);
  view.setUint32(8, 77, true);
  view.setUint32(12, facts.settingsId, true);
  for (let finger = 0; finger < 5; finger++) {
    view.setUint16(16 + 4 * finger, 9000 + 100 * finger, true);
    view.setUint16(18 + 4 * finger, 47000, true);
  }
  const bytes = new Uint8Array(view.buffer);
  view.setUint32(36, crc32(bytes.subarray(0, 36)), true);
  return [...bytes];
}
