import { describe, expect, it } from 'vitest';
import {
  type CalibrationStore,
  openCalibration,
  SAVE_BAD_ENDS,
  SAVE_BYTES,
  SAVE_DONE,
  SAVE_FAILED,
  SAVE_FULL,
  SAVE_KEPT,
  SAVE_UNCHANGED,
  SLOT_NAMES,
  saveCalibration,
} from '../../../firmware/storage/calibration-store.ts';
import type { SlotStorage } from '../../../firmware/storage/slot-storage.ts';
import { slotStorageOf } from '../../../firmware/storage/slot-storage.ts';
import {
  RECORD_ABSENT,
  RECORD_DAMAGED,
  RECORD_OTHER_HAND,
  RECORD_OTHER_SETTINGS,
  RECORD_UNKNOWN_VERSION,
  RECORD_VALID,
} from '../../../protocol/calibration-record.ts';
import { crc32 } from '../../../protocol/crc32.ts';
import { FileStore } from '../../../sim/storage/file-store.ts';
import { Flash } from '../../../sim/storage/flash.ts';

const ID = 0x12345678;
const ends = (open: number) => Float64Array.from([open, 0.9, 0.1, 0.9, 0.1, 0.9, 0.1, 0.9, 0.1, 0.9]);

function open(storage: SlotStorage, id = ID, right = true): CalibrationStore {
  return openCalibration(storage, id, right, crc32);
}
function save(store: CalibrationStore, storage: SlotStorage, openEnd: number, replace = false): number {
  return saveCalibration(store, storage, 31, ends(openEnd), replace, crc32);
}

/** A file store in memory that counts its writes. */
function memory() {
  const files = new Map<string, Uint8Array>();
  const storage = {
    files,
    writes: [] as string[],
    read: (name: string) => files.get(name)?.slice(),
    write(name: string, bytes: Uint8Array): boolean {
      storage.writes.push(name);
      files.set(name, bytes.slice());
      return true;
    },
    freeBytes: () => 1000,
  };
  return storage;
}

/** Puts a sequence number into a stored record. */
function renumber(bytes: Uint8Array, sequence: number, version = 2): Uint8Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  view.setUint16(4, version, true);
  view.setUint32(8, sequence, true);
  view.setUint32(104, crc32(bytes.subarray(0, 104)), true);
  return bytes;
}

