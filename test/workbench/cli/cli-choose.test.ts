import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { defaultGrid } from '../../../sim/study/grid.ts';
import { SWEEP_COLUMNS } from '../../../workbench/cli/render-sweep.ts';
import { readRig } from '../../../workbench/rig/read-rig.ts';
import { testFolder } from '../rig/files.ts';
import { stateAround } from './folder-state.ts';
import { type Ended, runCli, STACK } from './run-cli.ts';
import { IMPOSSIBLE_HAND, SMALL_HAND } from './small-hand.ts';

const LONG = process.env.TAUTLINE_VERIFY === '1';
const folder = testFolder();
const small = folder.put('small.yaml', SMALL_HAND);
const PROGRESS = /settings on drawn builds/;

/** A study of the small hand, but for the seed. */
const SMALL = ['choose', small, '--draws', '20', '--json', '--threads', '1', '--seed'];
const SMALL_2 = SMALL.with(SMALL.indexOf('1'), '2');
let first: Promise<Ended> | undefined;

/** The one that others are held against, with seed 7. */
function smallStudy(): Promise<Ended> {
  first ??= runCli([...SMALL, '7']);
  return first;
}

interface Score {
  value: number;
  low: number;
  high: number;
  unit: string;
}

function scoresOf(ended: Ended): Record<string, Score> {
  return JSON.parse(ended.stdout).scores;
}

describe('choose', () => {
  it('gives the answer on the example in JSON, and progress on stderr only', async () => {
    const args = ['choose', 'examples/puppet-right.yaml', '--seed', '7', '--draws', '20', '--json'];
    const ended = await runCli([...args, '--threads', '2']);
    const result = JSON.parse(ended.stdout);
    expect(ended.stderr).toMatch(PROGRESS);
    expect(ended.stderr).not.toMatch(STACK);
    expect(result).toMatchObject({ command: 'choose', seed: 7, draws: 20 });
    expect(Object.keys(result)).toEqual(
      expect.arrayContaining(['pick', 'scores', 'pareto', 'whatIf', 'verdict', 'seed']),
    );
    expect(result.pick.settings.oversampling).toBeGreaterThanOrEqual(1);
    expect(Object.keys(result.pick.settings)).toEqual(['oversampling', 'despike', 'lowPass', 'hysteresis']);
    expect(result.scores).toEqual(result.pick.scores);
    const scores = Object.entries<Score>(result.scores);
    expect(scores.map(([name]) => name)).toEqual(expect.arrayContaining(['jitterPct', 'lagMs', 'errorPct']));
    for (const [, { value, low, high, unit }] of scores) {
      expect(low).toBeLessThanOrEqual(value);
      expect(high).toBeGreaterThanOrEqual(value);
      expect(unit).toMatch(/\S/);
    }
    // No point of the front is better than another in both.
    const front: { jitterPct: number; lagMs: number }[] = result.pareto;
    expect(front.length).toBeGreaterThan(1);
    for (const a of front)
      for (const b of front) expect(a.jitterPct < b.jitterPct && a.lagMs < b.lagMs).toBe(false);
    expect(result.whatIf.length).toBeGreaterThan(3);
    expect(result.verdict.headline).toMatch(/^\S.*\.$/);
    // 20 draws cannot show 95 % (95 % of confidence needs 73): the answer is "not yet", which is no error.
    expect(result.verdict.meets).toBe(false);
    expect(ended.code).toBe(1);
    if (LONG) {
      for (const threads of ['1', '2', '3'])
        expect((await runCli([...args, '--threads', threads])).stdout).toBe(ended.stdout);
    }
  });

  it('gives the same bytes again, and on any number of threads', async () => {
    const [one, again, two] = await Promise.all([
      smallStudy(),
      runCli([...SMALL, '7']),
      runCli([...SMALL_2, '7']),
    ]);
    expect(one.stdout.length).toBeGreaterThan(1000);
    expect(again.stdout === one.stdout).toBe(true);
    expect(two.stdout === one.stdout).toBe(true);
    expect([again.code, two.code]).toEqual([one.code, one.code]);
  });

  it('draws other builds from another seed', async () => {
    const [seven, eight] = (await Promise.all([smallStudy(), runCli([...SMALL, '8'])])).map(scoresOf);
    expect(eight.jitterPct.value).not.toBe(seven.jitterPct.value);
    // Other builds, but of the same kind.
    expect(eight.jitterPct.value / seven.jitterPct.value).toBeGreaterThan(0.7);
    expect(eight.jitterPct.value / seven.jitterPct.value).toBeLessThan(1.4);
  });

  it('takes the noise of a recording at rest', async () => {
    const rest = ['--rest', 'examples/rest-puppet-right.csv'];
    const [without, withRest] = await Promise.all([smallStudy(), runCli([...SMALL, '7', ...rest])]);
    expect(withRest.code).toBe(1);
    expect(withRest.stderr).not.toMatch(/warning/);
    expect(scoresOf(withRest).jitterPct.value).not.toBe(scoresOf(without).jitterPct.value);
  });

  it('warns of few draws', async () => {
    const { warnings } = JSON.parse((await smallStudy()).stdout);
    expect(warnings).toEqual([expect.stringMatching(/^20 draws are a first look; take 200 or more/)]);
  });

  it('writes settings that meet the wishes into the rig file and keeps everything else in it', async () => {
    const rig = folder.put('mine.yaml', SMALL_HAND);
    const report = folder.path('mine.html');
    const ended = await runCli([
      ...['choose', rig, '--draws', '80', '--threads', '1', '--json', '--write', '--report', report],
    ]);
    expect(ended.code).toBe(0);
    const { pick, verdict } = JSON.parse(ended.stdout);
    expect(verdict.meets).toBe(true);
    const text = readFileSync(rig, 'utf8');
    const lines = text.split('\n');
    for (const line of SMALL_HAND.split('\n')) expect(lines).toContain(line);
    const { rig: after, warnings } = readRig(rig);
    expect(warnings).toEqual([]);
    const { settings, ...others } = after;
    expect(settings).toEqual(pick.settings);
    const { settings: _, ...before } = readRig(small).rig;
    expect(others).toEqual(before);
    expect(readFileSync(report, 'utf8')).toMatch(/^<!doctype html>/i);
    expect(stateAround(rig).map(([name]) => name)).not.toContainEqual(expect.stringMatching(/tmp/));
  });

  it('leaves the rig file alone when no settings meet the wishes, and tells so with exit code 1', async () => {
    const rig = folder.put('impossible.yaml', IMPOSSIBLE_HAND);
    const before = stateAround(rig);
    const ended = await runCli(['choose', rig, '--draws', '20', '--threads', '1', '--write']);
    expect(ended.code).toBe(1);
    expect(stateAround(rig)).toEqual(before);
    expect(ended.stdout).toMatch(/No settings meet all wishes/);
    expect(ended.stderr).toContain(`nothing written to ${rig}`);
  });

  it.each([
    ['--report', 'choose'],
    ['--csv', 'sweep'],
  ])('finds out before any work that %s cannot be written', async (option, command) => {
    const target = folder.path('absent/file');
    const ended = await runCli([command, 'examples/puppet-right.yaml', '--draws', '1000', option, target]);
    expect([ended.code, ended.stdout]).toEqual([2, '']);
    expect(ended.stderr).not.toMatch(PROGRESS);
    expect(ended.stderr).toMatch(/the folder .*absent is not there/);
    expect(ended.stderr).not.toMatch(STACK);
    expect(existsSync(folder.path('absent'))).toBe(false);
  });
});

