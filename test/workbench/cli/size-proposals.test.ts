import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { runHere } from './run-here.ts';

interface Answer {
  ok: boolean;
  proposal: { ok: boolean; left: string[]; changes: { value: string; fingers: string[]; to: number }[] };
}

const folder = mkdtempSync(join(tmpdir(), 'tautline-proposals-'));
let count = 0;

async function size(text: string, ...more: string[]) {
  const path = join(folder, `rig-${count++}.yaml`);
  writeFileSync(path, text);
  const { code, stdout, stderr } = await runHere('size', path, '--json', ...more);
  return { path, code, stderr, answer: stdout === '' ? undefined : (JSON.parse(stdout) as Answer) };
}

describe('what size proposes', () => {
  it('moves no finger onto a pin that a button holds', async () => {
    const rig = `board: esp32\nbuttons: [34, 35]\nfingers: { thumb: { pin: 32 }, index: { pin: 33 }, middle: { pin: 36 }, ring: { pin: 39 } }\n`;
    const { path, answer, code } = await size(rig, '--write');
    expect(answer!.proposal.changes.some(({ value }) => value === 'pin')).toBe(false);
    expect(answer!.proposal.left.join(' ')).toMatch(/which other wires hold/);
    expect(code).toBe(0);
    expect(readFileSync(path, 'utf8')).toContain('middle: { pin: 36');
  });

  it('never makes a build that works fail', async () => {
    // drag and friction leave a stretch of 0.07 mN·m: a tenth is too coarse
    const rig = `eachFinger:
  guides: [{ wrap: 180 deg, friction: 0.11 }]
  spool: { radius: 16 mm }
  potentiometer: { drag: 2.0188 mN·m }
fingers: { index: { pin: 33 } }
`;
    const { path, answer, code } = await size(rig, '--write');
    expect(answer!.ok).toBe(true);
    expect(code).toBe(0);
    const again = JSON.parse((await runHere('size', path, '--json')).stdout) as Answer;
    expect([again.ok, again.proposal.changes]).toEqual([true, []]);
  });

  it('writes the resistors of its own table, with the supply’s tolerance in them', async () => {
    const rig = 'eachFinger: { wiring: { top: 1k } }\nfingers: { index: { pin: 33 } }\n';
    const { path } = await size(rig, '--write');
    // 4.7 k and 1 k would reach 2.380 V on 3.3 V, and 2.451 V on 3 % more: beyond 2.45 V
    expect(readFileSync(path, 'utf8')).toContain('5.6 kΩ');
  });

  it('does not take an easier potentiometer that would not help either', async () => {
    const rig = `eachFinger:
  guides: [{ wrap: 360 deg, friction: 0.35 }]
  potentiometer: { drag: 100 gf·cm }
fingers: { index: { pin: 33 } }
`;
    const { answer, code } = await size(rig);
    expect(code).toBe(1);
    expect(answer!.proposal.changes.some(({ value }) => value === 'potentiometerDrag')).toBe(false);
    expect(answer!.proposal.left.join(' ')).toMatch(/index: no preload works/);
  });

  it('does not fit resistors to a supply that it refuses', async () => {
    const { answer, code } = await size('supply: { voltage: 5 V }\nfingers: { index: { pin: 33 } }\n');
    expect(code).toBe(1);
    expect(answer!.proposal.changes.some(({ value }) => /Resistor/.test(value))).toBe(false);
    expect(answer!.proposal.left.join(' ')).toMatch(/Feed it from the 3V3 pin/);
  });

  it('does not let a supply sag upwards', async () => {
    const rig = 'supply: { tolerance: 5 %, sag: 5 % }\nfingers: { index: { pin: 33 } }\n';
    const { answer } = await size(rig);
    const wiring = (answer as unknown as { size: { wiring: { fingers: { cornersV: number[] }[] } } }).size
      .wiring;
    // 2.2589 V at the highest corner on 3.3 V, times 1.05
    expect(wiring.fingers[0]!.cornersV[1]).toBeCloseTo(2.2589 * 1.05, 3);
  });
});

describe('results of size', () => {
  it.each([['--report'], ['--sheet']])('never overwrite the rig: %s', async (option) => {
    const path = join(folder, `own${option}.yaml`);
    const text = 'fingers: { index: { pin: 33 } }\n';
    writeFileSync(path, text);
    const { code, stderr } = await runHere('size', path, option, path);
    expect([code, readFileSync(path, 'utf8')]).toEqual([2, text]);
    expect(stderr).toMatch(/would overwrite the file .*, which is read/);
  });

  it('are not written over each other', async () => {
    const out = join(folder, 'both.html');
    const { code, stderr } = await size('fingers: { index: { pin: 33 } }\n', '--report', out, '--sheet', out);
    expect(code).toBe(2);
    expect(stderr).toMatch(/would overwrite what --report writes/);
  });
});
