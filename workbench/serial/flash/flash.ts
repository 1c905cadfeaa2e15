import { createHash } from 'node:crypto';
import { ESPLoader } from 'esptool-js';
import type { BoardId } from '../../../firmware/boards/board.ts';
import { createEnding, endAfter } from '../ending.ts';
import { type Link, RUN_LINES } from '../link.ts';
import { endError } from '../port-errors.ts';
import { libraryError, noAnswerError, otherChipError, smallFlashError } from './flash-errors.ts';
import { createGuardedTransport } from './guarded-transport.ts';
import { CHIP_LAYOUTS } from './image-layout.ts';
import type { ImageSet } from './image-part.ts';
import { type UsbIds, webSerialOver } from './web-serial.ts';

export interface FlashRequest {
  link: Link;
  images: ImageSet;
  /** Rate while writing, bits per second; the first contact is always at 115200. */
  baud: number;
  usb?: UsbIds;
  /** Erases the whole flash first: files and calibration on the board too. */
  erase?: boolean;
  /** Tries to get an answer from the chip; each takes 0.7 to 1.3 s. */
  attempts?: number;
  /** Limit for everything together, ms. */
  limitMs?: number;
  onStage?(words: string): void;
  /** Compressed bytes of one file. */
  onProgress?(file: string, doneBytes: number, totalBytes: number): void;
}

export interface FlashResult {
  chip: string;
  board: BoardId;
  /** Size of the flash chip, bytes; 0 = it did not tell. */
  flashBytes: number;
  files: { file: string; at: number; bytes: number; md5: string }[];
  tookMs: number;
}

/** Rate of the chip's loader in ROM; also the rate at which the library tries first. */
const ROM_BAUD = 115_200;
const USUAL_ATTEMPTS = 5;
const TEXT_KEPT = 4096;
/** 1.5 MB at 115200 baud take about 2 minutes; erasing a flash chip up to 2 more. Assumed. */
const USUAL_LIMIT_MS = 600_000;
/**
 * Lets the boot pin go, holds reset for 100 ms, lets it go: the library's own "hard reset" only lets reset go, which
 * left an emulated chip in its loader.
 */
const RESET_INTO_PROGRAM = 'D0|R1|W100|R0';

/**
 * Writes an image and starts it: detects the chip and refuses another than the image's, writes every part, has the
 * chip compute its MD5 over what it holds, and resets into the program. The port is closed in every case.
 * @throws TautlineError `flash/...` or `port/...`
 */
export async function flash(request: FlashRequest): Promise<FlashResult> {
  const { link, images } = request;
  const startMs = performance.now();
  const ending = createEnding();
  let during = 'opening the port';
  let began = false;
  const stage = (words: string): void => {
    during = words;
    request.onStage?.(words);
  };
  const stopClock = endAfter(ending, request.limitMs ?? USUAL_LIMIT_MS, link.name, () => during);
  link.onEnd((end) => {
    const next = began
      ? 'The board will not start until it is flashed again; its loader in ROM cannot be damaged.'
      : 'Nothing was written.';
    ending.end(endError(link.name, end, during, next));
  });

  let heard = '';
  const port = webSerialOver(link, request.usb ?? {}, (bytes) => {
    heard = (heard + Buffer.from(bytes).toString('latin1')).slice(-TEXT_KEPT);
  });
  const transport = createGuardedTransport(port, ending);
  const quiet = { clean() {}, write() {}, writeLine() {} };

  try {
    await ending.until(link.open(ROM_BAUD, RUN_LINES));
    const loader = new ESPLoader({
      transport,
      baudrate: request.baud,
      romBaudrate: ROM_BAUD,
      terminal: quiet,
    });

    stage('looking for the chip');
    try {
      await ending.until(loader.detectChip('default_reset', request.attempts ?? USUAL_ATTEMPTS));
    } catch (error) {
      if (/failed to connect/i.test(String(error))) throw noAnswerError(link.name, heard);
      throw error;
    }
    const chip = loader.chip.CHIP_NAME;
    const expected = CHIP_LAYOUTS[images.board].chipName;
    if (chip !== expected) throw otherChipError(link.name, chip, expected, images.board);

    stage('starting the loader');
    await ending.until(loader.chip.postConnect?.(loader) ?? Promise.resolve());
    await ending.until(loader.runStub());
    if (request.baud !== ROM_BAUD) await ending.until(loader.changeBaud());

    stage('asking the size of the flash');
    const size = await ending.until(loader.detectFlashSize());
    const flashBytes = size === undefined ? 0 : sizeBytes(size);
    const needed = Math.max(...images.parts.map((part) => part.at + part.bytes.length));
    if (flashBytes > 0 && needed > flashBytes) throw smallFlashError(link.name, flashBytes, needed);

    stage(request.erase ? 'erasing and writing' : 'writing');
    began = true;
    const files: FlashResult['files'] = [];
    await ending.until(
      loader.writeFlash({
        fileArray: images.parts.map((part) => ({ data: part.bytes, address: part.at })),
        // The image as its makers built it.
        flashMode: 'keep',
        flashFreq: 'keep',
        flashSize: 'keep',
        eraseAll: request.erase ?? false,
        compress: true,
        reportProgress: (index, done, total) => request.onProgress?.(images.parts[index]!.file, done, total),
        // Called once per part, in order; the library compares with what the chip computes.
        calculateMD5Hash(bytes) {
          const md5 = createHash('md5').update(bytes).digest('hex');
          const part = images.parts[files.length]!;
          files.push({ file: part.file, at: part.at, bytes: part.bytes.length, md5 });
          return md5;
        },
      }),
    );

    stage('starting the program');
    await ending.until(loader.after('custom_reset', false, RESET_INTO_PROGRAM));
    return { chip, board: images.board, flashBytes, files, tookMs: performance.now() - startMs };
  } catch (error) {
    throw libraryError(link.name, error, during, began);
  } finally {
    stopClock();
    // Ends what the library still waits for.
    ending.end(new Error('over'));
    await link.close();
  }
}

/** @param words as the library tells sizes, for instance 4MB */
function sizeBytes(words: string): number {
  const [, number, unit] = /^(\d+)(KB|MB)/.exec(words) ?? [];
  return Number(number ?? 0) * (unit === 'MB' ? 1_048_576 : 1024);
}
