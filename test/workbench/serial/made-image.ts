import type { BoardId } from '../../../firmware/boards/board.ts';
import { CHIP_LAYOUTS, PARTITIONS_AT, PROGRAM_AT } from '../../../workbench/serial/flash/image-layout.ts';
import type { ImagePart, ImageSet } from '../../../workbench/serial/flash/image-part.ts';

/** Bytes that do not compress well: a 32-bit linear congruential row (Numerical Recipes, 1664525 and 1013904223). */
function noise(count: number, seed: number): Uint8Array {
  const bytes = new Uint8Array(count);
  let state = seed;
  for (let i = 0; i < count; i++) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    bytes[i] = state >>> 24;
  }
  return bytes;
}

/** An image with the headers that the chip maker documents and noise behind them. */
export function madeImage(board: BoardId, programBytes: number): ImageSet {
  const { bootloaderAt, imageChipId } = CHIP_LAYOUTS[board];
  const image = (file: string, at: number, size: number): ImagePart => {
    const bytes = noise(size, size + at);
    bytes[0] = 0xe9;
    bytes[12] = imageChipId;
    bytes[13] = 0;
    return { file, at, bytes };
  };
  const table = noise(3072, 7);
  table[0] = 0xaa;
  table[1] = 0x50;
  return {
    board,
    parts: [
      image('bootloader.bin', bootloaderAt, 20_000),
      { file: 'partition-table.bin', at: PARTITIONS_AT, bytes: table },
      image('program.bin', PROGRAM_AT, programBytes),
    ],
  };
}
