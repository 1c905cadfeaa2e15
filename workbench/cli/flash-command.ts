import { Command, Option } from 'commander';
import { BOARD_IDS, type BoardId } from '../../firmware/boards/board.ts';
import { readImages } from '../serial/flash/image-set.ts';
import type { UsbIds } from '../serial/flash/web-serial.ts';
import { onBoard } from './board-outcome.ts';
import { wholeNumber } from './option-values.ts';
import { LEAST_BAUD, MOST_BAUD, portOption, USUAL_BAUD } from './port-options.ts';
import { createProgress } from './progress.ts';
import { VERSION } from './version.ts';

interface FlashOptions {
  port: string;
  imageDir: string;
  board?: BoardId;
  baud: number;
  erase?: true;
  timeout: number;
  json?: true;
}

export function flashCommand(): Command {
  return new Command('flash')
    .summary('write the interpreter’s image onto a board')
    .description(
      'Writes the JavaScript interpreter onto a board and checks what was written. Nothing is downloaded: get the\n' +
        'release archive for your board, unpack it, and name its folder. Known file names: bootloader.bin,\n' +
        'partitions_espruino.bin or partition-table.bin, espruino_esp32.bin, espruino-esp32s3.bin, espruino-esp32c3.bin,\n' +
        'or names with a release such as espruino_2v29_esp32.bin. Others: say what goes where in image.json.',
    )
    .addOption(portOption())
    .requiredOption('--image-dir <dir>', 'folder with the image’s files')
    .addOption(new Option('--board <board>', 'refuse an image for another board').choices(BOARD_IDS))
    .addOption(
      new Option('--baud <rate>', 'rate while writing; 460800 is four times faster where it works')
        .default(USUAL_BAUD)
        .argParser(wholeNumber(LEAST_BAUD, MOST_BAUD)),
    )
    .option('--erase', 'erase the whole flash first: files and calibration on the board too')
    .addOption(
      new Option('--timeout <s>', 'give up after this time').default(600).argParser(wholeNumber(1, 36_000)),
    )
    .option('--json', 'print the result as JSON')
    .action(run);
}

async function run(options: FlashOptions): Promise<void> {
  const images = readImages(options.imageDir, options.board);
  // Driver and flashing library load only now: the other commands do without them.
  const { createSerialLink } = await import('../serial/serial-link.ts');
  const { flash } = await import('../serial/flash/flash.ts');
  const progress = createProgress(false);
  await onBoard('flash', options.json === true, async () => {
    try {
      const result = await flash({
        link: createSerialLink(options.port),
        images,
        baud: options.baud,
        usb: await usbIdsOf(options.port),
        erase: options.erase === true,
        limitMs: options.timeout * 1000,
        onStage(words) {
          progress.stop();
          process.stderr.write(`${words}\n`);
        },
        onProgress: (file, done, total) => progress.show(file, done, total),
      });
      progress.stop();
      const { chip, files, tookMs } = result;
      const bytes = files.reduce((sum, file) => sum + file.bytes, 0);
      process.stdout.write(
        options.json
          ? `${JSON.stringify({ command: 'flash', version: VERSION, ok: true, port: options.port, ...result })}\n`
          : `${chip} on ${options.port}: ${files.length} files, ${bytes} bytes written and verified in ${(tookMs / 1000).toFixed(1)} s. Next: tautline load\n`,
      );
    } finally {
      progress.stop();
    }
  });
}

/** Chips with a USB controller of their own need another way into their loader. */
async function usbIdsOf(path: string): Promise<UsbIds> {
  const { listPorts } = await import('../serial/list-ports.ts');
  const port = (await listPorts()).ports.find((one) => one.path === path);
  return {
    ...(port?.usbVendorId === undefined ? {} : { usbVendorId: port.usbVendorId }),
    ...(port?.usbProductId === undefined ? {} : { usbProductId: port.usbProductId }),
  };
}
