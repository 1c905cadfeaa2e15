/** What the calibration store needs of the board's file store. The interpreter's and the simulated one both fit. */
export interface SlotStorage {
  /** Content of a file; undefined if there is none. */
  read(name: string): Uint8Array | undefined;
  /** Replaces a file. The answer may be a lie (see the store): only reading back tells. May throw. */
  write(name: string, bytes: Uint8Array): boolean;
  /** Bytes behind the last file, which a write can have without moving other files. */
  freeBytes(): number;
}

/** The interpreter's own module, as far as it is used: `require("Storage")`. */
export interface InterpreterStorage {
  readArrayBuffer(name: string): ArrayBuffer | undefined;
  write(name: string, data: Uint8Array): boolean;
  getFree(): number;
}

/** The interpreter's file store as the calibration store wants it. */
export function slotStorageOf(storage: InterpreterStorage): SlotStorage {
  return {
    read: function (name: string): Uint8Array | undefined {
      const buffer = storage.readArrayBuffer(name);
      return buffer ? new Uint8Array(buffer) : undefined;
    },
    write: function (name: string, bytes: Uint8Array): boolean {
      return storage.write(name, bytes);
    },
    freeBytes: function (): number {
      return storage.getFree();
    },
  };
}
