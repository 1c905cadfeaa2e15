import { createHash } from 'node:crypto';
import { inflateSync } from 'node:zlib';
import type { LineStates } from '../../../workbench/serial/link.ts';
import type { FarEnd, Plug } from '../../../workbench/serial/memory-link.ts';
import { slipFrame, slipReader } from './slip.ts';

/**
 * A stand-in for a chip with its loader in ROM and the flasher stub, written from the chip maker's description
 * (Espressif, esptool documentation, "Serial Protocol"): SLIP packets, sync answered eight times, register reads and
 * writes, upload of the stub to RAM and its "OHAI", deflated flash blocks with XOR checksums, MD5, change of rate,
 * flash id through the SPI registers; boot mode by the two lines. Not modelled: time, registers beyond those named,
 * encryption, what the stub does.
 */
export interface ChipFaults {
  /** Never answers. */
  silent?: true;
  /** Always starts its program: the boot pin does not work. */
  ignoresBootPin?: true;
  /** Starts in the loader and ignores the lines, as with BOOT held; for ports without lines. */
  inLoader?: true;
  /** The n-th data block (from 1) is refused so many times. */
  refuseBlock?: { block: number; times: number };
  /** No answers from the n-th data block on. */
  silentFromBlock?: number;
  /** Pulls the cable at the n-th data block. */
  pullAtBlock?: number;
  /** One bit of the flash flips at this offset. */
  flipsAt?: number;
  /** Third byte of the flash id: 2 to this power of bytes. Default 0x16, 4 MB. */
  flashSizeId?: number;
}

export type ChipKind = 'esp32' | 'esp32-s3' | 'esp32-c3';

export interface EmulatedChip extends FarEnd {
  flash: Uint8Array;
  /** How often the program was started. */
  starts(): number;
  /** Rates asked for by the host. */
  bauds(): number[];
  erased(): boolean;
}

const MAGIC: { [kind in ChipKind]: number } = { esp32: 0x00f01d83, 'esp32-s3': 9, 'esp32-c3': 0x6921506f };
const CHIP_ID: { [kind in ChipKind]: number } = { esp32: 0, 'esp32-s3': 9, 'esp32-c3': 5 };
const SPI_BASE: { [kind in ChipKind]: number } = {
  esp32: 0x3ff42000,
  'esp32-s3': 0x60002000,
  'esp32-c3': 0x60002000,
};
const FLASH_BYTES = 4 * 1024 * 1024;

