import {
  chmodSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { dirname } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Settings } from '../../../firmware/chain/settings.ts';
import { newRigText } from '../../../workbench/rig/new-rig.ts';
import { readRig } from '../../../workbench/rig/read-rig.ts';
import { writeSettings } from '../../../workbench/rig/write-settings.ts';
import { errorOf, testFolder } from './files.ts';

const folder = testFolder();

const SETTINGS: Settings = {
  oversampling: 8,
  despike: { kind: 'clip', limitPct: 12.5 },
  lowPass: { kind: 'adaptive', restCutoffHz: 1.2, riseHz: 6 },
  hysteresis: { kind: 'still', widthPct: 0.7 },
};
const BLOCK = `settings:
  oversampling: 8
  despike:
    kind: clip
    limit: 12.5 %
  lowPass:
    kind: adaptive
    restCutoff: 1.2 Hz
    rise: 6 Hz
  hysteresis:
    kind: still
    width: 0.7 %
`;
const RIG = '# top\nname:   Odd   spacing # stays\n\n\nfingers: { index: {pin: 33}   } # and this\n';

function written(name: string, text: string, settings = SETTINGS): string {
  const path = folder.put(name, text);
  writeSettings(path, settings);
  return readFileSync(path, 'utf8');
}

describe('writing settings', () => {
  it('appends a block and changes nothing else', () => {
    expect(written('append.yaml', RIG)).toBe(`${RIG}\n${BLOCK}`);
  });

  it('ends an unfinished last line first', () => {
    expect(written('no-end.yaml', RIG.trimEnd())).toBe(`${RIG}\n${BLOCK}`);
  });

  it('replaces the block where it stands, and only that', () => {
    const after = '\n# wishes of the troupe\nwishes: {jitter: 1 %}   # fine\n# end\n';
    const old = 'settings: {oversampling: 1, despike: none, lowPass: none, hysteresis: none}\n';
    const text = written('replace.yaml', RIG + old + after);
    expect(text.startsWith(RIG)).toBe(true);
    expect(text.endsWith(after)).toBe(true);
    expect(readRig(folder.path('replace.yaml')).rig.settings).toEqual(SETTINGS);
  });

  it('keeps the comments inside the block, also those of keys that go', () => {
    const block = `settings: # chosen on the train
  # quiet enough
  oversampling: 4 # four
  despike: none
  lowPass: # smooth
    kind: exponential # simple
    cutoff: 5 Hz # found by hand
  hysteresis: {kind: still, width: 1 %}

`;
    const text = written('comments.yaml', `${block}# about the fingers\nfingers: {index: {pin: 33}}\n`);
    for (const comment of [
      'chosen on the train',
      'quiet enough',
      'four',
      'smooth',
      'simple',
      'found by hand',
    ]) {
      expect(text.split(`# ${comment}`)).toHaveLength(2);
    }
    expect(text).toContain('  oversampling: 8 # four\n');
    expect(text.endsWith('\n\n# about the fingers\nfingers: {index: {pin: 33}}\n')).toBe(true);
    expect(readRig(folder.path('comments.yaml')).rig.settings).toEqual(SETTINGS);
  });

  it('gives the same file when done twice', () => {
    const once = written('twice.yaml', newRigText());
    expect(once.startsWith(newRigText())).toBe(true);
    expect(written('twice.yaml', once)).toBe(once);
  });

  it.each<[string, Settings]>([
    [
      'none',
      { oversampling: 1, despike: { kind: 'none' }, lowPass: { kind: 'none' }, hysteresis: { kind: 'none' } },
    ],
    [
      'one euro',
      {
        oversampling: 32,
        despike: { kind: 'median' },
        lowPass: { kind: 'oneEuro', minCutoffHz: 1 / 3, beta: 0.1 + 0.2, speedCutoffHz: 1e-7 },
        hysteresis: { kind: 'step', widthPct: 1e-3 },
      },
    ],
    [
      'exponential',
      {
        oversampling: 2,
        despike: { kind: 'none' },
        lowPass: { kind: 'exponential', cutoffHz: 12.345678901234567 },
        hysteresis: { kind: 'drag', widthPct: 0.1 },
      },
    ],
  ])('keeps every digit: %s', (_name, settings) => {
    written('digits.yaml', `${RIG}${BLOCK}`, settings);
    expect(readRig(folder.path('digits.yaml')).rig.settings).toEqual(settings);
  });

  it('keeps Windows line ends and the byte order mark', () => {
    const text = written('windows.yaml', `\ufeff${RIG.replace(/\n/g, '\r\n')}`);
    expect(text).toBe(`\ufeff${`${RIG}\n${BLOCK}`.replace(/\n/g, '\r\n')}`);
  });

  it('writes before the end mark of a document and at the indentation of its keys', () => {
    expect(written('end.yaml', `${RIG}...\n`)).toBe(`${RIG}\n${BLOCK}...\n`);
    const text = written('indented.yaml', '  fingers:\n    index: {pin: 33}\n');
    expect(text).toBe(`  fingers:\n    index: {pin: 33}\n\n${BLOCK.replace(/^/gm, '  ').trimEnd()}\n`);
  });

  it('works on a file in braces, comments kept', () => {
    const text = written('braces.yaml', '# one\n{fingers: {index: {pin: 33}}} # two\n');
    expect(text).toContain('# one');
    expect(text).toContain('# two');
    expect(readRig(folder.path('braces.yaml')).rig.settings).toEqual(SETTINGS);
  });

  it('keeps the mode of the file and leaves no other file behind', () => {
    mkdirSync(folder.path('mode'));
    const path = folder.put('mode/rig.yaml', RIG);
    chmodSync(path, 0o640);
    writeSettings(path, SETTINGS);
    expect(statSync(path).mode & 0o777).toBe(0o640);
    expect(readdirSync(dirname(path))).toEqual(['rig.yaml']);
  });

  it('follows a link instead of replacing it', () => {
    const path = folder.put('target.yaml', RIG);
    symlinkSync(path, folder.path('link.yaml'));
    writeSettings(folder.path('link.yaml'), SETTINGS);
    expect(readFileSync(path, 'utf8')).toBe(`${RIG}\n${BLOCK}`);
  });
});

