import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { BoardId } from '../../../firmware/boards/board.ts';
import { readImages } from '../../../workbench/serial/flash/image-set.ts';
import { madeImage } from './made-image.ts';

const root = mkdtempSync(join(tmpdir(), 'tautline-image-'));
afterAll(() => rmSync(root, { recursive: true }));
let count = 0;

function folderWith(files: { [name: string]: Uint8Array | string }): string {
  count++;
  const folder = join(root, String(count));
  mkdirSync(folder);
  for (const [name, bytes] of Object.entries(files)) writeFileSync(join(folder, name), bytes);
  return folder;
}

function parts(board: BoardId): { boot: Uint8Array; table: Uint8Array; program: Uint8Array } {
  const [boot, table, program] = madeImage(board, 1000).parts.map((part) => part.bytes) as [
    Uint8Array,
    Uint8Array,
    Uint8Array,
  ];
  return { boot, table, program };
}

describe('folders with an image', () => {
  // Names and offsets: README_flash.txt, README_flash_S3.txt, README_flash_C3.txt of espruino/Espruino c5ff787.
  it.each<[BoardId, string, string, number[]]>([
    ['esp32', 'partitions_espruino.bin', 'espruino_esp32.bin', [0x1000, 0x8000, 0x10000]],
    ['esp32', 'partition-table.bin', 'espruino-esp32.bin', [0x1000, 0x8000, 0x10000]],
    ['esp32-s3', 'partition-table.bin', 'espruino-esp32s3.bin', [0, 0x8000, 0x10000]],
    ['esp32-c3', 'partition-table.bin', 'espruino-esp32c3.bin', [0, 0x8000, 0x10000]],
    ['esp32-c3', 'partition-table.bin', 'espruino_2v29_esp32c3.bin', [0, 0x8000, 0x10000]],
  ])('knows the names of the %s archive (%s, %s)', (board, tableName, programName, offsets) => {
    const { boot, table, program } = parts(board);
    const folder = folderWith({
      'bootloader.bin': boot,
      [tableName]: table,
      [programName]: program,
      'README_flash.txt': 'x',
    });
    const set = readImages(folder, undefined);
    expect(set.board).toBe(board);
    expect(set.parts.map((part) => part.at)).toEqual(offsets);
    expect(set.parts[2]!.bytes).toEqual(program);
  });

  it('follows image.json for other names', () => {
    const { boot, table, program } = parts('esp32');
    const folder = folderWith({
      'b.bin': boot,
      't.bin': table,
      'p.bin': program,
      'image.json': JSON.stringify({
        board: 'esp32',
        files: [
          { file: 'p.bin', at: '0x10000' },
          { file: 'b.bin', at: 4096 },
          { file: 't.bin', at: '0x8000' },
        ],
      }),
    });
    expect(readImages(folder, 'esp32').parts.map((part) => part.file)).toEqual(['b.bin', 't.bin', 'p.bin']);
  });

  const esp32 = parts('esp32');
  const c3 = parts('esp32-c3');
  const whole = {
    'bootloader.bin': esp32.boot,
    'partition-table.bin': esp32.table,
    'espruino_esp32.bin': esp32.program,
  };
  it.each<[string, string, { [name: string]: Uint8Array | string }, BoardId | undefined]>([
    ['image/program', 'no program', { 'bootloader.bin': esp32.boot }, undefined],
    ['image/program', 'two programs', { ...whole, 'espruino-esp32c3.bin': c3.program }, undefined],
    [
      'image/part',
      'no boot loader',
      { 'partition-table.bin': esp32.table, 'espruino_esp32.bin': esp32.program },
      undefined,
    ],
    ['image/part', 'two partition tables', { ...whole, 'partitions_espruino.bin': esp32.table }, undefined],
    ['image/program', 'another board than asked for', whole, 'esp32-s3'],
    ['image/wrong', 'a program for another chip', { ...whole, 'espruino_esp32.bin': c3.program }, undefined],
    ['image/wrong', 'text instead of a program', { ...whole, 'espruino_esp32.bin': '<html>' }, undefined],
    ['image/wrong', 'text instead of a table', { ...whole, 'partition-table.bin': '<html>' }, undefined],
    [
      'image/wrong',
      'a boot loader that reaches into the table',
      { ...whole, 'bootloader.bin': long(esp32.boot, 0x7001) },
      undefined,
    ],
    [
      'image/manifest',
      'a manifest with a wrong offset',
      { ...whole, 'image.json': '{"board":"esp32","files":[{"file":"espruino_esp32.bin","at":"10000"}]}' },
      undefined,
    ],
    [
      'image/unreadable',
      'a manifest that names no file',
      { 'image.json': '{"board":"esp32","files":[{"file":"x.bin","at":0}]}' },
      undefined,
    ],
  ])('refuses with %s: %s', (code, _title, files, board) => {
    const folder = folderWith(files);
    expect(() => readImages(folder, board)).toThrow(expect.objectContaining({ code }));
  });

  it('refuses a folder that is not there', () => {
    expect(() => readImages(join(root, 'none'), undefined)).toThrow(
      expect.objectContaining({ code: 'image/no-folder' }),
    );
  });
});

function long(bytes: Uint8Array, length: number): Uint8Array {
  const all = new Uint8Array(length);
  all.set(bytes);
  return all;
}
