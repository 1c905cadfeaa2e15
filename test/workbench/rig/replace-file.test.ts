import { mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { replaceFile } from '../../../workbench/rig/replace-file.ts';
import { testFolder } from './files.ts';

const folder = testFolder();

describe('replacing a file', () => {
  it('puts the new content in place', () => {
    const path = folder.put('a.txt', 'old');
    replaceFile(path, 'new');
    expect(readFileSync(path, 'utf8')).toBe('new');
  });

  it('leaves nothing behind when the last step fails', () => {
    // A folder in the way: everything up to the renaming succeeds.
    mkdirSync(folder.path('inner/target'), { recursive: true });
    folder.put('inner/target/kept', 'kept');
    expect(() => replaceFile(folder.path('inner/target'), 'new')).toThrow(/EISDIR|ENOTEMPTY|EEXIST|EPERM/);
    expect(readdirSync(folder.path('inner'))).toEqual(['target']);
    expect(readFileSync(folder.path('inner/target/kept'), 'utf8')).toBe('kept');
  });
});
