import type { BoardId } from '../../../firmware/boards/board.ts';

/** What the maker of a chip fixed about where its images go. */
export interface ChipLayout {
  /** Name that the flashing library gives the chip. */
  chipName: string;
  /** Number of the chip in the header of its images (Espressif, "Firmware Image Format", extended file header). */
  imageChipId: number;
  /** Where the second-stage bootloader goes, byte offset. */
  bootloaderAt: number;
}

/** Offsets: README_flash*.txt of espruino/Espruino c5ff787, and the chip maker's documentation. */
export const CHIP_LAYOUTS: { [id in BoardId]: ChipLayout } = {
  esp32: { chipName: 'ESP32', imageChipId: 0, bootloaderAt: 0x1000 },
  'esp32-s3': { chipName: 'ESP32-S3', imageChipId: 9, bootloaderAt: 0 },
  'esp32-c3': { chipName: 'ESP32-C3', imageChipId: 5, bootloaderAt: 0 },
};

export const PARTITIONS_AT = 0x8000;
export const PROGRAM_AT = 0x10000;

/** Names in the interpreter's release archives (make/targets/ESP32*.make of espruino/Espruino c5ff787). */
export const BOOTLOADER_FILES = ['bootloader.bin'];
export const PARTITIONS_FILES = ['partitions_espruino.bin', 'partition-table.bin'];
export const PROGRAM_FILES: { [id in BoardId]: string[] } = {
  esp32: ['espruino_esp32.bin', 'espruino-esp32.bin'],
  'esp32-s3': ['espruino-esp32s3.bin', 'espruino_esp32s3.bin'],
  'esp32-c3': ['espruino-esp32c3.bin', 'espruino_esp32c3.bin'],
};

/** Names that carry the release, for instance espruino_2v29_esp32.bin (boards/ESP32*.py, binary_name). */
export const VERSIONED_PROGRAM: { [id in BoardId]: RegExp } = {
  esp32: /^espruino_.+_esp32\.bin$/,
  'esp32-s3': /^espruino_.+_esp32s3\.bin$/,
  'esp32-c3': /^espruino_.+_esp32c3\.bin$/,
};

/** A file of this name in the folder says what goes where; without it the names above count. */
export const MANIFEST = 'image.json';
