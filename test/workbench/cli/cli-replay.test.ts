import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { asItems, FACTS, plainFrames, recordedText } from '../live/recording-kit.ts';
import { runHere } from './run-here.ts';

const folder = mkdtempSync(join(tmpdir(), 'tautline-replay-'));
afterAll(() => rmSync(folder, { recursive: true }));

async function put(name: string, text: string): Promise<string> {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

/** 10 s with 7 frames lost in the middle. */
const frames = () => {
  const list = plainFrames(1000);
  list.splice(500, 7);
  list[500] = { ...list[500]!, step: 8 };
  return list;
};

describe('tautline replay', () => {
  it('tells how the link did and what happened', async () => {
    const path = await put('a.csv', await recordedText(asItems(frames())));
    const { code, stdout, stderr } = await runHere('replay', path);
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(
      /^Puppet, right hand: 10\.\d s of a board, recorded 2026-11-25T10:00:00\.000Z by tautline 0\.1\.0\n/,
    );
    expect(stdout).toMatch(/frames +993, 99\.\d a second/);
    expect(stdout).toMatch(/lost +7 \(0\.70 %\), repeated 0, late 0/);
    expect(stdout).toMatch(/What happened\n.*Looking for the port\.\n[\s\S]*Frames come\.\n$/);
  });

  it('gives the same as data', async () => {
    const path = await put('b.csv', await recordedText(asItems(frames()), { ...FACTS, isSimulated: true }));
    const { code, stdout } = await runHere('replay', path, '--json');
    expect(code).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject({
      command: 'replay',
      ok: true,
      file: path,
      facts: { rigName: 'Puppet, right hand', isSimulated: true, settingsId: FACTS.settingsId },
      health: { frames: 993, lost: 7, duplicates: 0, state: 'streaming' },
      warnings: [],
      moreWarnings: 0,
    });
  });

  it('takes its time at a given speed', async () => {
    const path = await put('c.csv', await recordedText(asItems(plainFrames(500))));
    const began = performance.now();
    const { code, stdout } = await runHere('replay', path, '--speed', '10', '--json');
    const tookS = (performance.now() - began) / 1000;
    expect(code).toBe(0);
    expect(JSON.parse(stdout).health).toMatchObject({ frames: 500, lost: 0 });
    // 5 s at ten times the speed.
    expect(tookS).toBeGreaterThan(0.45);
  });

  it('plays what is whole of a cut file and says what it left out', async () => {
    const text = await recordedText(asItems(plainFrames(300)));
    const path = await put('cut.csv', text.slice(0, -10));
    const { code, stdout, stderr } = await runHere('replay', path);
    expect(code).toBe(0);
    expect(stdout).toMatch(/frames +299,/);
    expect(stderr).toContain(`warning: ${path}:311:1: a last line that was cut off\n`);
  });

  it('does not let a file steer the terminal', async () => {
    const facts = { ...FACTS, rigName: 'a\u001b[2Jb', version: '\u202e1' };
    const path = await put('steer.csv', await recordedText(asItems(plainFrames(20)), facts));
    const { stdout } = await runHere('replay', path);
    expect(stdout).toMatch(/^a\?\[2Jb: /);
    for (const sign of ['\u001b', '\u202e']) expect(stdout).not.toContain(sign);
  });

  it('answers no, exit code 1, when there is no frame in it', async () => {
    const { code, stdout } = await runHere('replay', await put('none.csv', await recordedText([])));
    expect(code).toBe(1);
    expect(stdout).toMatch(/No: there is no frame in it/);
  });

  it.each([
    ['a file that is not there', join(folder, 'missing.csv'), /recording\/not-found/],
    ['a rig file', 'examples/puppet-right.yaml', /recording\/foreign/],
  ])('refuses %s, exit code 2', async (_what, path, told) => {
    const { code, stdout, stderr } = await runHere('replay', path);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(told);
    expect(stderr).toMatch(/expected: /);
  });

  it.each(['0', '-1', 'fast', '', '1e9'])('refuses a speed of "%s"', async (speed) => {
    const { code, stderr } = await runHere('replay', 'x.csv', '--speed', speed);
    expect(code).toBe(2);
    expect(stderr).toMatch(/from 0\.01 to 1000/);
  });
});
