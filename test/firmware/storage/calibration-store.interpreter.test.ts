import { describe, expect, it } from 'vitest';
import { openCalibration, saveCalibration } from '../../../firmware/storage/calibration-store.ts';
import { crc32 } from '../../../protocol/crc32.ts';
import { FileStore } from '../../../sim/storage/file-store.ts';
import { Flash } from '../../../sim/storage/flash.ts';
import { boardText, noInterpreter, runOnInterpreter } from '../../interpreter.ts';

const PROGRAM = `
import { openCalibration, saveCalibration } from 'firmware/storage/calibration-store.ts';
import { slotStorageOf } from 'firmware/storage/slot-storage.ts';
declare const E: any;
declare const print: any;
declare const require: any;
const storage = slotStorageOf(require("Storage"));
const ends = new Float64Array(10);
(globalThis as any).save = function (times: number, settingsId: number) {
  const store = openCalibration(storage, settingsId, true, E.CRC32);
  print([store.slot, store.states, store.record.sequence].join(' '));
  for (let i = 0; i < times; i++) {
    for (let k = 0; k < 10; k++) ends[k] = ((i >> 1) + 1) / 64 + k / 16;
    print(saveCalibration(store, storage, 31, ends, false, E.CRC32));
  }
};
`;

describe.skipIf(noInterpreter)('the calibration store on the interpreter', () => {
  it('writes the same flash as on the host, and finds it again', async () => {
    const files = new FileStore(new Flash(256 * 1024, 1024));
    const lines: string[] = [];
    const save = (times: number, settingsId: number) => {
      const store = openCalibration(files, settingsId, true, crc32);
      lines.push(`${store.slot} ${store.states} ${store.record.sequence}`);
      for (let i = 0; i < times; i++) {
        const ends = Float64Array.from({ length: 10 }, (_, k) => ((i >> 1) + 1) / 64 + k / 16);
        lines.push(String(saveCalibration(store, files, 31, ends, false, crc32)));
      }
    };
    const text = (await boardText(PROGRAM)).replace('globalThis', 'global');
    const calls = [
      [7, 3000000000],
      [0, 3000000000],
      [2, 5],
    ] as const;
    for (const [times, id] of calls) save(times, id);
    const program = calls.map(([times, id]) => `save(${times},${id})`).join(';');
    const run = runOnInterpreter(`${text}\n${program}`);
    expect(run.lines).toEqual(lines);
    // every ends but the first of a pair is a repetition: 1 = unchanged; other settings keep theirs: 4 = kept
    expect(lines).toEqual(['-1 1,1 0', '0', '1', '0', '1', '0', '1', '0', '1 0,0 4', '-1 4,4 0', '4', '4']);
    expect(run.flash!.findIndex((byte, at) => byte !== files.flash.bytes[at])).toBe(-1);
  });
});
