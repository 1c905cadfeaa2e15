/**
 * The interpreter's file store on simulated flash: same answers, same order of writes, same silent failures. Written
 * from the behaviour of espruino/Espruino c5ff787; a test compares the flash images byte by byte where the
 * interpreter is installed.
 */
import { compact } from './compact.ts';
import {
  aligned,
  type FileHeader,
  HEADER_BYTES,
  headerAt,
  isHeader,
  NAME_BYTES,
  nextPage,
  spaceAt,
  walk,
} from './file-chain.ts';
import type { Flash } from './flash.ts';

/** Bytes of a file's name, padded with zeros. */
function nameBytes(name: string): Uint8Array {
  const bytes = new Uint8Array(NAME_BYTES);
  for (let i = 0; i < name.length && i < NAME_BYTES; i++) bytes[i] = name.charCodeAt(i);
  return bytes;
}

function isErased(flash: Flash, at: number, length: number): boolean {
  for (let i = at; i < at + length; i++) if (flash.bytes[i] !== 0xff) return false;
  return true;
}

export class FileStore {
  constructor(readonly flash: Flash) {}

  /** The first file of a name. */
  private find(name: string): FileHeader | undefined {
    const wanted = nameBytes(name);
    let found: FileHeader | undefined;
    walk(this.flash, 0, true, (header) => {
      if (found === undefined && header.name.every((byte, i) => byte === wanted[i])) found = header;
    });
    return found;
  }

  read(name: string): Uint8Array | undefined {
    const file = this.find(name);
    if (!file) return undefined;
    const from = file.at + HEADER_BYTES;
    return this.flash.bytes.slice(from, from + file.size);
  }

  /** Bytes behind the last file. */
  freeBytes(): number {
    let end = 0;
    walk(this.flash, 0, true, (header) => {
      end = header.at + HEADER_BYTES + aligned(header.size);
    });
    return this.flash.bytes.length - end;
  }

  /** Address for a file of so many bytes, compacting if there is no other way; -1 = no room. */
  private place(required: number): number {
    for (let attempt = 0; attempt < 2; attempt++) {
      let free = 0;
      let trash = 0;
      let at = 0;
      while (at >= 0) {
        at = walk(this.flash, at, false, (header) => {
          if (header.first === 0) trash += header.size;
        }).at;
        if (at < 0) break;
        const space = spaceAt(this.flash, at);
        free += space;
        if (space >= required) return at;
        at = nextPage(this.flash, at);
      }
      if (required >= free + trash || !compact(this.flash)) return -1;
    }
    return -1;
  }

  /**
   * Replaces a file.
   * @returns true, also where what was written cannot be read (a damaged header in the way)
   * @throws Error where the interpreter throws; PowerCut
   */
  write(name: string, data: Uint8Array): boolean {
    if (data.length === 0) throw new Error("Can't create zero length file");
    let file = this.find(name);
    const fits = file !== undefined && file.flags === 0 && file.size === data.length;
    if (file === undefined || !fits || !isErased(this.flash, file.at + HEADER_BYTES, data.length)) {
      if (file && fits && data.every((byte, i) => this.flash.bytes[file!.at + HEADER_BYTES + i] === byte)) {
        return true;
      }
      // the old file is gone before there is a new one
      if (file) this.flash.program(file.at + 4, [0, 0, 0, 0]);
      const at = this.place(aligned(data.length) + HEADER_BYTES);
      if (at < 0) throw new Error('Unable to find or create file');
      const size = data.length;
      const header = new Uint8Array(HEADER_BYTES);
      header.set([size & 255, (size >> 8) & 255, (size >> 16) & 255, 0]);
      header.set(nameBytes(name), 4);
      this.flash.program(at, header);
      file = headerAt(this.flash, at);
    }
    const dataAt = file.at + HEADER_BYTES;
    if (!isErased(this.flash, dataAt, data.length)) {
      throw new Error('File already written with different data');
    }
    this.flash.program(dataAt, data);
    return true;
  }

  /** Moves the files together; false if there was nothing to gain. */
  compact(): boolean {
    return compact(this.flash);
  }

  /**
   * What the interpreter does at its first start: files in disorder are all erased.
   * @returns false if that happened ("Storage is corrupt.")
   */
  boot(): boolean {
    if (this.isInOrder()) return true;
    for (let at = 0; at < this.flash.bytes.length; at += this.flash.pageBytes) this.flash.erasePage(at);
    return false;
  }

  private isInOrder(): boolean {
    const { flash } = this;
    const end = flash.bytes.length;
    const { at, last } = walk(flash, 0, true, () => {});
    if (at < 0 && isHeader(flash, last)) {
      const next = aligned(last.at + last.size + HEADER_BYTES);
      if (next <= end && next + HEADER_BYTES > end) return true;
    }
    const blank = isErased(flash, last.at, HEADER_BYTES);
    return blank && at === 0 ? isErased(flash, 0, end) : blank;
  }
}
