import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { voltsAt } from '../../../firmware/boards/adc-curve.ts';
import type { Rig } from '../../../sim/rig/rig.ts';
import { lineShare } from '../../../workbench/bundle/fit.ts';
import { settingsIdOf, settingsText } from '../../../workbench/bundle/ids.ts';
import { planOfRig } from '../../../workbench/bundle/plan-of-rig.ts';
import { parseRig } from '../../../workbench/rig/parse-rig.ts';

const SETTINGS = `
settings:
  oversampling: 8
  despike: {kind: clip, limit: 10 %}
  lowPass: {kind: adaptive, restCutoff: 1 Hz, rise: 30 Hz}
  hysteresis: {kind: still, width: 0.5 %}
`;

const FINGERS = `fingers:
  thumb: {pin: 32}
  index: {pin: 33}
  middle: {pin: 34}
  ring: {pin: 35}
  little: {pin: 36}`;

function rigOf(text = '', settings = SETTINGS): Rig {
  const fingers = text.includes('fingers:') ? '' : FINGERS;
  return parseRig(
    `name: Puppet\nboard: esp32\nhand: {side: left}\n${fingers}\n${text}\n${settings}`,
    'rig.yaml',
  ).rig;
}

/** Thevenin voltage of a loaded divider, worked out the textbook way. */
function loadedVolts(x: number): number {
  const lower = 1000 + x * 10_000;
  const open = (3.3 * lower) / 16_600;
  const source = (lower * (16_600 - lower)) / 16_600;
  return (open * 100_000) / (100_000 + source);
}

describe('plan of the default rig', () => {
  const plan = planOfRig(rigOf());

  it('has ends where the excursion of 51.66 mm puts them, on a spool of 15 mm in the middle of 280 deg', () => {
    // turn = 51.66 / 15 rad; the track begins 10 deg from the stop. Within 10 mV: the string's thickness counts for 5.
    const turnDeg = ((51.66 / 15) * 180) / Math.PI;
    const startDeg = (280 - turnDeg) / 2;
    const index = plan.fingers.find((f) => f.slot === 1)!;
    for (const [reading, deg] of [
      [index.ends.open, startDeg],
      [index.ends.closed, startDeg + turnDeg],
    ] as const) {
      const volts = loadedVolts((deg - 10) / 260);
      expect(voltsAt('esp32', 11, reading * 4096)).toBeCloseTo(volts, 1.699);
    }
  });

  it('takes half of what the lowest wiper can give for an open one', () => {
    // 3.3 V - 3 %, less the sag; 12 k, 5.6 k + 5 %, 1 k - 5 % and 100 k to ground; the chip that reads lowest
    const { openBelow } = plan.fingers[0]!;
    expect(openBelow).toBeGreaterThan(0.002);
    expect(openBelow).toBeLessThan(0.5 * plan.fingers[1]!.ends.open);
  });

  it('cannot tell an open wiper without a resistor to ground', () => {
    const bare = planOfRig(rigOf('eachFinger: {wiring: {bottom: 0}}'));
    expect(bare.fingers.map((f) => f.openBelow)).toEqual([0, 0, 0, 0, 0]);
  });

  it('says what to do where no settings are chosen', () => {
    expect(() => planOfRig(rigOf('', ''))).toThrow(/no settings are chosen yet/);
  });
});

describe('plan of a rig with extras', () => {
  it('reads a multiplexer in the order in which one select line changes at a time', () => {
    const plan = planOfRig(
      rigOf(`multiplexer: {select: [25, 26, 27], signal: 32}
fingers:
  thumb: {channel: 0}
  index: {channel: 1}
  middle: {channel: 2}
  ring: {channel: 3}
  little: {channel: 4}
watchdog: 5 s`),
    );
    // Gray code: 0 1 3 2 6 7 5 4
    expect(plan.fingers.map((f) => f.channel)).toEqual([0, 1, 3, 2, 4]);
    expect(plan.fingers.map((f) => f.slot)).toEqual([0, 1, 3, 2, 4]);
    expect(plan.dummyRead).toBe(true);
    expect(plan.watchdogS).toBe(5);
  });

  it('knows what the rail pin reads: half of 3.3 V', () => {
    const plan = planOfRig(rigOf('rail: {pin: 39, divider: 50 %}'));
    expect(voltsAt('esp32', 11, plan.rail!.nominal * 4096)).toBeCloseTo(1.65, 2);
    expect(plan.rail!.supplyMv).toBe(3300);
  });
});

describe('the first reading of each finger', () => {
  it('is thrown away where the rig file says so, and kept otherwise', () => {
    expect(planOfRig(rigOf()).dummyRead).toBe(false);
    expect(planOfRig(rigOf('dummyRead: true')).dummyRead).toBe(true);
  });
});

describe('plan of a rig with a second serial port', () => {
  it('sends frames there', () => {
    const plan = planOfRig(rigOf('frameLink: {tx: 17, baud: 230400}'));
    expect(plan.frameUart).toEqual({ uart: 2, txPin: 17, baud: 230400 });
    // 20 bytes of 10 bits, 100 times a second
    expect(lineShare(plan)).toBeCloseTo(20_000 / 230_400, 9);
  });
});

describe('ids', () => {
  it('the settings id follows pins, board and build, but not filters, rate or wishes', () => {
    const id = settingsIdOf(rigOf());
    for (const same of ['frameRate: 50 Hz', 'wishes: {lag: 20 ms}', 'buttons: [18]']) {
      expect(settingsIdOf(rigOf(same)), same).toBe(id);
    }
    for (const other of [
      'eachFinger: {spool: {radius: 14 mm}}',
      FINGERS.replace('32', '39'),
      'eachFinger: {wiring: {top: 4.7k}}',
      'supply: {voltage: 3.2 V}',
      'eachFinger: {spring: {openTorque: 6 mN·m}}',
      'eachFinger: {potentiometer: {electricalTravel: 250 deg}}',
      'rail: {pin: 39, divider: 50 %}',
      'multiplexer: {select: [25, 26, 27], signal: 39}',
    ]) {
      expect(settingsIdOf(rigOf(other)), other).not.toBe(id);
    }
    expect(settingsIdOf(rigOf('', SETTINGS.replace('10 %', '12 %')))).toBe(id);
    const rig = rigOf();
    expect(settingsIdOf({ ...rig, board: 'esp32-c3' })).not.toBe(id);
    const select = (selectPins: [number, number, number]) =>
      settingsIdOf({ ...rig, multiplexer: { selectPins, signalPin: 39 } });
    expect(select([25, 26, 27])).not.toBe(select([27, 26, 25]));
    expect(settingsIdOf({ ...rig, hand: { ...rig.hand, side: 'right' } })).not.toBe(id);
  });

  it('the settings id of an example stays what it is: stored calibrations of its owners hang on it', () => {
    // Python: zlib.crc32 over json.dumps of the same values, separators "," and ":"
    const text = readFileSync('examples/puppet-right.yaml', 'utf8');
    expect(settingsIdOf(parseRig(text, 'rig.yaml').rig)).toBe(0xe4a5d6b4);
  });

  it('the settings id is the CRC-32 that zlib gives for its text', async () => {
    const { crc32 } = await import('crc');
    const text = settingsText(rigOf());
    expect(settingsIdOf(rigOf())).toBe(crc32(text));
  });
});
