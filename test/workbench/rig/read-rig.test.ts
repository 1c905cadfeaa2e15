import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { BOARD_IDS } from '../../../firmware/boards/board.ts';
import { formatProblem } from '../../../sim/errors.ts';
import { defaultFinger, defaultRig, noisePreset } from '../../../sim/rig/default-rig.ts';
import { FINGER_NAMES } from '../../../sim/rig/rig.ts';
import { newRigText } from '../../../workbench/rig/new-rig.ts';
import { parseRig, readRig } from '../../../workbench/rig/read-rig.ts';

const INDEX = 'fingers:\n  index: {pin: 33}\n';
const rigOf = (text: string) => parseRig(text, 'rig.yaml').rig;
const warningsOf = (text: string) =>
  parseRig(text, 'rig.yaml').warnings.map(({ line, column, seen }) => `${line}:${column} ${seen}`);

describe('a rig file', () => {
  it('needs no more than one finger and its pin', () => {
    expect(rigOf(INDEX)).toEqual({ ...defaultRig('esp32'), fingers: [defaultFinger('index', 'esp32', 33)] });
  });

  it('is read into the units of the rig', () => {
    const rig = rigOf(`
name: Test
hand: {side: left, size: 0.9}
board: esp32-s3
supply: {voltage: 3250 mV, tolerance: 2 %, sag: 1 %}
frameRate: 0.05 kHz
noise: {preset: noisy, sd: 20 counts, hum: 3, humFrequency: 60 Hz, spikeShare: 1 %, spikes: [10, 20], oddShare: 0.5, wander: 4, residue: 5 %}
eachFinger:
  momentArms: [1.5 cm, 12 mm, 9]
  guides: [{wrap: 90°, friction: 0.1}, {wrap: 0.25 turn, friction: 0.2}]
  play: 200 um
  anchor: 800 N/m
  spool: {radius: 1.6 cm, string: 0.4 mm}
  spring: {openTorque: 0.006 N·m, perTurn: 2 mN·m/turn, hysteresis: 15 %}
  potentiometer: {resistance: 20k, tolerance: 10 %, electricalTravel: 250 deg, mechanicalTravel: 270°, linearity: 1 %, drag: 1 mN·m, usedCycles: 100, ratedCycles: 20000}
  wiring: {top: 2k2, bottom: 560R, tolerance: 1 %, pullDown: 1M, capacitor: 10 nF}
fingers:
  ring: {pin: GPIO4}
gesture: {on: 0.7, off: 0.3, dwell: 0.05 s}
calibrationPoints: 5
wishes: {jitter: 0.3 %, lag: 25 ms, falsePerHour: 2, frameShare: 40 %, step: 2 %}
settings:
  oversampling: 8
  despike: {kind: clip, limit: 10 %}
  lowPass: {kind: oneEuro, minCutoff: 1.5 Hz, beta: 0.7, speedCutoff: 1 Hz}
  hysteresis: {kind: drag, width: 0.8 %}
`);
    expect(rig).toEqual({
      name: 'Test',
      hand: { side: 'left', scale: 0.9 },
      board: 'esp32-s3',
      supply: { volts: 3.25, tolerance: 0.02, sag: 0.01 },
      frameRateHz: 50,
      fingers: [
        {
          name: 'ring',
          pin: 4,
          momentArmsMm: [15, 12, 9],
          guides: [
            { wrapDeg: 90, friction: 0.1 },
            { wrapDeg: 90, friction: 0.2 },
          ],
          playMm: 0.2,
          anchorNPerMm: 0.8,
          spoolRadiusMm: 16,
          stringDiameterMm: 0.4,
          spring: { openTorqueMNm: 6, perTurnMNm: 2, hysteresis: 0.15 },
          potentiometer: {
            resistanceOhm: 20_000,
            tolerance: 0.1,
            electricalTravelDeg: 250,
            mechanicalTravelDeg: 270,
            linearity: 0.01,
            dragMNm: 1,
            usedCycles: 100,
            ratedCycles: 20_000,
          },
          wiring: { topOhm: 2200, bottomOhm: 560, seriesTolerance: 0.01, pullDownOhm: 1e6, capacitorF: 1e-8 },
        },
      ],
      noise: {
        sdCounts: 20,
        humCounts: 3,
        humHz: 60,
        spikeShare: 0.01,
        spikeCounts: [10, 20],
        oddShare: 0.5,
        wanderCounts: 4,
        residue: 0.05,
      },
      gesture: { onClosure: 0.7, offClosure: 0.3, dwellMs: 50 },
      calibrationPoints: 5,
      wishes: { jitterPct: 0.3, lagMs: 25, falsePerHour: 2, frameShare: 0.4, stepPct: 2, endMissPct: 3 },
      settings: {
        oversampling: 8,
        despike: { kind: 'clip', limitPct: 10 },
        lowPass: { kind: 'oneEuro', minCutoffHz: 1.5, beta: 0.7, speedCutoffHz: 1 },
        hysteresis: { kind: 'drag', widthPct: 0.8 },
      },
    });
  });

  it('lets a finger overrule eachFinger, and that the defaults, value by value', () => {
    const rig = rigOf(`
eachFinger:
  spool: {radius: 16 mm, string: 0.4 mm}
  wiring: {top: 5.1k}
fingers:
  little: {pin: 34}
  index: {pin: 33, spool: {radius: 17 mm}, guides: []}
`);
    const [index, little] = rig.fingers;
    expect([index!.name, index!.spoolRadiusMm, index!.stringDiameterMm, index!.wiring.topOhm]).toEqual([
      'index',
      17,
      0.4,
      5100,
    ]);
    expect([little!.name, little!.spoolRadiusMm, little!.stringDiameterMm, little!.wiring.bottomOhm]).toEqual(
      ['little', 16, 0.4, 1000],
    );
    expect([index!.guides.length, little!.guides.length]).toEqual([0, 1]);
  });

  it('takes an empty section as left out', () => {
    expect(rigOf(`wishes:\n  # jitter: 1 %\nhand:\n${INDEX}`)).toEqual(rigOf(INDEX));
  });

  it('takes the wiring of the board it names', () => {
    const rig = rigOf('board: esp32-c3\nfingers: {index: {pin: 1}}\n');
    expect(rig.fingers[0]!.wiring).toMatchObject({ topOhm: 4700, bottomOhm: 560 });
  });

  it('shares no object between fingers or reads', () => {
    const first = rigOf(newRigText());
    first.fingers[0]!.guides[0]!.friction = 9;
    first.noise.spikeCounts[0] = 9;
    expect(first.fingers[1]!.guides[0]!.friction).toBe(0.08);
    expect(rigOf(newRigText())).toEqual(defaultRig());
  });

  it.each(['quiet', 'typical', 'noisy', 'rough'] as const)('knows the noise preset %s', (preset) => {
    expect(rigOf(`noise: ${preset}\n${INDEX}`).noise).toEqual(noisePreset(preset));
  });

  it('takes a recording from the folder of the rig file', () => {
    const text = `noise: {recording: rest.csv}\n${INDEX}`;
    expect(parseRig(text, 'builds/one/rig.yaml').restFile).toBe('builds/one/rest.csv');
    expect(parseRig(text, 'rig.yaml').restFile).toBe('rest.csv');
    expect(parseRig(`noise: {recording: /data/rest.csv}\n${INDEX}`, 'builds/rig.yaml').restFile).toBe(
      '/data/rest.csv',
    );
    expect(parseRig(INDEX, 'rig.yaml').restFile).toBeUndefined();
  });

  it('takes short forms of the settings', () => {
    const rig = rigOf(
      `settings: {oversampling: 1, despike: median, lowPass: none, hysteresis: none}\n${INDEX}`,
    );
    expect(rig.settings).toEqual({
      oversampling: 1,
      despike: { kind: 'median' },
      lowPass: { kind: 'none' },
      hysteresis: { kind: 'none' },
    });
  });
});

