import { TautlineError } from '../../../sim/errors.ts';
import { CHIP_LAYOUTS, PARTITIONS_AT, PROGRAM_AT } from './image-layout.ts';
import type { ImagePart, ImageSet } from './image-part.ts';

/** First byte of every image, and where its chip number is (Espressif, "Firmware Image Format"). */
const IMAGE_MAGIC = 0xe9;
const CHIP_ID_AT = 12;
const HEADER_BYTES = 24;
/** First two bytes of a partition table (Espressif, "Partition Tables", binary format). */
const PARTITION_MAGIC = [0xaa, 0x50];
const SECTOR_BYTES = 4096;

/**
 * Refuses files that would not start, before anything is written.
 * @param set parts in order of offset
 * @throws TautlineError `image/...`
 */
export function checkImages(set: ImageSet): void {
  const { bootloaderAt, imageChipId } = CHIP_LAYOUTS[set.board];
  for (const part of set.parts) {
    if (part.bytes.length === 0) throw wrong(part, 'is empty');
    if (part.at % SECTOR_BYTES !== 0)
      throw wrong(part, `would go to ${hex(part.at)}, which is no multiple of 0x1000`);
    if (part.at === bootloaderAt || part.at === PROGRAM_AT) checkHeader(part, imageChipId, set.board);
    if (part.at === PARTITIONS_AT && !PARTITION_MAGIC.every((byte, i) => part.bytes[i] === byte)) {
      throw wrong(part, 'is no partition table: it does not begin with AA 50');
    }
  }
  for (let i = 1; i < set.parts.length; i++) {
    const before = set.parts[i - 1]!;
    const end = before.at + before.bytes.length;
    if (end > set.parts[i]!.at) {
      throw wrong(before, `reaches to ${hex(end)}, into ${set.parts[i]!.file} at ${hex(set.parts[i]!.at)}`);
    }
  }
}

function checkHeader(part: ImagePart, chipId: number, board: string): void {
  if (part.bytes.length < HEADER_BYTES || part.bytes[0] !== IMAGE_MAGIC) {
    throw wrong(part, 'is no image for these chips: it does not begin with E9');
  }
  const found = part.bytes[CHIP_ID_AT]! | (part.bytes[CHIP_ID_AT + 1]! << 8);
  if (found !== chipId) throw wrong(part, `is made for chip number ${found}; ${board} is number ${chipId}`);
}

function wrong(part: ImagePart, what: string): TautlineError {
  return new TautlineError('image/wrong', `${part.file} ${what}.`, {
    detail:
      'Take the files of one release archive for your board, unpacked and unchanged. Nothing was written.',
  });
}

function hex(value: number): string {
  return `0x${value.toString(16)}`;
}
