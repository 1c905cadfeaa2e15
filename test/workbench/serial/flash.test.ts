import { describe, expect, it } from 'vitest';
import { flash } from '../../../workbench/serial/flash/flash.ts';
import type { Link } from '../../../workbench/serial/link.ts';
import { createMemoryLink, type Plug } from '../../../workbench/serial/memory-link.ts';
import { type ChipFaults, type ChipKind, createEmulatedChip, type EmulatedChip } from './emulated-rom.ts';
import { madeImage } from './made-image.ts';
import { type Outcome, outcomeOf } from './outcome.ts';

interface Bench {
  link: Link;
  chip: EmulatedChip;
  plug: Plug;
}

function bench(kind: ChipKind, faults: ChipFaults = {}): Bench {
  let chip: EmulatedChip | undefined;
  let plug: Plug | undefined;
  const link = createMemoryLink('MEM', (given) => {
    plug = given;
    chip = createEmulatedChip(given, kind, faults);
    return chip;
  });
  return { link, chip: chip!, plug: plug! };
}

async function failing(
  faults: ChipFaults,
  kind: ChipKind = 'esp32',
  limitMs = 60_000,
): Promise<Outcome & Bench> {
  const made = bench(kind, faults);
  const outcome = await outcomeOf(() =>
    flash({ link: made.link, images: madeImage('esp32', 60_000), baud: 115_200, limitMs }),
  );
  expect(made.plug.isOpen()).toBe(false);
  return { ...outcome, ...made };
}

describe('flash, chip in memory', () => {
  it.each(['esp32', 'esp32-s3', 'esp32-c3'] as const)(
    'writes every byte onto an %s and starts it',
    async (kind) => {
      const { link, chip, plug } = bench(kind);
      const images = madeImage(kind, 300_000);
      const result = await flash({ link, images, baud: 115_200 });
      const expected = new Uint8Array(chip.flash.length).fill(0xff);
      for (const part of images.parts) expected.set(part.bytes, part.at);
      expect(Buffer.compare(chip.flash, expected)).toBe(0);
      expect(result.flashBytes).toBe(4 * 1024 * 1024);
      expect(chip.starts()).toBe(1);
      expect(chip.erased()).toBe(false);
      expect(plug.isOpen()).toBe(false);
    },
  );

  it('stays at 115200 baud unless told otherwise', async () => {
    const { link, chip } = bench('esp32');
    await flash({ link, images: madeImage('esp32', 5000), baud: 115_200 });
    expect(new Set(chip.bauds())).toEqual(new Set([115_200]));
  });

  it('changes the rate after the first contact when told to', async () => {
    const { link, chip } = bench('esp32');
    const images = madeImage('esp32', 5000);
    await flash({ link, images, baud: 460_800 });
    expect(chip.bauds()[0]).toBe(115_200);
    expect(chip.bauds().at(-1)).toBe(460_800);
    expect(chip.flash.subarray(0x10000, 0x10000 + 5000)).toEqual(images.parts[2]!.bytes);
  });

  it('erases the whole flash when told to', async () => {
    const { link, chip } = bench('esp32');
    await flash({ link, images: madeImage('esp32', 5000), baud: 115_200, erase: true });
    expect(chip.erased()).toBe(true);
  });

  it('tells progress per file up to its end', async () => {
    const { link } = bench('esp32');
    const ends = new Map<string, boolean>();
    await flash({
      link,
      images: madeImage('esp32', 60_000),
      baud: 115_200,
      onProgress: (file, done, total) => ends.set(file, done === total),
    });
    expect([...ends]).toEqual([
      ['bootloader.bin', true],
      ['partition-table.bin', true],
      ['program.bin', true],
    ]);
  });

  it('sends a refused block again', async () => {
    const { link, chip } = bench('esp32', { refuseBlock: { block: 2, times: 1 } });
    const images = madeImage('esp32', 60_000);
    await flash({ link, images, baud: 115_200 });
    expect(chip.flash.subarray(0x10000, 0x10000 + 60_000)).toEqual(images.parts[2]!.bytes);
  });
});