/** Fields of CSV after RFC 4180. */
function csvRows(text: string): string[][] {
  const rows: string[][] = [[]];
  const field = /("(?:[^"]|"")*"|[^",\r\n]*)(,|\r\n|$)/gy;
  while (field.lastIndex < text.length) {
    const match = field.exec(text);
    if (match === null) throw new Error(`no CSV at ${JSON.stringify(text.slice(0, 80))}`);
    const [, raw, end] = match;
    rows.at(-1)?.push(raw.startsWith('"') ? raw.slice(1, -1).replace(/""/g, '"') : raw);
    if (end === '\r\n') rows.push([]);
  }
  if (rows.at(-1)?.length === 0) rows.pop();
  return rows;
}

describe('sweep', () => {
  it('prints one row of CSV for every setting, fast enough for the board or not', async () => {
    const ended = await runCli(['sweep', small, '--draws', '1', '--threads', '1', '--csv', '-']);
    expect(ended.code).toBe(0);
    const [head, ...rows] = csvRows(ended.stdout);
    expect(head).toEqual(SWEEP_COLUMNS);
    expect(rows).toHaveLength(defaultGrid().length);
    expect(rows.every((row) => row.length === head.length)).toBe(true);
    expect(new Set(rows.map(([id]) => id)).size).toBe(rows.length);
    const lag = head.indexOf('lagMs');
    expect(rows.every((row) => Number.isFinite(Number(row[lag])))).toBe(true);
    expect(ended.stderr).not.toMatch(/,.*,.*,/);
  });

  it('gives the same numbers as JSON and in a file', async () => {
    const args = ['sweep', small, '--draws', '1', '--threads', '1', '--seed', '5'];
    const table = folder.path('table.csv');
    const json = JSON.parse((await runCli([...args, '--json', '--csv', table])).stdout);
    expect(json).toMatchObject({ command: 'sweep', seed: 5, draws: 1 });
    const [head, ...rows] = csvRows(readFileSync(table, 'utf8'));
    const jitter = head.indexOf('jitterPct');
    expect(rows.map(([id]) => id)).toEqual(json.rows.map((row: { id: string }) => row.id));
    expect(rows.map((row) => Number(row[jitter]))).toEqual(
      json.rows.map((row: { scores: { jitterPct: number } }) => row.scores.jitterPct),
    );
  });
});