describe('pulls of a spring balance', () => {
  const PULLS = '[{stringOut: 0 mm, in: 0.30 N, out: 0.38 N}, {stringOut: 50 mm, in: 0.36 N, out: 0.44 N}]';

  it('become torque, torque per turn and friction', () => {
    // By hand, radius 15 mm: means 0.34 N and 0.40 N, so 5.1 and 6.0 mN·m; 50 mm are 50/(2π·15) = 0.530516 turn,
    // so 0.9/0.530516 = 1.696460 mN·m a turn; friction (0.08/0.68 + 0.08/0.80)/2 = 0.108824.
    const finger = rigOf(`eachFinger:\n  spring: {pulls: ${PULLS}}\n${INDEX}`).fingers[0]!;
    expect(finger.spring.openTorqueMNm).toBeCloseTo(5.1, 9);
    expect(finger.spring.perTurnMNm).toBeCloseTo(1.69646, 5);
    expect(finger.spring.hysteresis).toBeCloseTo(0.108824, 6);
    expect(finger.potentiometer.dragMNm).toBe(0);
  });

  it('count friction once when the drag is stated too', () => {
    // 0.3 of 5.1 mN·m is 0.058824 of the spring, taken out of 0.108824.
    const text = `eachFinger:\n  spring: {pulls: ${PULLS}}\n  potentiometer: {drag: 0.3 mN·m}\n${INDEX}`;
    const finger = rigOf(text).fingers[0]!;
    expect(finger.spring.hysteresis).toBeCloseTo(0.05, 6);
    expect(finger.potentiometer.dragMNm).toBe(0.3);
    expect(warningsOf(text)).toEqual([]);
  });

  it('warn when the stated drag is more than the measured friction', () => {
    const text = `eachFinger:\n  spring: {pulls: ${PULLS}}\n  potentiometer: {drag: 2 mN·m}\n${INDEX}`;
    // 0.108824 · 5.1 = 0.555 mN·m
    expect(warningsOf(text)).toEqual([
      '3:25 potentiometer.drag is 2 mN·m, but the pulls show only 0.56 mN·m of friction',
    ]);
  });

  it('use the radius of the finger they end up on', () => {
    const rig = rigOf(
      `eachFinger:\n  spring: {pulls: ${PULLS}}\nfingers:\n  index: {pin: 33, spool: {radius: 30 mm}}\n`,
    );
    expect(rig.fingers[0]!.spring.openTorqueMNm).toBeCloseTo(10.2, 9);
  });

  it('give way to a torque that the finger states', () => {
    const rig = rigOf(
      `eachFinger:\n  spring: {pulls: ${PULLS}}\nfingers:\n  index: {pin: 33, spring: {openTorque: 7}}\n`,
    );
    expect(rig.fingers[0]!.spring.openTorqueMNm).toBe(7);
    expect(rig.fingers[0]!.spring.perTurnMNm).toBeCloseTo(1.69646, 5);
  });
});

