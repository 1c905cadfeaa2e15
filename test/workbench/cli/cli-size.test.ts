import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { runHere } from './run-here.ts';

const RIG = readFileSync('examples/puppet-right.yaml', 'utf8');

function rigFile(text: string): string {
  const file = join(mkdtempSync(join(tmpdir(), 'tautline-size-')), 'rig.yaml');
  writeFileSync(file, text);
  return file;
}

interface Answer {
  ok: boolean;
  size: {
    breaksFirst: { group: string; seen: string; cure: string }[];
    strings: {
      fingers: { name: string; spool: { strokesMm: [number, number]; proposedRadiusMm: number } }[];
    };
  };
}

async function sizeOf(text: string, ...more: string[]): Promise<{ code: number; answer: Answer }> {
  const ended = await runHere('size', rigFile(text), '--json', ...more);
  return { code: ended.code ?? -1, answer: JSON.parse(ended.stdout) as Answer };
}

describe('tautline size', () => {
  it('draws 51.66 mm of string for the mean hand and proposes 14.3 mm of spool for 80 % of 260 deg', async () => {
    const { code, answer } = await sizeOf(RIG, '--hands', '1:1');
    expect(code).toBe(0);
    const { spool: index } = answer.size.strings.fingers.find((f) => f.name === 'index')!;
    // 14·pi/2 + 11·100·pi/180 + 9·66.67·pi/180; 51.66/(0.8·260 deg) = 14.23, rounded up
    expect(index.strokesMm[1]).toBeCloseTo(51.66, 2);
    expect(index.proposedRadiusMm).toBe(14.3);
  });

  it('finds the end stop with a spool of 10 mm, and says which spool would do', async () => {
    const { code, answer } = await sizeOf(RIG.replace('radius: 15 mm', 'radius: 10 mm'), '--hands', '1:1');
    expect(code).toBe(1);
    expect(answer.ok).toBe(false);
    expect(answer.size.breaksFirst[0]).toMatchObject({
      group: 'spool',
      cure: 'take a spool of 14.3 mm radius',
    });
    // 51.66/10 rad = 296 deg of 260 (113.8 %), of 250.7 with the part at its shortest 118.1 %, and 1.2 % more as
    // the winding of 0.3 mm string gets thinner over 0.83 turns
    expect(Number.parseFloat(answer.size.breaksFirst[0]!.seen)).toBeCloseTo(118.1 * 1.012, 0);
  });

  it('finds a spring that cannot wind a stiff potentiometer back', async () => {
    // 100 gf·cm are 9.81 mN·m, more than the spring's 5.3
    const { code, answer } = await sizeOf(
      `${RIG}\n`.replace('  spool:', '  potentiometer: {drag: 100 gf·cm}\n  spool:'),
    );
    expect(code).toBe(1);
    expect(answer.size.breaksFirst[0]!.group).toBe('spring');
    expect(answer.size.breaksFirst[0]!.cure).toMatch(/preload|turns more easily/);
  });

  it('finds 4.7 k with 1 k at 5 %: right nominally, beyond 2.45 V in a corner', async () => {
    const { code, answer } = await sizeOf(
      RIG.replace('  spool:', '  wiring: {top: 4.7k, bottom: 1k, pullDown: 0}\n  spool:'),
    );
    expect(code).toBe(1);
    expect(answer.size.breaksFirst[0]).toMatchObject({ group: 'wiring', seen: '2.459 V' });
  });

  it('never proposes a smaller spool for a larger hand', async () => {
    let before = 0;
    for (const size of [0.8, 0.9, 1, 1.1, 1.2]) {
      const { answer } = await sizeOf(RIG, '--hands', `${size}:${size}`);
      expect(answer.size.strings.fingers[1]!.spool.proposedRadiusMm).toBeGreaterThan(before);
      before = answer.size.strings.fingers[1]!.spool.proposedRadiusMm;
    }
  });

  it('says at 80 columns what breaks first', async () => {
    const ended = await runHere('size', rigFile(RIG));
    expect(ended.stdout).toMatch(/^Yes: on paper[\s\S]*What breaks first/);
    for (const line of ended.stdout.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('refuses a file as the folder for parts, and a folder in none', async () => {
    const file = rigFile(RIG);
    const ended = await runHere('size', file, '--stl', file);
    expect([ended.code, ended.stdout]).toEqual([2, '']);
    expect(ended.stderr).toMatch(/is a file; expected a folder/);
    const nowhere = await runHere('size', file, '--stl', join(file, 'a/b'));
    expect(nowhere.code).toBe(2);
    expect(nowhere.stderr).toMatch(/cannot be made/);
  });

  it.each(['1', '1.2:0.9', 'a:b', '0.1:3'])('refuses --hands %s', async (range) => {
    const ended = await runHere('size', rigFile(RIG), '--hands', range);
    expect(ended.code).toBe(2);
    expect(ended.stderr).toMatch(/expected for instance 0.9:1.1/);
  });
});
