import { describe, expect, it } from 'vitest';
import { flash } from '../../../workbench/serial/flash/flash.ts';
import { RUN_LINES } from '../../../workbench/serial/link.ts';
import { createSerialLink } from '../../../workbench/serial/serial-link.ts';
import { createEmulatedChip } from './emulated-rom.ts';
import { madeImage } from './made-image.ts';
import { onPty } from './on-pty.ts';
import { outcomeOf } from './outcome.ts';
import { HAS_PTY, PTY_NOTE } from './pty.ts';

describe.skipIf(!HAS_PTY)(`flash over the serial driver${PTY_NOTE}`, () => {
  it('writes every byte, and the port can be opened again', async () => {
    const { pty, far } = await onPty((plug) => createEmulatedChip(plug, 'esp32', { inLoader: true }));
    const images = madeImage('esp32', 300_000);
    const result = await flash({ link: createSerialLink(pty.path), images, baud: 115_200 });
    const expected = new Uint8Array(far.flash.length).fill(0xff);
    for (const part of images.parts) expected.set(part.bytes, part.at);
    expect(Buffer.compare(far.flash, expected)).toBe(0);
    expect(result.files.map((file) => file.bytes)).toEqual([20_000, 3072, 300_000]);
    const again = createSerialLink(pty.path);
    await again.open(115_200, RUN_LINES);
    await again.close();
    await pty.destroy();
  });

  it('a cable pulled while writing: says so', async () => {
    const { pty } = await onPty((plug) =>
      createEmulatedChip(plug, 'esp32', { inLoader: true, pullAtBlock: 2 }),
    );
    const end = await outcomeOf(() =>
      flash({ link: createSerialLink(pty.path), images: madeImage('esp32', 60_000), baud: 115_200 }),
    );
    expect(end).toMatchObject({ exitCode: 1, code: 'port/gone' });
    expect(end.message).toContain('while writing');
  });

  it('another chip and refused blocks: the same ends as in memory', async () => {
    const other = await onPty((plug) => createEmulatedChip(plug, 'esp32-s3', { inLoader: true }));
    const images = madeImage('esp32', 60_000);
    const first = await outcomeOf(() =>
      flash({ link: createSerialLink(other.pty.path), images, baud: 115_200 }),
    );
    expect(first).toMatchObject({ exitCode: 1, code: 'flash/other-chip' });
    await other.pty.destroy();
    const refusing = await onPty((plug) =>
      createEmulatedChip(plug, 'esp32', { inLoader: true, refuseBlock: { block: 2, times: 99 } }),
    );
    const second = await outcomeOf(() =>
      flash({ link: createSerialLink(refusing.pty.path), images, baud: 115_200 }),
    );
    expect(second).toMatchObject({ exitCode: 1, code: 'flash/refused' });
    await refusing.pty.destroy();
  });

  it('silence: tells to hold BOOT', async () => {
    const { pty } = await onPty((plug) =>
      createEmulatedChip(plug, 'esp32', { inLoader: true, silent: true }),
    );
    const end = await outcomeOf(() =>
      flash({
        link: createSerialLink(pty.path),
        images: madeImage('esp32', 5000),
        baud: 115_200,
        attempts: 1,
      }),
    );
    expect(end).toMatchObject({ exitCode: 1, code: 'flash/no-answer' });
    await pty.destroy();
  });
});
