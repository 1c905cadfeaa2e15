import { describe, expect, it } from 'vitest';
import type { Frame } from '../../protocol/frame.ts';
import { createReassembler, type StreamCounters } from '../../protocol/reassemble.ts';
import { ascii, bytesOfFrame, copied, handFrame, joined } from './frames.ts';

interface Heard {
  sequences: number[];
  stray: number[];
  pending: number;
  counters: StreamCounters;
}

function hear(...chunks: Uint8Array[]): Heard {
  const sequences: number[] = [];
  const stray: number[] = [];
  const stream = createReassembler(
    (frame) => sequences.push(frame.sequence),
    (byte) => stray.push(byte),
  );
  for (const chunk of chunks) stream.push(chunk);
  return { sequences, stray, pending: stream.pendingBytes(), counters: stream.counters() };
}

const NONE: StreamCounters = {
  bytesIn: 0,
  framesGood: 0,
  unknownKind: 0,
  falseSync: 0,
  acknowledgeBytes: 0,
  flowControlBytes: 0,
  textBytes: 0,
  garbageBytes: 0,
};

describe('finding frames', () => {
  it('takes frames back to back', () => {
    const heard = hear(joined([handFrame(254), handFrame(255), handFrame(256)]));
    expect(heard.sequences).toEqual([254, 255, 0]);
    expect(heard.counters).toEqual({ ...NONE, bytesIn: 60, framesGood: 3 });
  });

  it('hands boot text, console prints and exception traces between frames to the stray listener', () => {
    const boot = 'ets Jun  8 2016 00:22:57\r\nrst:0x1 (POWERON_RESET),boot:0x13\r\n\x1b[J>';
    const trace =
      'Uncaught Error: Cannot read property of undefined\n at line 1 col 7\n in function "F" called from system\n';
    const heard = hear(joined([ascii(boot), handFrame(1), ascii(trace), handFrame(2), ascii('=42\r\n')]));
    expect(heard.sequences).toEqual([1, 2]);
    expect(Buffer.from(heard.stray).toString('ascii')).toBe(`${boot}${trace}=42\r\n`);
    expect(heard.counters).toEqual({
      ...NONE,
      bytesIn: 40 + boot.length + trace.length + 5,
      framesGood: 2,
      textBytes: boot.length + trace.length + 5,
    });
  });

  it('sorts acknowledge, flow control and garbage bytes between frames', () => {
    const heard = hear(
      joined([
        Uint8Array.of(0x06),
        handFrame(1),
        Uint8Array.of(0x15, 0x06, 0x13, 0x11),
        handFrame(2),
        Uint8Array.of(0, 255, 0xfc, 0x41),
      ]),
    );
    expect(heard.stray).toEqual([0x06, 0x15, 0x06, 0x13, 0x11, 0, 255, 0xfc, 0x41]);
    expect(heard.counters).toEqual({
      ...NONE,
      bytesIn: 49,
      framesGood: 2,
      acknowledgeBytes: 3,
      flowControlBytes: 2,
      textBytes: 1,
      garbageBytes: 3,
    });
  });

  it('does not take acknowledge values inside a frame for acknowledge bytes', () => {
    const frame = bytesOfFrame({
      sequence: 6,
      timeSteps: 0x1506,
      values: Uint16Array.of(0x0606, 0x1515, 0x0615, 0x1313, 0x0303),
      joystickX: 6,
      joystickY: 21,
      buttons: 5,
      rightHand: true,
      kind: 1,
      status: 6,
    });
    expect(hear(frame).counters).toEqual({ ...NONE, bytesIn: 20, framesGood: 1 });
  });

  it('is back within one frame when it joins anywhere in the stream', () => {
    const row = joined([handFrame(10), handFrame(11), handFrame(12)]);
    for (let cut = 1; cut < 20; cut++) expect(hear(row.subarray(cut)).sequences).toEqual([11, 12]);
  });

  it('loses only the damaged frame whichever byte is wrong', () => {
    for (let at = 0; at < 20; at++) {
      const row = joined([handFrame(1), handFrame(2), handFrame(3)]);
      row[20 + at] ^= 0x40;
      const heard = hear(row);
      expect(heard.sequences).toEqual([1, 3]);
      expect(heard.counters.falseSync).toBe(at === 0 ? 0 : 1);
    }
  });

  it('finds the frame right behind false sync bytes, however many', () => {
    for (let n = 0; n <= 25; n++) {
      const heard = hear(joined([new Uint8Array(n).fill(0xf5), handFrame(77)]));
      expect(heard.sequences).toEqual([77]);
      expect(heard.counters).toEqual({
        ...NONE,
        bytesIn: 20 + n,
        framesGood: 1,
        falseSync: n,
        garbageBytes: n,
      });
    }
  });

  it('hands on a frame with its last byte, not later', () => {
    const frame = handFrame(5);
    const sequences: number[] = [];
    const stream = createReassembler((seen) => sequences.push(seen.sequence));
    for (let i = 0; i < 20; i++) {
      expect(sequences).toEqual([]);
      expect(stream.pendingBytes()).toBe(i);
      stream.push(frame.subarray(i, i + 1));
    }
    expect(sequences).toEqual([5]);
    expect(stream.pendingBytes()).toBe(0);
  });

  it('skips and counts a whole frame of an unassigned kind', () => {
    // made by Python zlib.crc32, kind 7
    const newer = new Uint8Array(Buffer.from('f5096801010002000300040005000607e800bebe', 'hex'));
    const heard = hear(joined([handFrame(1), newer, handFrame(2)]));
    expect(heard.sequences).toEqual([1, 2]);
    expect(heard.counters).toEqual({ ...NONE, bytesIn: 60, framesGood: 2, unknownKind: 1 });
  });

  it('counts what was waiting as stray at the end of the stream', () => {
    const stream = createReassembler(() => expect.unreachable());
    stream.push(handFrame(5).subarray(0, 19));
    expect(stream.pendingBytes()).toBe(19);
    stream.end();
    expect(stream.pendingBytes()).toBe(0);
    const { falseSync, textBytes, garbageBytes, acknowledgeBytes, flowControlBytes } = stream.counters();
    expect(falseSync).toBe(1);
    expect(textBytes + garbageBytes + acknowledgeBytes + flowControlBytes).toBe(19);
  });

  it('goes on after a listener that throws, without handing out a frame twice', () => {
    const sequences: number[] = [];
    const stream = createReassembler((frame) => {
      sequences.push(frame.sequence);
      if (frame.sequence === 1) throw new Error('listener');
    });
    stream.push(handFrame(1).subarray(0, 12));
    expect(() => stream.push(handFrame(1).subarray(12))).toThrow('listener');
    stream.push(handFrame(2));
    expect(sequences).toEqual([1, 2]);
    expect(stream.counters()).toEqual({ ...NONE, bytesIn: 40, framesGood: 2 });
  });

  it('sorts every byte value as the specification says', () => {
    const text = [0x08, 0x09, 0x0a, 0x0d, 0x1b];
    for (let byte = 0; byte < 256; byte++) {
      const stream = createReassembler(() => expect.unreachable());
      stream.push(Uint8Array.of(byte));
      stream.end();
      const kind =
        byte === 0x06 || byte === 0x15
          ? 'acknowledgeBytes'
          : byte === 0x11 || byte === 0x13
            ? 'flowControlBytes'
            : text.includes(byte) || (byte >= 0x20 && byte <= 0x7e)
              ? 'textBytes'
              : 'garbageBytes';
      expect(stream.counters()).toEqual({ ...NONE, bytesIn: 1, falseSync: byte === 0xf5 ? 1 : 0, [kind]: 1 });
    }
  });

  it('hands out the same frame object every time', () => {
    const seen = new Set<Frame>();
    const copies: Frame[] = [];
    const stream = createReassembler((frame) => {
      seen.add(frame);
      copies.push(copied(frame));
    });
    stream.push(joined([handFrame(1), handFrame(2)]));
    expect(seen.size).toBe(1);
    expect(copies[0].values).not.toEqual(copies[1].values);
  });
});
