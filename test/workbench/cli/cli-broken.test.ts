import { describe, expect, it } from 'vitest';
import { BROKEN_RESTS } from '../rig/broken-rests.ts';
import { BROKEN_RIGS } from '../rig/broken-rigs.ts';
import { testFolder } from '../rig/files.ts';
import { stateAround } from './folder-state.ts';
import { type Ended, runCli, STACK } from './run-cli.ts';
import { runHere } from './run-here.ts';

const folder = testFolder();
const report = folder.path('report.html');

/** Places as `file:line:column` at the start of a line, then three lines that say what and what to do. */
function expectRefusal(ended: Ended, file: string, place: string, code: string, seen: RegExp): void {
  expect(ended.code).toBe(2);
  expect(ended.stdout).toBe('');
  expect(ended.stderr.startsWith(`${file}:${place}: `)).toBe(true);
  expect(ended.stderr).toMatch(seen);
  expect(ended.stderr).toMatch(/\n {4}expected: .+\n {4}next: {5}.+\n/);
  expect(ended.stderr.endsWith(`(${code})\n`)).toBe(true);
  expect(ended.stderr).not.toMatch(/^ {4}at /m);
  expect(ended.stderr).not.toMatch(STACK);
}

function chooseAll(rig: string): string[] {
  return ['choose', rig, '--write', '--report', report, '--draws', '20', '--threads', '1'];
}

describe('choose', () => {
  it.each(BROKEN_RIGS)('refuses a rig file for %s and writes nothing', async (_title, text, place, seen) => {
    const rig = folder.put('rig.yaml', text);
    const before = stateAround(rig);
    const ended = await runHere(...chooseAll(rig));
    expectRefusal(ended, rig, place, 'rig/invalid', seen);
    expect(stateAround(rig)).toEqual(before);
  });

  it.each(BROKEN_RESTS)(
    'refuses a recording at rest for %s and writes nothing',
    async (_title, text, place, seen) => {
      const rig = folder.put('rig.yaml', 'fingers:\n  index: {pin: 33}\n');
      const rest = folder.put('rest.csv', text);
      const before = stateAround(rig);
      const ended = await runHere(...chooseAll(rig), '--rest', rest);
      expectRefusal(ended, rest, place, 'rest/invalid', seen);
      expect(stateAround(rig)).toEqual(before);
    },
  );

  it('tells where each of several mistakes is', async () => {
    const rig = folder.put('rig.yaml', 'nmae: x\nboard: esp23\nfingers:\n  index: {pin: 33}\n');
    const { code, stderr } = await runHere(...chooseAll(rig));
    expect(code).toBe(2);
    expect(stderr.match(/^.*rig\.yaml:\d+:\d+/gm)).toEqual([`${rig}:1:1`, `${rig}:2:8`]);
  });

  it('names a rig file, or a recording, that is not there', async () => {
    const rig = folder.put('rig.yaml', 'fingers:\n  index: {pin: 33}\n');
    const absent = folder.path('absent');
    for (const ended of [
      await runHere(...chooseAll(absent)),
      await runHere('choose', rig, '--rest', absent),
    ]) {
      expect(ended.code).toBe(2);
      expect(ended.stdout).toBe('');
      expect(ended.stderr).toMatch(/absent: no such file\n/);
      expect(ended.stderr).not.toMatch(STACK);
    }
  });
});

describe('sweep', () => {
  it('refuses a broken rig file and writes no table', async () => {
    const rig = folder.put('rig.yaml', 'board: x\nfingers:\n  index: {pin: 33}\n');
    const before = stateAround(rig);
    const ended = await runHere('sweep', rig, '--csv', folder.path('table.csv'));
    expectRefusal(ended, rig, '1:8', 'rig/invalid', /board is "x"/);
    expect(stateAround(rig)).toEqual(before);
  });
});

describe('the program as built', () => {
  // One of each kind: shape, key, unit, value, pin, syntax, and bytes that are no text.
  it.each([
    'plain text',
    'an unknown key of a section',
    'a wrong dimension',
    'a frame rate of 0',
    'one pin for two fingers',
    'an unclosed quote',
    'a NUL character',
  ])('refuses a rig file for %s and writes nothing', async (title) => {
    const row = BROKEN_RIGS.find(([name]) => name === title);
    if (row === undefined) throw new Error(`no broken rig "${title}"`);
    const rig = folder.put('rig.yaml', row[1]);
    const before = stateAround(rig);
    expectRefusal(await runCli(chooseAll(rig)), rig, row[2], 'rig/invalid', row[3]);
    expect(stateAround(rig)).toEqual(before);
  });

  it('refuses a broken recording at rest and writes nothing', async () => {
    const rig = folder.put('rig.yaml', 'fingers:\n  index: {pin: 33}\n');
    const rest = folder.put('rest.csv', 'time_ms,index\n0,high\n');
    const before = stateAround(rig);
    const ended = await runCli([...chooseAll(rig), '--rest', rest]);
    expectRefusal(ended, rest, '2:3', 'rest/invalid', /"high"/);
    expect(stateAround(rig)).toEqual(before);
  });
});
