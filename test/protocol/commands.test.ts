import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { commandPacket, commandText, eventPacket, textCrc32 } from '../../protocol/command-packet.ts';
import { type Command, createCommand, createNumberViews, readCommand } from '../../protocol/commands.ts';

const views = createNumberViews();
const ALL = process.env.TAUTLINE_VERIFY === '1';

function read(text: unknown): Command | undefined {
  const command = createCommand();
  return readCommand(text, textCrc32, command, views) ? command : undefined;
}

const anyCommand = fc.record({
  tag: fc.nat(65534),
  code: fc.nat(255),
  subject: fc.nat(255),
  index: fc.nat(255),
  value: fc.double(),
});

/** Text with some bits of its characters flipped. */
function flipped(text: string, ...bits: number[]): string {
  const codes = [...text].map((char) => char.charCodeAt(0));
  for (const bit of bits) codes[bit >> 3] ^= 1 << (bit & 7);
  return String.fromCharCode(...codes);
}

const TEXT = commandText({ tag: 258, code: 3, subject: 1, index: 4, value: 0.1 });
const BITS = 8 * TEXT.length;

describe('a command', () => {
  it('is read as written, whatever its number', () => {
    fc.assert(
      fc.property(anyCommand, (command) => {
        const back = read(commandText(command));
        // toEqual tells -0 from 0 and takes NaN for NaN
        expect(back).toEqual(command);
      }),
    );
  });

  it('goes out in bytes of printable ASCII behind four bytes of framing', () => {
    fc.assert(
      fc.property(anyCommand, (command) => {
        const packet = commandPacket(command);
        expect([...packet.subarray(0, 4)]).toEqual([0x10, 0x01, 0x40, 42]);
        expect(packet.length).toBe(46);
        for (const byte of packet.subarray(4)) expect(byte >= 0x20 && byte <= 0x7e).toBe(true);
        expect(JSON.parse(Buffer.from(packet.subarray(4)).toString('latin1'))).toEqual({
          t: commandText(command),
        });
      }),
    );
  });

  it.each([
    [{ tag: 65535 }, /tag of a command is 65535; expected a whole number from 0 to 65534/],
    [{ tag: -1 }, /tag/],
    [{ code: 256 }, /code/],
    [{ subject: 1.5 }, /subject of a command is 1.5/],
    [{ index: Number.NaN }, /index of a command is NaN/],
  ])('that does not fit is refused: %j', (part, message) => {
    expect(() => commandText({ tag: 1, code: 1, subject: 0, index: 0, value: 0, ...part })).toThrow(message);
  });

  it('with one or two bits flipped is none: all 272 + 36856 patterns', () => {
    let tried = 0;
    for (let one = 0; one < BITS; one++) {
      if (read(flipped(TEXT, one))) throw new Error(`bit ${one}`);
      tried++;
      for (let two = one + 1; two < BITS; two++) {
        if (read(flipped(TEXT, one, two))) throw new Error(`bits ${one} and ${two}`);
        tried++;
      }
    }
    expect(tried).toBe(272 + 36856);
  });

  it.runIf(ALL)('with three bits flipped is none: all patterns', () => {
    const codes = Uint8Array.from(TEXT, (char) => char.charCodeAt(0));
    let accepted = 0;
    const flip = (bit: number) => {
      codes[bit >> 3] ^= 1 << (bit & 7);
    };
    for (let one = 0; one < BITS; one++) {
      flip(one);
      for (let two = one + 1; two < BITS; two++) {
        flip(two);
        for (let three = two + 1; three < BITS; three++) {
          flip(three);
          if (read(String.fromCharCode(...codes))) accepted++;
          flip(three);
        }
        flip(two);
      }
      flip(one);
    }
    expect(accepted).toBe(0);
  });

  it('that is cut, or has characters inserted or swapped, is none', () => {
    for (let at = 0; at < TEXT.length; at++) {
      for (let length = 1; at + length <= TEXT.length; length++) {
        expect(read(TEXT.slice(0, at) + TEXT.slice(at + length))).toBeUndefined();
      }
      for (const char of '0f{" ') expect(read(TEXT.slice(0, at) + char + TEXT.slice(at))).toBeUndefined();
      // one lost and one invented: the length is right again
      for (let to = 0; to < TEXT.length; to++) {
        const cut = TEXT.slice(0, at) + TEXT.slice(at + 1);
        const shifted = `${cut.slice(0, to)}7${cut.slice(to)}`;
        if (shifted !== TEXT && read(shifted)) throw new Error(`cut at ${at}, inserted at ${to}`);
      }
    }
  });

  it('made of two commands is none', () => {
    fc.assert(
      fc.property(anyCommand, anyCommand, fc.integer({ min: 1, max: 33 }), (a, b, at) => {
        const [first, second] = [commandText(a), commandText(b)];
        const mixed = first.slice(0, at) + second.slice(at);
        if (mixed !== first && mixed !== second) expect(read(mixed)).toBeUndefined();
      }),
    );
  });

  it('with wild damage passes as often as 16 bits of its check imply', () => {
    // Only the lower half of the check is looked at, so that passing can be seen at all: once in 65536.
    const count = ALL ? 2_000_000 : 300_000;
    let state = 1;
    let passed = 0;
    for (let i = 0; i < count; i++) {
      let text = '';
      for (let n = 0; n < 26; n++) {
        state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
        text += (state >>> 28).toString(16);
      }
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      if ((textCrc32(text) & 0xffff) === state >>> 16) passed++;
    }
    // Poisson: mean 4.6 (30.5): beyond these limits less than once in 10,000
    expect(passed).toBeGreaterThan(ALL ? 11 : -1);
    expect(passed).toBeLessThan(ALL ? 55 : 16);
  });

  it.each([undefined, null, 7, {}, [], '', 'x'.repeat(34), `${TEXT} `, TEXT.toUpperCase()])(
    'is not %j',
    (text) => {
      expect(read(text)).toBeUndefined();
    },
  );
});

describe('a packet', () => {
  // lengths by hand: 0x03, 0x11, 0x13 in the lower byte; 0x03 and 0x11, 0x13 cannot be in the upper one (0x40 up)
  it.each([
    [2, 2],
    [3, 4],
    [17, 18],
    [19, 20],
    [0x103, 0x104],
    [0x311, 0x312],
    [0x1313, 0x1314],
    [0x1fff, 0x1fff],
  ])('of %d characters is padded to %d', (length, padded) => {
    const packet = eventPacket('x'.repeat(length));
    expect(packet.length).toBe(4 + padded);
    expect(packet[2]! * 256 + packet[3]!).toBe(0x4000 + padded);
    for (const byte of packet) expect([0x03, 0x11, 0x13]).not.toContain(byte);
  });

  it.each(['', 'a\u0003', 'ü', 'x'.repeat(0x2000)])('refuses other texts', (text) => {
    expect(() => eventPacket(text)).toThrow(RangeError);
  });
});