describe('flash, faults', () => {
  it('a chip that goes on refusing: says so, and that the image is incomplete', async () => {
    const end = await failing({ refuseBlock: { block: 3, times: 99 } });
    expect(end).toMatchObject({ exitCode: 1, code: 'flash/refused' });
    expect(end.message).toContain('MEM');
    expect(end.next).toContain('incomplete');
  });

  it('another chip: names both, writes nothing', async () => {
    const end = await failing({}, 'esp32-c3');
    expect(end).toMatchObject({ exitCode: 1, code: 'flash/other-chip' });
    expect(end.message).toContain('ESP32-C3');
    expect(end.message).toContain('Nothing was written');
    expect(end.chip.flash.every((byte) => byte === 0xff)).toBe(true);
  });

  it('a cable pulled while writing: says so at once', async () => {
    const startMs = performance.now();
    const end = await failing({ pullAtBlock: 2 });
    expect(end).toMatchObject({ exitCode: 1, code: 'port/gone' });
    expect(end.message).toContain('while writing');
    expect(end.next).toContain('flashed again');
    // The library alone would wait three times 3 s for an answer.
    expect(performance.now() - startMs).toBeLessThan(3000);
  });

  it('a bit that flips in flash: found by MD5', async () => {
    const end = await failing({ flipsAt: 0x1fff });
    expect(end).toMatchObject({ exitCode: 1, code: 'flash/verify' });
  });

  it('too small a flash chip: writes nothing', async () => {
    // 0x0f: 2^15 bytes are no size that the library knows; 0x13 is 512 kB.
    const made = bench('esp32', { flashSizeId: 0x13 });
    const end = await outcomeOf(() =>
      flash({ link: made.link, images: madeImage('esp32', 600_000), baud: 115_200 }),
    );
    expect(end).toMatchObject({ exitCode: 1, code: 'flash/small' });
    expect(made.chip.flash.every((byte) => byte === 0xff)).toBe(true);
  });

  it('too long: ends at the limit', async () => {
    const end = await failing({ silentFromBlock: 1 }, 'esp32', 1500);
    expect(end).toMatchObject({ exitCode: 1, code: 'port/too-long' });
    expect(end.message).toContain('writing');
  });
});

describe('flash, chips that do not answer', () => {
  async function silentEnd(faults: ChipFaults, attempts?: number): Promise<Outcome> {
    const { link, plug } = bench('esp32', faults);
    const images = madeImage('esp32', 60_000);
    const end = await outcomeOf(() =>
      flash({ link, images, baud: 115_200, ...(attempts === undefined ? {} : { attempts }) }),
    );
    expect(plug.isOpen()).toBe(false);
    return end;
  }

  it('silence: tells to hold BOOT', async () => {
    const end = await silentEnd({ silent: true }, 1);
    expect(end).toMatchObject({ exitCode: 1, code: 'flash/no-answer' });
    expect(end.next).toContain('Hold BOOT');
  });

  it('a program that starts instead: tells to hold BOOT', async () => {
    const end = await silentEnd({ ignoresBootPin: true }, 1);
    expect(end).toMatchObject({ exitCode: 1, code: 'flash/runs' });
    expect(end.message).toContain('0x13');
    expect(end.next).toContain('Hold BOOT');
  });

  // The library waits three times 3 s; shortly after, that must be over.
  it.skipIf(process.env.TAUTLINE_VERIFY !== '1')(
    'silence in the middle: says when, and that the image is incomplete',
    async () => {
      const end = await silentEnd({ silentFromBlock: 2 });
      expect(end).toMatchObject({ exitCode: 1, code: 'flash/stalled' });
      expect(end.message).toContain('while writing');
      expect(end.next).toContain('incomplete');
    },
  );
});
