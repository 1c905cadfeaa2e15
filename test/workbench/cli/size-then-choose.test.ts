import { copyFileSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readRig } from '../../../workbench/rig/read-rig.ts';
import { runCli } from './run-cli.ts';
import { runHere } from './run-here.ts';

const isLong = process.env.TAUTLINE_VERIFY === '1';
const folder = mkdtempSync(join(tmpdir(), 'tautline-size-choose-'));
const SEED = 4711;

const EXAMPLES = ['puppet-right', 'puppet-left', 'marionette-right', 'marionette-left'];

/** Rigs as a beginner might write them: any of the values may be far off. */
const rigs = fc.record({
  size: fc.constantFrom(0.85, 0.95, 1, 1.1),
  arms: fc.constantFrom('[14 mm, 11 mm, 9 mm]', '[12 mm, 10 mm, 8 mm]', '[15 mm, 12 mm, 9 mm]'),
  wrap: fc.integer({ min: 30, max: 200 }),
  friction: fc.constantFrom(0.05, 0.08, 0.12),
  radius: fc.integer({ min: 9, max: 20 }),
  torque: fc.integer({ min: 20, max: 110 }),
  perTurn: fc.integer({ min: 5, max: 25 }),
  drag: fc.constantFrom(10, 20, 30, 100),
  top: fc.constantFrom('0', '1k', '4k7', '5k6', '10k'),
  bottom: fc.constantFrom('0', '220', '1k', '2k2'),
  pullDown: fc.constantFrom('0', '100k', '220k'),
  capacitor: fc.constantFrom('10 nF', '100 nF', '1 uF', '4.7 uF'),
  middlePin: fc.constantFrom(34, 36, 39),
});

function rigText(r: typeof rigs extends fc.Arbitrary<infer T> ? T : never): string {
  return `# Invented: a rig of the puppet theatre's beginners' class.
name: First try
hand: { side: right, size: ${r.size} }
board: esp32
noise: quiet
eachFinger:
  momentArms: ${r.arms}
  guides: [{ wrap: ${r.wrap} deg, friction: ${r.friction} }]
  spool: { radius: ${r.radius} mm } # what was in the drawer
  spring: { openTorque: ${r.torque} gf·cm, perTurn: ${r.perTurn} gf·cm }
  potentiometer: { drag: ${r.drag} gf·cm }
  wiring: { top: ${r.top}, bottom: ${r.bottom}, pullDown: ${r.pullDown}, capacitor: ${r.capacitor} }
fingers:
  thumb: { pin: 32 }
  index: { pin: 33 }
  middle: { pin: ${r.middlePin} }
wishes: { jitter: 1 %, lag: 60 ms, step: 2 %, falsePerHour: 5 }
`;
}

const drawn = fc.sample(rigs, { numRuns: 10, seed: SEED }).map(rigText);

async function sized(path: string): Promise<void> {
  const before = readFileSync(path, 'utf8');
  const first = await runHere('size', path, '--write', '--json');
  const answer = JSON.parse(first.stdout) as {
    proposal: { ok: boolean; left: string[]; changes: unknown[] };
  };
  expect([answer.proposal.left, answer.proposal.ok, first.code], before).toEqual([[], true, 0]);
  // comments stay
  for (const [comment] of before.matchAll(/#.*/g)) expect(readFileSync(path, 'utf8')).toContain(comment);
  const again = await runHere('size', path, '--json');
  expect(again.code, readFileSync(path, 'utf8')).toBe(0);
  expect(JSON.parse(again.stdout)).toMatchObject({ ok: true, proposal: { changes: [] } });
  expect(readRig(path).warnings.map(({ seen }) => seen)).toEqual([]);
}

async function chosen(path: string): Promise<void> {
  const { code, stderr } = await runCli(['choose', path, '--json', '--threads', '1']);
  expect([code, /warning/.exec(stderr)?.[0]], readFileSync(path, 'utf8')).toEqual([0, undefined]);
}

describe('values that size writes', () => {
  it.each(EXAMPLES)('make the example %s work, and leave nothing to propose', async (name) => {
    const path = join(folder, `${name}.yaml`);
    copyFileSync(`examples/${name}.yaml`, path);
    await sized(path);
  });

  it.each(drawn.map((text, i) => [i, text] as const))(
    `make a random build work, and leave nothing to propose: ${SEED}.%i`,
    async (i, text) => {
      const path = join(folder, `random-${i}.yaml`);
      writeFileSync(path, text);
      await sized(path);
    },
  );

  const chosenPaths = [...EXAMPLES, ...drawn.map((_, i) => `random-${i}`)];
  it.each(isLong ? chosenPaths : ['random-0'])(
    'are chosen for without complaint: %s',
    async (name) => {
      await chosen(join(folder, `${name}.yaml`));
    },
    120_000,
  );
});