export function createEmulatedChip(
  plug: Pick<Plug, 'send' | 'pull'>,
  kind: ChipKind = 'esp32',
  faults: ChipFaults = {},
): EmulatedChip {
  const flash = new Uint8Array(FLASH_BYTES).fill(0xff);
  const registers = new Map<number, number>();
  const bauds: number[] = [];
  let mode: 'run' | 'loader' | 'stub' = faults.inLoader ? 'loader' : 'run';
  let inReset = false;
  let starts = 0;
  let erased = false;
  let blocks = 0;
  let refused = 0;
  let writing: { at: number; size: number; packed: Uint8Array[] } | undefined;

  const text = (words: string): void => plug.send(Buffer.from(words, 'latin1'));
  const frame = (bytes: Uint8Array): void => plug.send(slipFrame(bytes));

  function reply(
    op: number,
    value: number,
    data: Uint8Array = new Uint8Array(0),
    status = 0,
    error = 0,
  ): void {
    // The ROM of these chips ends answers with four status bytes, the stub with two.
    const tail = mode === 'stub' ? [status, error] : [status, error, 0, 0];
    const packet = Buffer.alloc(8 + data.length + tail.length);
    packet[0] = 1;
    packet[1] = op;
    packet.writeUInt16LE(data.length + tail.length, 2);
    packet.writeUInt32LE(value >>> 0, 4);
    packet.set(data, 8);
    packet.set(tail, 8 + data.length);
    frame(packet);
  }

  function lines({ dtr, rts }: LineStates, baud: number): void {
    bauds.push(baud);
    if (faults.inLoader) return;
    const bootPinLow = dtr && !rts;
    const resetNow = rts && !dtr;
    if (inReset && !resetNow) {
      mode = bootPinLow && !faults.ignoresBootPin ? 'loader' : 'run';
      if (mode === 'run') {
        starts++;
        text('rst:0x1 (POWERON_RESET),boot:0x13 (SPI_FAST_FLASH_BOOT)\r\n');
      } else if (!faults.silent)
        text('rst:0x1 (POWERON_RESET),boot:0x3 (DOWNLOAD_BOOT)\r\nwaiting for download\r\n');
    }
    inReset = resetNow;
  }

  function data(op: number, body: Buffer, checksum: number): void {
    blocks++;
    if (blocks === faults.pullAtBlock) {
      plug.pull();
      return;
    }
    if (blocks >= (faults.silentFromBlock ?? Number.POSITIVE_INFINITY)) return;
    const block = body.subarray(16, 16 + body.readUInt32LE(0));
    const sum = block.reduce((all, byte) => all ^ byte, 0xef);
    const refuse = faults.refuseBlock;
    if (sum !== checksum || (refuse && blocks >= refuse.block && refused < refuse.times)) {
      refused++;
      blocks--;
      // 0x07: "received a message with an invalid CRC"
      reply(op, 0, undefined, 1, 0x07);
      return;
    }
    writing?.packed.push(Uint8Array.from(block));
    const whole = Buffer.concat(writing?.packed ?? []);
    if (writing) {
      try {
        const plain = inflateSync(whole);
        flash.set(plain.subarray(0, writing.size), writing.at);
        if (faults.flipsAt !== undefined) flash[faults.flipsAt]! ^= 1;
        writing = undefined;
      } catch {
        // More blocks follow.
      }
    }
    reply(op, 0);
  }

  function writeRegister(at: number, value: number): void {
    const spi = SPI_BASE[kind];
    registers.set(at, value);
    // Bit 18 of the command register starts a user command; 0x9f reads the flash id into W0.
    const usr2 = spi + (kind === 'esp32' ? 0x24 : 0x20);
    const w0 = spi + (kind === 'esp32' ? 0x80 : 0x58);
    if (at === spi && value & (1 << 18)) {
      registers.set(at, 0);
      if (((registers.get(usr2) ?? 0) & 0xff) === 0x9f)
        registers.set(w0, ((faults.flashSizeId ?? 0x16) << 16) | 0x40c8);
    }
  }

  function readRegister(at: number): number {
    return at === 0x40001000 ? MAGIC[kind] : (registers.get(at) ?? 0);
  }

  function command(packet: Buffer): void {
    if (mode === 'run' || faults.silent || packet.length < 8 || packet[0] !== 0) return;
    const op = packet[1]!;
    const checksum = packet.readUInt32LE(4);
    const body = packet.subarray(8);
    if (op === 0x08) {
      for (let i = 0; i < (mode === 'stub' ? 1 : 8); i++) reply(op, mode === 'stub' ? 0 : 0x20120707);
    } else if (op === 0x0a) reply(op, readRegister(body.readUInt32LE(0)));
    else if (op === 0x09) {
      writeRegister(body.readUInt32LE(0), body.readUInt32LE(4));
      reply(op, 0);
    } else if (op === 0x05 || op === 0x07) reply(op, 0);
    else if (op === 0x06) {
      reply(op, 0);
      mode = 'stub';
      frame(Buffer.from('OHAI'));
    } else if (op === 0x0f) reply(op, 0);
    else if (op === 0x14 && kind !== 'esp32') {
      const info = Buffer.alloc(20);
      info.writeUInt32LE(CHIP_ID[kind], 12);
      reply(op, 0, info);
    } else if (op === 0x10 && mode === 'stub') {
      writing = { size: body.readUInt32LE(0), at: body.readUInt32LE(12), packed: [] };
      reply(op, 0);
    } else if (op === 0x11) data(op, body, checksum);
    else if (op === 0x12) reply(op, 0);
    else if (op === 0x13) {
      const at = body.readUInt32LE(0);
      reply(
        op,
        0,
        createHash('md5')
          .update(flash.subarray(at, at + body.readUInt32LE(4)))
          .digest(),
      );
    } else if (op === 0xd0) {
      flash.fill(0xff);
      erased = true;
      reply(op, 0);
    } else {
      // 0x05: "received message is invalid"; the ROM says so under another number, eight times.
      for (let i = 0; i < 8; i++) reply(0, 0, undefined, 1, 0x05);
    }
  }

  return {
    flash,
    starts: () => starts,
    bauds: () => bauds,
    erased: () => erased,
    lines,
    receive: slipReader((packet) => command(Buffer.from(packet))),
  };
}