describe('warnings', () => {
  it('name a spring that cannot turn the potentiometer back', () => {
    // 100 gf·cm = 9.81 mN·m, the upper end of the PTV09 datasheet, against 5.3·(1 - 0.1) = 4.77 mN·m.
    expect(warningsOf(`eachFinger:\n  potentiometer:\n    drag: 100 gf·cm\n${INDEX}`)).toEqual([
      '3:11 the spring returns with 4.77 mN·m against a drag of 9.81 mN·m',
    ]);
    expect(warningsOf(`eachFinger:\n  potentiometer:\n    drag: 20 gf·cm\n${INDEX}`)).toEqual([]);
  });

  it('name a closure beyond the electrical travel once, with the radius that would do', () => {
    // By hand: 51.66 mm on 10 mm is 296 deg of 260; 51.66/(0.8·260·π/180) = 14.23 mm.
    const { warnings } = parseRig(
      'eachFinger: {spool: {radius: 10 mm}}\nfingers: {index: {pin: 33}, ring: {pin: 34}}\n',
      'r',
    );
    expect(warnings).toHaveLength(1);
    expect(warnings[0]).toMatchObject({ line: 1, column: 30 });
    expect(warnings[0]!.seen).toMatch(/closure of the index draws 51\.7 mm/);
    expect(warnings[0]!.next).toMatch(/at least 14\.2 mm/);
  });

  it('name a supply that the pins do not stand', () => {
    expect(warningsOf(`supply:\n  voltage: 5 V\n${INDEX}`)).toEqual(['2:12 supply.voltage is 5 V']);
    expect(warningsOf(`supply:\n  voltage: 3.3 V\n${INDEX}`)).toEqual([]);
  });

  it('name strapping pins and boards of doubtful ADC', () => {
    expect(warningsOf('board: esp32-c3\nfingers:\n  index: {pin: 2}\n')).toEqual([
      '1:8 board esp32-c3: experimental',
      '3:16 fingers.index.pin is 2, a strapping pin',
    ]);
  });
});

describe('the examples', () => {
  const files = readdirSync('examples').filter((file) => file.endsWith('.yaml'));

  it('are there for both hands', () => {
    expect(files).toEqual(expect.arrayContaining(['puppet-left.yaml', 'puppet-right.yaml']));
    expect(files.length).toBeGreaterThanOrEqual(4);
  });

  it.each(files)('%s is read without a warning', (file) => {
    expect(readRig(`examples/${file}`).warnings.map(formatProblem)).toEqual([]);
  });

  it('puppet-right.yaml is the default rig but for its name', () => {
    expect(readRig('examples/puppet-right.yaml').rig).toEqual({
      ...defaultRig('esp32'),
      name: 'Puppet, right hand',
    });
  });
});

describe('the text of a new rig', () => {
  it.each(BOARD_IDS)('is the default rig of the %s when read', (board) => {
    expect(rigOf(newRigText({ board }))).toEqual(defaultRig(board));
  });

  it('has no warning on the board of the documentation', () => {
    expect(parseRig(newRigText(), 'rig.yaml').warnings).toEqual([]);
  });

  it.each(['Left', 'a: b # c', '12', 'true', "it's", 'x "y"', '- z', 'Ünï', 'Yes (no)', 'ends with:'])(
    'keeps the name %s',
    (name) => {
      const rig = rigOf(newRigText({ side: 'left', name }));
      expect(rig).toEqual({ ...defaultRig(), name, hand: { side: 'left', scale: 1 } });
    },
  );

  it('writes every value out, so that there is something to change', () => {
    const text = newRigText();
    const keys = [
      'radius: 15 mm',
      'capacitor: 100 nF',
      'top: 5.6 kΩ',
      'openTorque: 5.3 mN·m',
      'lag: 30 ms',
      'on: 55 %',
    ];
    for (const key of keys) expect(text).toContain(key);
    for (const name of FINGER_NAMES) expect(text).toMatch(new RegExp(`^ {2}${name}: \\{pin: \\d+\\}$`, 'm'));
  });
});
