import { describe, expect, it } from 'vitest';
import { FileStore } from '../../../sim/storage/file-store.ts';
import { Flash, PowerCut } from '../../../sim/storage/flash.ts';

const PAGE = 1024;
const data = (length: number, first = 1) => Uint8Array.from({ length }, (_, i) => (first + 7 * i) & 0xff);
const store = (pages = 4) => new FileStore(new Flash(pages * PAGE, PAGE));

/** Runs a write that loses power after so many bytes. */
function cutWrite(files: FileStore, name: string, content: Uint8Array, steps: number, torn = 0): void {
  files.flash.cutAfter(steps, torn);
  expect(() => files.write(name, content)).toThrow(PowerCut);
  files.flash.cutAfter(Number.POSITIVE_INFINITY, 0);
}

describe('simulated flash', () => {
  it('can only clear bits', () => {
    const flash = new Flash(PAGE, PAGE);
    flash.program(10, [0b1100]);
    flash.program(10, [0b1010]);
    expect(flash.bytes[10]).toBe(0b1000);
    flash.erasePage(0);
    expect(flash.bytes[10]).toBe(0xff);
    expect([flash.programmedBytes, flash.erases]).toEqual([2, 1]);
  });

  it('tears a byte by clearing a part of the bits that are to be cleared', () => {
    const seen = new Set<number>();
    for (let torn = 1; torn < 200; torn++) {
      const flash = new Flash(PAGE, PAGE);
      flash.cutAfter(0, torn);
      expect(() => flash.program(0, [0xf0])).toThrow(PowerCut);
      expect(flash.bytes[0]! & 0xf0).toBe(0xf0);
      seen.add(flash.bytes[0]!);
    }
    expect(seen.size).toBe(16);
  });
});

describe('the simulated file store', () => {
  // 32-byte header and content padded to 4: read in espruino/Espruino c5ff787
  it('takes 32 bytes and the padded content of each file', () => {
    const files = store();
    expect(files.freeBytes()).toBe(4 * PAGE);
    files.write('one', data(5));
    expect(files.freeBytes()).toBe(4 * PAGE - 40);
    expect(files.read('one')).toEqual(data(5));
    expect(files.read('on')).toBeUndefined();
  });

  it('writes nothing for the same content', () => {
    const files = store();
    files.write('one', data(50));
    const { programmedBytes } = files.flash;
    expect(files.write('one', data(50))).toBe(true);
    expect(files.flash.programmedBytes).toBe(programmedBytes);
  });

  it('after a power cut has the old file gone, and the new one absent, empty or half', () => {
    const seen = new Set<string>();
    for (let steps = 0; steps < 4 + 32 + 20; steps++) {
      const files = store();
      files.write('one', data(20, 1));
      cutWrite(files, 'one', data(20, 2), steps);
      const after = files.read('one');
      const written = steps - 36;
      if (steps === 0) expect(after).toEqual(data(20, 1));
      else if (after !== undefined) {
        const expected = new Uint8Array(20).fill(0xff);
        expected.set(data(20, 2).subarray(0, Math.max(0, written)));
        expect(after).toEqual(expected);
      }
      seen.add(steps === 0 ? 'old' : after === undefined ? 'absent' : written <= 0 ? 'empty' : 'half');
    }
    expect([...seen]).toEqual(['old', 'absent', 'empty', 'half']);
  });

  it('says true and reads nothing where a header with an oversized size word is in the way, also after a boot', () => {
    const files = store();
    files.write('one', data(20));
    files.flash.program(52, [0, 0, 0xf0, 0]);
    expect(files.write('two', data(20))).toBe(true);
    expect(files.read('two')).toBeUndefined();
    expect(files.boot()).toBe(true);
    expect(files.read('two')).toBeUndefined();
    expect(files.read('one')).toEqual(data(20));
  });

  it('erases everything at a boot when the first header is none', () => {
    const files = store();
    files.write('one', data(20));
    files.flash.program(0, [0, 0, 0, 0]);
    expect(files.boot()).toBe(false);
    expect(files.flash.bytes.every((byte) => byte === 0xff)).toBe(true);
    expect(files.boot()).toBe(true);
  });

  it('compacts when the room is used up by replaced files, and only then erases pages', () => {
    const files = store();
    files.write('still', data(700));
    let writes = 0;
    while (files.flash.erases === 0) files.write('busy', data(300, ++writes));
    // by hand: 732 bytes, then 332 a write: ten fit into the 3364 left
    expect(writes).toBe(11);
    expect(files.read('still')).toEqual(data(700));
    expect(files.read('busy')).toEqual(data(300, 11));
    expect(files.freeBytes()).toBe(4 * PAGE - 732 - 332);
  });

  it('loses files when the power goes while it compacts', () => {
    let lost = 0;
    for (let steps = 0; steps < 732; steps += 10) {
      const files = store();
      files.write('still', data(700));
      for (let i = 1; i <= 10; i++) files.write('busy', data(300, i));
      cutWrite(files, 'busy', data(300, 99), 4 + steps);
      files.boot();
      if (files.read('still') === undefined) lost++;
    }
    // of 74 moments all but the first, before its page is erased: 732 bytes are written after that
    expect(lost).toBe(73);
  });

  it('refuses what does not fit', () => {
    const files = store();
    expect(() => files.write('big', data(4 * PAGE))).toThrow(/Unable to find or create/);
    expect(() => files.write('none', data(0))).toThrow(/zero length/);
    expect(files.flash.erases).toBe(0);
  });
});
