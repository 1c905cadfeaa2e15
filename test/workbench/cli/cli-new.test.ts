import { mkdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseRig, readRig } from '../../../workbench/rig/read-rig.ts';
import { testFolder } from '../rig/files.ts';
import { stateAround } from './folder-state.ts';
import { STACK } from './run-cli.ts';
import { runHere } from './run-here.ts';

const folder = testFolder();

describe('new', () => {
  it.each(['esp32', 'esp32-s3', 'esp32-c3'] as const)(
    'writes a rig for %s that can be read',
    async (board) => {
      const file = folder.path(`${board}.yaml`);
      const ended = await runHere(
        'new',
        file,
        '--board',
        board,
        '--hand',
        'left',
        '--name',
        'Punch & "Judy": 1',
      );
      expect(ended.code).toBe(0);
      expect(ended.stderr).toBe('');
      expect(ended.stdout).toContain(`tautline choose ${file}`);
      const { rig, warnings } = readRig(file);
      // Warnings tell about the boards themselves; the usual one gives none.
      if (board === 'esp32') expect(warnings).toEqual([]);
      expect(rig).toMatchObject({ board, name: 'Punch & "Judy": 1', hand: { side: 'left' } });
    },
  );

  it('prints the rig instead when the file is -', async () => {
    const ended = await runHere('new', '-', '--board', 'esp32-c3');
    expect([ended.code, ended.stderr]).toEqual([0, '']);
    expect(parseRig(ended.stdout, 'x').rig.board).toBe('esp32-c3');
  });

  it('names the file in JSON', async () => {
    const file = folder.path('json.yaml');
    const ended = await runHere('new', file, '--json');
    expect(JSON.parse(ended.stdout)).toEqual({ file });
  });

  it('never overwrites a file', async () => {
    const file = folder.put('mine.yaml', '# all my work\n');
    const before = stateAround(file);
    const ended = await runHere('new', file);
    expect([ended.code, ended.stdout]).toEqual([2, '']);
    expect(ended.stderr).toContain(`${file} is there already`);
    expect(ended.stderr).toContain('(output/exists)');
    expect(ended.stderr).not.toMatch(STACK);
    expect(stateAround(file)).toEqual(before);
    expect(readFileSync(file, 'utf8')).toBe('# all my work\n');
  });

  it('needs the folder to be there', async () => {
    const ended = await runHere('new', folder.path('absent/rig.yaml'));
    expect([ended.code, ended.stdout]).toEqual([2, '']);
    expect(ended.stderr).toMatch(/folder .*absent is not there/);
    expect(ended.stderr).toMatch(/Make the folder first/);
  });

  it('does not write over a folder', async () => {
    mkdirSync(folder.path('folder'));
    const ended = await runHere('new', folder.path('folder'));
    expect([ended.code, ended.stdout]).toEqual([2, '']);
    expect(ended.stderr).toContain('nothing was written');
  });
});
