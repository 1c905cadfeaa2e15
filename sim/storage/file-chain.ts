import type { Flash } from './flash.ts';

/** Bytes of a file's header: a size word and a name. */
export const HEADER_BYTES = 32;
export const NAME_BYTES = 28;
/** Files start at multiples of so many bytes. */
export const ALIGN_BYTES = 4;
/** Size word of erased flash. */
const UNSET = 0xffffffff;
/** Flags of a size word (top byte) that belong to real files: plain, growing, packed. */
const REAL_FLAGS = [0, 64, 128];

export interface FileHeader {
  /** Address of the header. */
  at: number;
  sizeWord: number;
  /** Bytes of content: the low 24 bits of the size word. */
  size: number;
  flags: number;
  /** First four bytes of the name as a word; 0 = replaced. */
  first: number;
  name: Uint8Array;
}

export function aligned(bytes: number): number {
  return Math.ceil(bytes / ALIGN_BYTES) * ALIGN_BYTES;
}

function word(bytes: Uint8Array, at: number): number {
  return (bytes[at] | (bytes[at + 1] << 8) | (bytes[at + 2] << 16) | (bytes[at + 3] << 24)) >>> 0;
}

/** What is at an address, taken as a header. */
export function headerAt(flash: Flash, at: number): FileHeader {
  const sizeWord = word(flash.bytes, at);
  return {
    at,
    sizeWord,
    size: sizeWord & 0xffffff,
    flags: sizeWord >>> 24,
    first: word(flash.bytes, at + 4),
    name: flash.bytes.subarray(at + 4, at + HEADER_BYTES),
  };
}

/** A header that the interpreter believes: not erased, not nought, and its file ends inside the flash. */
export function isHeader(flash: Flash, header: FileHeader): boolean {
  return (
    header.sizeWord !== UNSET &&
    header.sizeWord !== 0 &&
    header.at + HEADER_BYTES + header.size <= flash.bytes.length
  );
}

export function isReal(header: FileHeader): boolean {
  return header.first !== 0 && REAL_FLAGS.includes(header.flags);
}

/** Address of the page behind an address; -1 behind the last. */
export function nextPage(flash: Flash, at: number): number {
  const next = (Math.floor(at / flash.pageBytes) + 1) * flash.pageBytes;
  return next < flash.bytes.length ? next : -1;
}

/** How a walk along the headers ended. */
export interface WalkEnd {
  /** Where no header was; -1 = no room for another, or no page left to look at. */
  at: number;
  /** The last header looked at, believed or not. */
  last: FileHeader;
  /** Address of the last believed header, or the start. */
  lastGoodAt: number;
}

/**
 * Follows the headers from one to the next, as the interpreter does: each says where the next one is.
 * @param acrossPages where there is none, look once at the start of the next page
 */
export function walk(
  flash: Flash,
  from: number,
  acrossPages: boolean,
  visit: (header: FileHeader) => void,
): WalkEnd {
  let header = headerAt(flash, from);
  if (!isHeader(flash, header)) return { at: from, last: header, lastGoodAt: from };
  for (;;) {
    visit(header);
    const lastGoodAt = header.at;
    const next = aligned(header.at + header.size + HEADER_BYTES);
    if (next + HEADER_BYTES > flash.bytes.length) return { at: -1, last: header, lastGoodAt };
    header = headerAt(flash, next);
    if (isHeader(flash, header)) continue;
    if (!acrossPages) return { at: next, last: header, lastGoodAt };
    const page = nextPage(flash, next);
    if (page < 0) return { at: -1, last: header, lastGoodAt };
    header = headerAt(flash, page);
    if (!isHeader(flash, header)) return { at: page, last: header, lastGoodAt };
  }
}

/** Bytes from an address up to the next page that starts with a header, or up to the end. */
export function spaceAt(flash: Flash, at: number): number {
  const page = nextPage(flash, at);
  const stop = page >= 0 && isHeader(flash, headerAt(flash, page)) ? page : -1;
  return (stop < 0 ? flash.bytes.length : stop) - at;
}