describe('settings are not written', () => {
  it('when the file has changed since it was read', () => {
    const path = folder.put('changed.yaml', RIG);
    const { source } = readRig(path);
    writeFileSync(path, `${RIG}# a late thought\n`);
    const error = errorOf(() => writeSettings(path, SETTINGS, source));
    expect(error.code).toBe('rig/changed');
    expect(readFileSync(path, 'utf8')).toBe(`${RIG}# a late thought\n`);
  });

  it('but are when it has not', () => {
    const path = folder.put('same.yaml', RIG);
    writeSettings(path, SETTINGS, readRig(path).source);
    expect(readRig(path).rig.settings).toEqual(SETTINGS);
  });

  it('when they would not be valid', () => {
    const path = folder.put('invalid.yaml', RIG);
    const settings: Settings = { ...SETTINGS, lowPass: { kind: 'exponential', cutoffHz: 60 } };
    expect(errorOf(() => writeSettings(path, settings)).code).toBe('rig/invalid');
    expect(readFileSync(path, 'utf8')).toBe(RIG);
  });

  it('into an empty block, which the reader takes for an unfinished one', () => {
    const path = folder.put('null.yaml', `${RIG}settings:\n`);
    expect(errorOf(() => writeSettings(path, SETTINGS)).problems[0]).toMatchObject({ line: 6, column: 1 });
    expect(readFileSync(path, 'utf8')).toBe(`${RIG}settings:\n`);
  });

  it('into a broken rig', () => {
    const path = folder.put('broken.yaml', `${RIG}colour: red\n`);
    expect(errorOf(() => writeSettings(path, SETTINGS)).problems[0]).toMatchObject({ line: 6, column: 1 });
    expect(readFileSync(path, 'utf8')).toBe(`${RIG}colour: red\n`);
  });

  it('into a file that is not there, which is not made either', () => {
    expect(errorOf(() => writeSettings(folder.path('absent.yaml'), SETTINGS)).code).toBe('rig/not-found');
    expect(readdirSync(folder.path('.'))).not.toContain('absent.yaml');
  });

  it('where the disk refuses the file that is to replace it', () => {
    // A name of 250 characters leaves no room for that of the temporary file (255 on common file systems).
    const path = folder.put(`${'n'.repeat(245)}.yaml`, RIG);
    const error = errorOf(() => writeSettings(path, SETTINGS));
    expect(error.code).toBe('rig/not-written');
    expect(error.detail).toMatch(/ENAMETOOLONG/);
    expect(readFileSync(path, 'utf8')).toBe(RIG);
  });
});