describe('the calibration store', () => {
  it('starts with none and says so', () => {
    const store = open(memory());
    expect(store.slot).toBe(-1);
    expect(store.states).toEqual([RECORD_ABSENT, RECORD_ABSENT]);
  });

  it('writes the two slots in turn and uses the newer one', () => {
    const storage = memory();
    const store = open(storage);
    for (let i = 1; i <= 5; i++) {
      expect(save(store, storage, i / 100)).toBe(SAVE_DONE);
      const again = open(storage);
      expect([again.slot, again.record.sequence, again.record.ends[0]]).toEqual([(i - 1) % 2, i, i / 100]);
      expect(again.record).toEqual(store.record);
    }
    expect(storage.writes).toEqual([0, 1, 0, 1, 0].map((slot) => SLOT_NAMES[slot]));
  });

  it('does not write what is stored already, and does not erase a page for it', () => {
    const flash = new Flash(4 * 4096, 4096);
    const storage = new FileStore(flash);
    const store = open(storage);
    expect(save(store, storage, 0.2)).toBe(SAVE_DONE);
    const { programmedBytes, erases } = flash;
    for (let i = 0; i < 1000; i++) expect(save(open(storage), storage, 0.2)).toBe(SAVE_UNCHANGED);
    expect(flash.programmedBytes).toBe(programmedBytes);
    expect(flash.erases).toBe(erases);
    expect(erases).toBe(0);
  });

  it('ignores the ends of fingers that are not captured', () => {
    const storage = memory();
    const store = open(storage);
    const odd = ends(0.2);
    odd[8] = Number.NaN;
    expect(saveCalibration(store, storage, 0b1111, odd, false, crc32)).toBe(SAVE_DONE);
    odd[9] = 12;
    expect(saveCalibration(store, storage, 0b1111, odd, false, crc32)).toBe(SAVE_UNCHANGED);
    expect([...open(storage).record.ends.subarray(8)]).toEqual([0, 0]);
  });

  it('numbers past 2^32 - 1', () => {
    const storage = memory();
    const store = open(storage);
    save(store, storage, 0.1);
    storage.files.set(SLOT_NAMES[0]!, renumber(storage.files.get(SLOT_NAMES[0]!)!, 0xffffffff));
    const last = open(storage);
    expect(last.record.sequence).toBe(4294967295);
    expect(save(last, storage, 0.2)).toBe(SAVE_DONE);
    const wrapped = open(storage);
    expect([wrapped.slot, wrapped.record.sequence, wrapped.record.ends[0]]).toEqual([1, 0, 0.2]);
    expect(save(wrapped, storage, 0.3)).toBe(SAVE_DONE);
    expect([open(storage).slot, open(storage).record.sequence]).toEqual([0, 1]);
  });

  it('falls back to the older record when the newer one is damaged', () => {
    const storage = memory();
    const store = open(storage);
    save(store, storage, 0.1);
    save(store, storage, 0.2);
    storage.files.get(SLOT_NAMES[1]!)![30] ^= 4;
    const old = open(storage);
    expect([old.slot, old.record.ends[0], old.states[1]]).toEqual([0, 0.1, RECORD_DAMAGED]);
    expect(save(old, storage, 0.3)).toBe(SAVE_DONE);
    expect([open(storage).slot, open(storage).record.ends[0]]).toEqual([1, 0.3]);
  });

  it('names records that are not its own, keeps them, and replaces them only when told', () => {
    const storage = memory();
    const mine = open(storage, 1);
    save(mine, storage, 0.1);
    save(mine, storage, 0.2);
    const kept = [...storage.files.values()].map((bytes) => bytes.slice());
    const others = open(storage, 2);
    expect([others.slot, ...others.states]).toEqual([-1, RECORD_OTHER_SETTINGS, RECORD_OTHER_SETTINGS]);
    expect(open(storage, 1, false).states).toEqual([RECORD_OTHER_HAND, RECORD_OTHER_HAND]);
    expect(save(others, storage, 0.5)).toBe(SAVE_KEPT);
    expect([...storage.files.values()]).toEqual(kept);
    expect(save(others, storage, 0.5, true)).toBe(SAVE_DONE);
    expect(open(storage, 2).record.ends[0]).toBe(0.5);
    // the other one of the first program is still there
    expect(open(storage, 1).record.ends[0]).toBe(0.1);
  });

  it('keeps a record of an unknown version beside its own', () => {
    const storage = memory();
    const store = open(storage);
    save(store, storage, 0.1);
    const future = renumber(storage.files.get(SLOT_NAMES[0]!)!, 9, 3).slice();
    storage.files.set(SLOT_NAMES[0]!, future);
    const next = open(storage);
    expect([next.slot, ...next.states]).toEqual([-1, RECORD_UNKNOWN_VERSION, RECORD_ABSENT]);
    expect(save(next, storage, 0.2)).toBe(SAVE_DONE);
    expect(save(next, storage, 0.3)).toBe(SAVE_KEPT);
    expect(storage.files.get(SLOT_NAMES[0]!)).toEqual(future);
    expect([open(storage).slot, open(storage).record.ends[0]]).toEqual([1, 0.2]);
  });

  it('refuses ends that no finger has', () => {
    const storage = memory();
    const store = open(storage);
    for (const bad of [Number.NaN, -0.1, 1.1, 0.9, Number.POSITIVE_INFINITY])
      expect(save(store, storage, bad)).toBe(SAVE_BAD_ENDS);
    expect(storage.writes).toEqual([]);
  });

  it('refuses rather than let files be moved', () => {
    const storage = memory();
    const store = open(storage);
    storage.freeBytes = () => SAVE_BYTES - 1;
    expect(save(store, storage, 0.1)).toBe(SAVE_FULL);
    expect(storage.writes).toEqual([]);
    storage.freeBytes = () => SAVE_BYTES;
    expect(save(store, storage, 0.1)).toBe(SAVE_DONE);
  });

  it.each([
    ['answers true and stores nothing', () => true],
    ['answers false', () => false],
    [
      'throws',
      () => {
        throw new Error('Unable to find or create file');
      },
    ],
  ])('goes on with the old record when the file store %s', (_title, write) => {
    const storage = memory();
    const store = open(storage);
    save(store, storage, 0.1);
    const good = storage.write;
    storage.write = write;
    expect(save(store, storage, 0.2)).toBe(SAVE_FAILED);
    expect([store.slot, store.record.ends[0], store.states[1]]).toEqual([0, 0.1, RECORD_DAMAGED]);
    storage.write = good;
    expect(save(store, storage, 0.2)).toBe(SAVE_DONE);
    expect([open(storage).slot, open(storage).record.ends[0]]).toEqual([1, 0.2]);
  });

  it('notices a cell that does not take a bit', () => {
    const storage = memory();
    const store = open(storage);
    save(store, storage, 0.1);
    const good = storage.write;
    for (let at = 0; at < 108; at++) {
      storage.write = (name, bytes) => {
        const worn = bytes.slice();
        worn[at] ^= 16;
        return good(name, worn);
      };
      expect(save(store, storage, 0.2)).toBe(SAVE_FAILED);
      expect(open(storage).record.ends[0]).toBe(0.1);
    }
  });

  it('takes a file store that throws on reading as damaged', () => {
    const storage = memory();
    storage.read = () => {
      throw new Error('out of memory');
    };
    expect(open(storage).states).toEqual([RECORD_DAMAGED, RECORD_DAMAGED]);
  });

  it('takes a slot of unknown order for the first', () => {
    const storage = memory();
    const store = open(storage);
    save(store, storage, 0.1);
    save(store, storage, 0.2);
    storage.files.set(SLOT_NAMES[0]!, renumber(storage.files.get(SLOT_NAMES[0]!)!, 0));
    storage.files.set(SLOT_NAMES[1]!, renumber(storage.files.get(SLOT_NAMES[1]!)!, 0x80000000));
    expect(open(storage).slot).toBe(0);
    expect(open(storage).states).toEqual([RECORD_VALID, RECORD_VALID]);
  });
});

describe('the interpreter’s module as a slot storage', () => {
  it('reads, writes and tells its room', () => {
    const content = new Map<string, ArrayBuffer>();
    const storage = slotStorageOf({
      readArrayBuffer: (name) => content.get(name),
      write: (name, data) => content.set(name, data.slice().buffer as ArrayBuffer).size > 0,
      getFree: () => 4711,
    });
    expect(storage.read('a')).toBeUndefined();
    expect(storage.write('a', Uint8Array.of(1, 2))).toBe(true);
    expect(storage.read('a')).toEqual(Uint8Array.of(1, 2));
    expect(storage.freeBytes()).toBe(4711);
  });
});
