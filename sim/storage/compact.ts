import { aligned, HEADER_BYTES, isReal, nextPage, walk } from './file-chain.ts';
import type { Flash } from './flash.ts';

/** Writes bytes from an address on; each page is erased when its first byte is due. */
function rewrite(flash: Flash, from: number, image: Uint8Array): void {
  for (let at = from; at < from + image.length; ) {
    const pageEnd = (Math.floor(at / flash.pageBytes) + 1) * flash.pageBytes;
    if (at % flash.pageBytes === 0) flash.erasePage(at);
    const stop = Math.min(pageEnd, from + image.length);
    flash.program(at, image.subarray(at - from, stop - from));
    at = stop;
  }
}

/**
 * Moves files together, as the interpreter does: from the last page that starts with a header and has no replaced
 * file before it, page by page, each erased and then written from memory. Between the two, its files are nowhere.
 * @returns false if there is no replaced file, so nothing to gain
 */
export function compact(flash: Flash): boolean {
  let pageStart = 0;
  let from = -1;
  walk(flash, 0, true, (header) => {
    if (header.at % flash.pageBytes === 0) pageStart = header.at;
    if (header.first === 0 && from < 0) from = pageStart;
  });
  if (from < 0) return false;
  const kept: Uint8Array[] = [];
  let length = 0;
  const { at } = walk(flash, from, true, (header) => {
    if (!isReal(header)) return;
    kept.push(flash.bytes.slice(header.at, header.at + HEADER_BYTES + aligned(header.size)));
    length += kept[kept.length - 1]!.length;
  });
  const image = new Uint8Array(length);
  let offset = 0;
  for (const file of kept) {
    image.set(file, offset);
    offset += file.length;
  }
  rewrite(flash, from, image);
  const written = from + length;
  const firstOld = length === 0 ? from : nextPage(flash, written - 1);
  const stop = at < 0 ? flash.bytes.length : at;
  for (let page = firstOld; page >= 0 && page < stop; page = nextPage(flash, page)) flash.erasePage(page);
  return true;
}
