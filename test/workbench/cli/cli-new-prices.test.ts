import { describe, expect, it } from 'vitest';
import { defaultPrices } from '../../../workbench/parts/default-prices.ts';
import { readPrices } from '../../../workbench/parts/read-prices.ts';
import { testFolder } from '../rig/files.ts';
import { runHere } from './run-here.ts';

const folder = testFolder();

describe('new --prices', () => {
  it('writes a price file that can be read, and says that its prices are invented', async () => {
    const file = folder.path('mine.yaml');
    const ended = await runHere('new', '--prices', file);
    expect([ended.code, ended.stderr]).toEqual([0, '']);
    expect(ended.stdout).toMatch(/invented.*tautline size rig\.yaml --prices/);
    expect(readPrices(file)).toEqual(defaultPrices());
  });

  it('prints it instead when the file is -', async () => {
    expect((await runHere('new', '--prices', '-')).stdout).toMatch(/^# What parts cost/);
  });

  it('never overwrites a file', async () => {
    const file = folder.put('there.yaml', '# mine\n');
    const ended = await runHere('new', '--prices', file);
    expect(ended.code).toBe(2);
    expect(ended.stderr).toContain('(output/exists)');
  });

  it.each([
    ['--hand', 'left'],
    ['--board', 'esp32'],
    ['--name', 'x'],
  ])('has no use for %s', async (...option) => {
    const ended = await runHere('new', '--prices', '-', ...option);
    expect([ended.code, ended.stdout]).toEqual([2, '']);
    expect(ended.stderr).toMatch(/cannot be used with/);
  });
});
