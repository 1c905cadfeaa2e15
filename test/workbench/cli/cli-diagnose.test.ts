import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { runHere } from './run-here.ts';

const RIG = 'examples/marionette-right.yaml';
const SCENE = 'examples/sessions/puppet-scene.csv';
const folder = mkdtempSync(join(tmpdir(), 'tautline-diagnose-'));

describe('tautline diagnose', () => {
  it('finds nothing in a sound build’s scene, and says what a free recording does not show', async () => {
    const { code, stdout } = await runHere('diagnose', RIG, '--from', SCENE);
    expect(stdout).toMatch(/^No fault found in what could be judged\./);
    expect(stdout.replace(/\s+/g, ' ')).toMatch(/nobody was asked to move all of them, all the way/);
    expect(code).toBe(0);
    for (const line of stdout.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('gives the same as JSON', async () => {
    const { code, stdout } = await runHere('diagnose', RIG, '--from', SCENE, '--json');
    expect([code, JSON.parse(stdout)]).toMatchObject([0, { command: 'diagnose', ok: true, findings: [] }]);
  });

  it('tells a file that is no recording', async () => {
    const file = join(folder, 'other.csv');
    writeFileSync(file, 'time,value\n1,2\n');
    const { code, stderr } = await runHere('diagnose', RIG, '--from', file);
    expect(code).toBe(2);
    expect(stderr).toMatch(/other\.csv:1:1/);
  });
});

it('choose --from says that a recording without raw readings tells no noise', async () => {
  const both = await runHere('choose', RIG, '--from', SCENE, '--rest', 'examples/rest-puppet-right.csv');
  expect(both.code).toBe(2);
  expect(both.stderr).toMatch(/--from and --rest exclude each other/);
});
