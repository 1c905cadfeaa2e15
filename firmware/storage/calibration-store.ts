/**
 * Two calibration files, written alternately, so that a power cut or a worn cell costs at most the newest save. What
 * is written is read back; what has not changed is not written; nothing is written that would make the interpreter
 * move files (it erases pages while it does, and the program stands still).
 */
import {
  type CalibrationRecord,
  createRecord,
  createRecordViews,
  decodeRecord,
  encodeRecord,
  hasGoodEnds,
  isLaterRecord,
  RECORD_ABSENT,
  RECORD_BYTES,
  RECORD_DAMAGED,
  RECORD_FINGERS,
  RECORD_SEQUENCES,
  RECORD_VALID,
  type RecordViews,
} from '../../protocol/calibration-record.ts';
import type { Crc32 } from '../../protocol/encode.ts';
import type { SlotStorage } from './slot-storage.ts';

export const SLOT_NAMES = ['tl.cal0', 'tl.cal1'];

/**
 * Free bytes that a save asks for: the record, its file's header of 32 bytes, and room for one more header. With so
 * much behind the last file the interpreter moves none (read in espruino/Espruino c5ff787).
 */
export const SAVE_BYTES = RECORD_BYTES + 64;

/** The record is stored and was read back. */
export const SAVE_DONE = 0;
/** It was stored already: nothing was written. */
export const SAVE_UNCHANGED = 1;
/** No room without moving files: stop the stream, compact, save again. The old record is untouched. */
export const SAVE_FULL = 2;
/** Written, but reads back otherwise: the old record is untouched. Compacting mends the file store. */
export const SAVE_FAILED = 3;
/** The only other slot holds a record that is not this program's: it is kept unless the save says replace. */
export const SAVE_KEPT = 4;
/** No ends, or ends that no calibration has: nothing was written. */
export const SAVE_BAD_ENDS = 5;

/** Ends as a program holds them, or as a record does. */
type Numbers = Float32Array | Float64Array;

export interface CalibrationStore {
  /** RECORD code of each slot. */
  states: number[];
  /** Slot in use, 0 or 1; -1 = none, the ends built into the program are used. */
  slot: number;
  /** The record in use; its ends are meaningless while `slot` is -1. */
  record: CalibrationRecord;
  /** Second record and buffer, for what is being read. */
  other: CalibrationRecord;
  views: RecordViews;
}

function readSlot(
  storage: SlotStorage,
  slot: number,
  settingsId: number,
  rightHand: boolean,
  views: RecordViews,
  record: CalibrationRecord,
  crc32: Crc32,
): number {
  // a file store in disorder may throw instead of answering
  try {
    return decodeRecord(storage.read(SLOT_NAMES[slot]), settingsId, rightHand, views, record, crc32);
  } catch (_error) {
    return RECORD_DAMAGED;
  }
}

/**
 * Reads both slots: the newest valid record, else the other, else none. Writes nothing.
 * @param settingsId id of what the ends depend on, 32 bits
 */
export function openCalibration(
  storage: SlotStorage,
  settingsId: number,
  rightHand: boolean,
  crc32: Crc32,
): CalibrationStore {
  const views = createRecordViews();
  const first = createRecord();
  const second = createRecord();
  const state0 = readSlot(storage, 0, settingsId, rightHand, views, first, crc32);
  const state1 = readSlot(storage, 1, settingsId, rightHand, views, second, crc32);
  const both = state0 === RECORD_VALID && state1 === RECORD_VALID;
  const secondWins = both ? isLaterRecord(second.sequence, first.sequence) : state1 === RECORD_VALID;
  const store = {
    states: [state0, state1],
    slot: secondWins ? 1 : state0 === RECORD_VALID ? 0 : -1,
    record: secondWins ? second : first,
    other: secondWins ? first : second,
    views: views,
  };
  if (store.slot < 0) store.record.sequence = 0;
  store.record.settingsId = settingsId;
  store.record.rightHand = rightHand;
  return store;
}

/** A slot that may be written: empty or damaged, or the older one of our own. */
function isOurs(state: number): boolean {
  return state === RECORD_VALID || state === RECORD_ABSENT || state === RECORD_DAMAGED;
}

/** The slot that the next save goes to. */
function nextSlot(store: CalibrationStore): number {
  if (store.slot >= 0) return 1 - store.slot;
  return isOurs(store.states[0]) ? 0 : 1;
}

function isSame(record: CalibrationRecord, captured: number, ends: Numbers): boolean {
  if (record.captured !== captured) return false;
  for (let i = 0; i < 2 * RECORD_FINGERS; i++) {
    if (captured & (1 << (i >> 1)) && record.ends[i] !== ends[i]) return false;
  }
  return true;
}

function writeAndCompare(storage: SlotStorage, name: string, bytes: Uint8Array): boolean {
  try {
    if (!storage.write(name, bytes)) return false;
    const back = storage.read(name);
    if (!back || back.length !== RECORD_BYTES) return false;
    for (let i = 0; i < RECORD_BYTES; i++) if (back[i] !== bytes[i]) return false;
    return true;
  } catch (_error) {
    return false;
  }
}

/**
 * Stores a calibration in the slot that is not in use.
 * @param captured bit i: finger i has ends
 * @param ends open and closed of each finger, mean readings of 0 to 1; those of fingers not captured are ignored
 * @param replace whether a record of other settings, another hand or an unknown version may be overwritten
 * @returns one of the SAVE codes; only after SAVE_DONE and SAVE_UNCHANGED is the record in the store the new one
 */
export function saveCalibration(
  store: CalibrationStore,
  storage: SlotStorage,
  captured: number,
  ends: Numbers,
  replace: boolean,
  crc32: Crc32,
): number {
  const old = store.record;
  const next = store.other;
  const slot = nextSlot(store);
  if (captured === 0 || !hasGoodEnds(captured, ends)) return SAVE_BAD_ENDS;
  if (store.slot >= 0 && isSame(old, captured, ends)) return SAVE_UNCHANGED;
  if (!replace && !isOurs(store.states[slot])) return SAVE_KEPT;
  if (!(storage.freeBytes() >= SAVE_BYTES)) return SAVE_FULL;
  next.sequence = store.slot < 0 ? 1 : (old.sequence + 1) % RECORD_SEQUENCES;
  next.settingsId = old.settingsId;
  next.rightHand = old.rightHand;
  next.captured = captured;
  for (let i = 0; i < 2 * RECORD_FINGERS; i++) next.ends[i] = captured & (1 << (i >> 1)) ? ends[i] : 0;
  encodeRecord(next, store.views, crc32);
  if (!writeAndCompare(storage, SLOT_NAMES[slot], store.views.bytes)) {
    store.states[slot] = RECORD_DAMAGED;
    return SAVE_FAILED;
  }
  store.states[slot] = RECORD_VALID;
  store.slot = slot;
  store.record = next;
  store.other = old;
  return SAVE_DONE;
}

/** States of both slots and the slot in use in one number: slot 0 + 16 × slot 1 + 256 × (slot in use + 1). */
export function packStates(store: CalibrationStore): number {
  return store.states[0] + 16 * store.states[1] + 256 * (store.slot + 1);
}
