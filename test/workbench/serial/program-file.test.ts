import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readProgram } from '../../../workbench/serial/load/program-file.ts';

const folder = mkdtempSync(join(tmpdir(), 'tautline-program-'));
afterAll(() => rmSync(folder, { recursive: true }));

function file(name: string, text: string | Uint8Array): string {
  const path = join(folder, name);
  mkdirSync(join(path, '..'), { recursive: true });
  writeFileSync(path, text);
  return path;
}

function withJson(name: string, json: string): string {
  file(`${name}.json`, json);
  return file(`${name}.js`, 'x');
}

describe('programs to load', () => {
  it('reads a program with the JSON beside it', () => {
    const path = file('one.js', 'print(1)\n');
    file('one.json', '{"expectedId": 57}');
    expect(readProgram(path)).toEqual({ file: path, text: 'print(1)\n', expectedId: 57 });
  });

  it('reads a bundle’s folder', () => {
    const path = file('bundle/board.js', 'print(2)');
    file('bundle/bundle.json', '{"program": "board.js", "expectedId": 0, "more": [1]}');
    expect(readProgram(join(folder, 'bundle'))).toEqual({ file: path, text: 'print(2)', expectedId: 0 });
  });

  it('reads a program alone, without a version', () => {
    const path = file('alone.js', 'x');
    expect(readProgram(path).expectedId).toBeUndefined();
  });

  it.each([
    ['program/missing', () => join(folder, 'none.js')],
    ['program/empty', () => file('empty.js', '')],
    ['program/long', () => file('long.js', 'x'.repeat(65_537))],
    ['program/json', () => withJson('bad', '{')],
    ['program/json', () => withJson('list', '[1]')],
    ['program/id', () => withJson('id', '{"expectedId": 256}')],
    ['program/id', () => withJson('word', '{"expectedId": "7"}')],
    ['program/no-bundle', () => join(file('bare/board.js', 'x'), '..')],
    ['program/missing', () => join(file('lost/bundle.json', '{"program": "board.js"}'), '..')],
  ])('refuses with %s', (code, path) => {
    expect(() => readProgram(path())).toThrow(expect.objectContaining({ code }));
  });

  it('names the line of a byte that is no ASCII', () => {
    const path = file('umlaut.js', Buffer.from('a\nb\n"\xe4"', 'utf8'));
    expect(() => readProgram(path)).toThrow(/umlaut\.js:3: Byte 5 is 0xc3/);
  });

  it('refuses control bytes that would interrupt the board', () => {
    expect(() => readProgram(file('break.js', 'a\x03b'))).toThrow(/0x03/);
  });
});
