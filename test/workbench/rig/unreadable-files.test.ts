import { execFileSync } from 'node:child_process';
import { mkdirSync, symlinkSync, truncateSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { formatProblems } from '../../../sim/errors.ts';
import { readRest } from '../../../workbench/rig/read-rest.ts';
import { readRig } from '../../../workbench/rig/read-rig.ts';
import { errorOf, testFolder } from './files.ts';

const folder = testFolder();

const READERS: [string, (path: string) => unknown][] = [
  ['rig', readRig],
  ['rest', readRest],
];

describe.each(READERS)('a %s file', (area, read) => {
  function expectWhole(path: string, cause: string, seen: RegExp): void {
    const error = errorOf(() => read(path));
    expect(error.code).toBe(`${area}/${cause}`);
    expect(error.problems).toHaveLength(1);
    expect(error.problems[0]).toMatchObject({ file: path, line: 0, column: 0 });
    expect(error.problems[0]!.seen).toMatch(seen);
    expect(formatProblems(error)).toMatch(
      new RegExp(`^${path}: .*\\n    expected: .+\\n    next:     .+\\n`),
    );
    expect(formatProblems(error)).not.toMatch(/\n\s+at /);
  }

  it('that is not there is named', () => {
    expectWhole(folder.path('absent'), 'not-found', /no such file/);
  });

  it('may not be a folder', () => {
    mkdirSync(folder.path('folder'), { recursive: true });
    expectWhole(folder.path('folder'), 'directory', /a folder/);
  });

  it('may not lie below a file', () => {
    expectWhole(`${folder.put('plain', 'x')}/inner`, 'unreadable', /ENOTDIR/);
  });

  it('may not be a link in a circle', () => {
    symlinkSync(folder.path(`${area}-loop`), folder.path(`${area}-loop`));
    expectWhole(folder.path(`${area}-loop`), 'unreadable', /ELOOP/);
  });

  it.skipIf(process.platform === 'win32')('may not be a pipe, which could wait for ever', () => {
    execFileSync('mkfifo', [folder.path(`${area}-pipe`)]);
    expectWhole(folder.path(`${area}-pipe`), 'unreadable', /a device or pipe/);
  });

  it('may not be huge, which is told without reading it', () => {
    const path = folder.put(`${area}-huge`, '');
    truncateSync(path, 200_000_001);
    expectWhole(path, 'too-large', /200\.0 MB, more than/);
  });

  it('with a byte that is no UTF-8 is refused at that byte', () => {
    // "Größe" in Latin-1: ö is 0xF6, the third character of line 2.
    const path = folder.put(`${area}-latin1`, Buffer.from('# x\nGr\xf6\xdfe\n', 'latin1'));
    const error = errorOf(() => read(path));
    expect(error.code).toBe(`${area}/binary`);
    expect(error.problems[0]).toMatchObject({ line: 2, column: 3 });
    expect(error.problems[0]!.seen).toMatch(/byte 0xf6/);
  });

  it('in UTF-16 is told to be saved as UTF-8', () => {
    const path = folder.put(
      `${area}-utf16`,
      Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from('a: 1\n', 'utf16le')]),
    );
    const error = errorOf(() => read(path));
    expect(error.problems[0]).toMatchObject({
      line: 1,
      column: 1,
      seen: 'text in UTF-16',
      next: 'save it as UTF-8',
    });
  });

  it('with a cut-off last character is refused at that character', () => {
    const path = folder.put(`${area}-cut`, Buffer.from([0x23, 0x20, 0xc3, 0xb6, 0x0a, 0x23, 0xe2, 0x82]));
    expect(errorOf(() => read(path)).problems[0]).toMatchObject({ line: 2, column: 2 });
  });
});
