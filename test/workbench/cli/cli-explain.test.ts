import { describe, expect, it } from 'vitest';
import { ESP32_SWEEP } from '../../sim/adc/published.ts';
import { runCli, STACK } from './run-cli.ts';
import { runHere } from './run-here.ts';

interface Curve {
  volts: number[];
  counts: number[];
}

async function curveOf(board: string, volts: string): Promise<Curve> {
  const ended = await runHere('explain', 'adc', '--board', board, '--volts', volts, '--json');
  expect(ended.stderr).toBe('');
  expect(ended.code).toBe(0);
  return JSON.parse(ended.stdout);
}

/** Straight line between the two published voltages round a voltage. */
function published(volts: number): number {
  const mv = 1000 * volts;
  const above = ESP32_SWEEP.findIndex(([at]) => at >= mv);
  const [highMv, high] = ESP32_SWEEP[above];
  if (highMv === mv) return high;
  const [lowMv, low] = ESP32_SWEEP[above - 1];
  return low + ((high - low) * (mv - lowMv)) / (highMv - lowMv);
}

describe('explain adc', () => {
  it('prints volts and counts and nothing else, in the program as built', async () => {
    const ended = await runCli([
      ...['explain', 'adc', '--board', 'esp32', '--volts', '0.1:3.1:0.05', '--json'],
    ]);
    expect(ended.code).toBe(0);
    expect(ended.stderr).toBe('');
    const curve: Curve = JSON.parse(ended.stdout);
    expect(Object.keys(curve)).toEqual(['volts', 'counts']);
    expect(curve.volts).toHaveLength(61);
    expect(curve.counts).toHaveLength(61);
    expect([curve.volts[0], curve.volts[1], curve.volts[4], curve.volts[60]]).toEqual([0.1, 0.15, 0.3, 3.1]);
    expect(curve).toEqual(await curveOf('esp32', '0.1:3.1:0.05'));
  });

  it('passes within 60 counts of a published sweep of one ESP32', async () => {
    // kisel/esp32_adc_test, see published.ts: one chip out of many, so the margin is a chip's, not the model's.
    const { volts, counts } = await curveOf('esp32', '0.1:3.1:0.05');
    const off = volts.map((v, i) => Math.abs(counts[i] - published(v)));
    expect(Math.max(...off)).toBeLessThanOrEqual(60);
  });

  it.each([
    // GitHub espressif/arduino-esp32#92: what another ESP32 read at voltages taken with a meter.
    [0.819, 823],
    [1.641, 1814],
    [2.462, 2811],
    [3.286, 4095],
  ])('passes within 100 counts of another ESP32 that read %d V as %d', async (volts, reading) => {
    const { counts } = await curveOf('esp32', `${volts}:${volts}:1`);
    expect(counts).toHaveLength(1);
    expect(Math.abs(counts[0] - reading)).toBeLessThanOrEqual(100);
  });

  it.each(['esp32', 'esp32-s3', 'esp32-c3'])(
    'gives a 12-bit curve that never falls for %s',
    async (board) => {
      const { volts, counts } = await curveOf(board, '0:3.3:0.01');
      expect(volts).toHaveLength(331);
      expect(counts[0]).toBe(0);
      expect(counts[330]).toBe(4095);
      expect(counts.every((c, i) => c >= 0 && c <= 4095 && (i === 0 || c >= counts[i - 1]))).toBe(true);
      // Not a staircase and not a cliff: half the supply reads somewhere in the middle half.
      expect(counts[165]).toBeGreaterThan(1024);
      expect(counts[165]).toBeLessThan(3072);
    },
  );

  it('prints a table with the source of the curve', async () => {
    const { code, stdout } = await runHere('explain', 'adc', '--volts', '1:1.2:0.1');
    expect(code).toBe(0);
    expect(stdout.match(/^ +1(\.\d)? +\d+$/gm)).toHaveLength(3);
    expect(stdout).toMatch(/Curve: .+\.\n$/);
  });

  it.each(['', '1', '1:2', '1:2:0', '1:2:-0.1', '2:1:0.1', 'a:b:c', '0:3.3:0.1:4', '0:1:1e-9', '0:inf:1'])(
    'refuses the range "%s"',
    async (range) => {
      const ended = await runHere('explain', 'adc', '--volts', range);
      expect(ended.code).toBe(2);
      expect(ended.stdout).toBe('');
      expect(ended.stderr).toMatch(/--volts/);
      expect(ended.stderr).toMatch(/[Ee]xpected (FROM:TO:STEP|at most 100000)/);
      expect(ended.stderr).not.toMatch(STACK);
    },
  );

  it('refuses a board it does not know and names those it does', async () => {
    const ended = await runHere('explain', 'adc', '--board', 'uno');
    expect(ended.code).toBe(2);
    expect(ended.stderr).toMatch(/'uno'.*esp32, esp32-s3, esp32-c3/);
  });
});

describe('explain', () => {
  it('lists every default with value, unit and source', async () => {
    const { code, stdout } = await runHere('explain', '--json');
    expect(code).toBe(0);
    const defaults: Record<string, Record<string, unknown>> = JSON.parse(stdout);
    expect(Object.keys(defaults)).toContain('finger.spool.radius');
    for (const entry of Object.values(defaults)) {
      expect(Object.keys(entry)).toEqual(
        expect.arrayContaining(['value', 'unit', 'label', 'source', 'text']),
      );
      expect(['datasheet', 'measured', 'published', 'computed', 'assumed']).toContain(entry.source);
    }
  });

  it('tells about one default, or all below a path', async () => {
    const one = await runHere('explain', 'finger.spool.radius');
    expect(one.code).toBe(0);
    expect(one.stdout).toMatch(/finger\.spool\.radius +\d+(\.\d+)? mm/);
    const below = JSON.parse((await runHere('explain', 'finger.spool', '--json')).stdout);
    expect(Object.keys(below).every((path) => path.startsWith('finger.spool.'))).toBe(true);
    expect(Object.keys(below)).toContain('finger.spool.radius');
  });

  it('defines every score that choose gives', async () => {
    const { stdout } = await runHere('explain', 'scores', '--json');
    const scores: Record<string, { unit: string; meaning: string }> = JSON.parse(stdout);
    expect(Object.keys(scores)).toEqual(expect.arrayContaining(['jitterPct', 'lagMs', 'errorPct']));
    expect(Object.values(scores).every((score) => score.meaning.length > 20)).toBe(true);
  });

  it('suggests a topic for one it does not know', async () => {
    const ended = await runHere('explain', 'finger.spool.radus');
    expect(ended.code).toBe(2);
    expect(ended.stdout).toBe('');
    expect(ended.stderr).toContain('Did you mean "finger.spool.radius"?');
    expect(ended.stderr).not.toMatch(STACK);
  });
});
