/*
 * What makers reported, rebuilt as arrays from the numbers in public threads, and what the diagnosis calls it. Each
 * case names its thread; whatever the thread leaves open is taken from the default rig.
 */
import { describe, expect, it } from 'vitest';
import { dividerVolts } from '../../../sim/pot/divider.ts';
import { defaultRig, noisePreset } from '../../../sim/rig/default-rig.ts';
import type { Rig } from '../../../sim/rig/rig.ts';
import { keys } from '../../../sim/seed/mix.ts';
import { openStream } from '../../../sim/seed/stream.ts';
import { diagnose } from '../../../workbench/diagnose/diagnose.ts';
import type { FaultKind, Finding } from '../../../workbench/diagnose/finding.ts';
import { type SyntheticOptions, syntheticEvidence } from './synthetic.ts';

const MIDDLE = 2;

function rigWith(noise: 'quiet' | 'typical' = 'typical', board: Rig['board'] = 'esp32'): Rig {
  return { ...defaultRig(board), noise: noisePreset(noise) };
}

function findingsOf(options: SyntheticOptions, rig = rigWith()): Finding[] {
  return diagnose(syntheticEvidence(rig, options), rig).findings;
}

/** Kinds found for the middle finger. */
function middleKinds(options: SyntheticOptions, rig = rigWith()): FaultKind[] {
  return findingsOf(options, rig)
    .filter((finding) => finding.fingers.includes('middle'))
    .map((finding) => finding.fault);
}

const only = (slot: number, then: number, otherwise: number) => (slot === MIDDLE ? then : otherwise);

describe('converter', () => {
  it('that gives 258 of 4096 on every pin is told as not read at all (espruino/Espruino#1141)', () => {
    const findings = findingsOf({ reading: () => 0.06298828125 * 4096, word: () => 12000 });
    expect(findings[0]).toMatchObject({
      fault: 'samePin',
      fingers: ['thumb', 'index', 'middle', 'ring', 'little'],
    });
    expect(findings[0]!.evidence[0]).toContain('258 counts');
  });

  it.each([
    [15.4, 0.7],
    [66.6, 0.82],
  ])(
    'noise of %d counts with 85-91 %% odd codes is noise and odd codes (espressif/esp-idf#164)',
    (sd, share) => {
      const { uniform } = openStream(keys(1, 2, 3));
      const findings = findingsOf(
        {
          sdCounts: sd,
          level: (_slot, counts) => counts + 300,
          reading: (_slot, counts) => (uniform() < share ? Math.round(counts) | 1 : counts),
        },
        rigWith('quiet'),
      );
      const kinds = findings.map((finding) => finding.fault);
      expect(kinds).toContain('oddCodes');
      const noisy = findings.filter((finding) => finding.fault === 'noise');
      expect(noisy).toHaveLength(5);
      const said = Number(/scatter by ([\d.]+) counts/.exec(noisy[0]!.evidence[0]!)![1]);
      expect(said / sd).toBeGreaterThan(0.9);
      expect(said / sd).toBeLessThan(1.1);
    },
  );

  it('single readings more than 1000 counts off are spikes (espressif/esp-idf#8266)', () => {
    expect(
      middleKinds({ reading: (slot, counts, n) => counts + only(slot, n % 150 === 0 ? 1200 : 0, 0) }),
    ).toEqual(['spikes']);
  });

  it('noise of 1-2 % of the range is told with its share of the closure (alf45tar/PedalinoMini#123)', () => {
    // ± 1.5 % of 4096 taken as three standard deviations.
    const finding = findingsOf({ sdCounts: 20 }).find(
      ({ fault, fingers }) => fault === 'noise' && fingers[0] === 'middle',
    );
    expect(finding!.evidence[0]).toMatch(/1\.\d % of the closure/);
  });

  it('that flips between 0 and 750 at a constant voltage has two levels (esphome/issues#4983, esp-rs/esp-idf#468)', () => {
    const rig = rigWith('typical', 'esp32-c3');
    const flip = (n: number) => (Math.floor(n / 700) % 2 === 0 ? 0 : 750);
    expect(middleKinds({ reading: (slot, counts, n) => only(slot, flip(n), counts) }, rig)[0]).toBe(
      'twoLevels',
    );
  });
});

describe('slow pick-up', () => {
  /** Low-passed noise that whole frames share, correlated over 50 ms. */
  function wander(sd: number) {
    const { normal } = openStream(keys(7, 7, 7));
    const state = [0, 0, 0, 0, 0];
    const keep = Math.exp(-0.01 / 0.05);
    return (slot: number) => {
      state[slot] = keep * state[slot]! + Math.sqrt(1 - keep * keep) * normal();
      return sd * state[slot]!;
    };
  }

  it('of 16-19 counts at mid travel is wander, not noise; 1-2 counts are none (ATOVproject/faderpunk#556)', () => {
    const loud = wander(17.5);
    expect(
      middleKinds({ level: (slot, counts) => counts + only(slot, loud(slot), 0) }, rigWith('quiet')),
    ).toEqual(['wander']);
    const soft = wander(1.5);
    expect(middleKinds({ level: (slot, counts) => counts + only(slot, soft(slot), 0) })).toEqual([]);
  });

  it('of 30 counts peak to peak that bunched reads share is told as such (opentx/opentx#3233)', () => {
    // Four reads 20 µs apart, then 2 ms blind: the readings of a frame agree, the frames do not. 30 counts as 5 sd.
    const { normal } = openStream(keys(9, 9, 9));
    const kinds = middleKinds(
      { level: (slot, counts) => counts + only(slot, 6 * normal(), 0) },
      rigWith('quiet'),
    );
    expect(kinds).toEqual(['wander']);
  });
});

describe('neighbours', () => {
  it('a channel read before takes 50 counts off the first reading (arduino/Arduino#3064)', () => {
    const kinds = middleKinds({ reading: (slot, counts, n) => counts - only(slot, n % 5 === 0 ? 50 : 0, 0) });
    expect(kinds).toContain('crosstalk');
    expect(kinds).not.toContain('noise');
  });

  it.each([
    ['1 % of a fader’s movement arrives at its neighbour (opentx/opentx#2639)', 0.01],
    ['the brake moves the clutch (barsk/G27_Pedals_and_Shifter#2)', 0.08],
  ])('%s', (_title, share) => {
    const finding = findingsOf({
      level: (slot, counts, _tS, all) => counts + only(slot, share * (all[1]! - 350), 0),
    }).find(({ fault }) => fault === 'crosstalk')!;
    expect(finding.fingers).toEqual(['middle']);
    const said = Number(/reads ([\d.]+) % of its movement/.exec(finding.evidence[0]!)![1]) / 100;
    expect(Math.abs(said - share)).toBeLessThan(0.003);
    expect(finding.evidence[0]).toContain('index');
  });
});

describe('wiring', () => {
  it('only 80 % of the range is reached (omriharel/deej#16): the range has changed or a leg has resistance', () => {
    const finding = findingsOf({
      isCalibrated: true,
      level: (slot, counts) => only(slot, 350 + 0.8 * (counts - 350), counts),
    }).find(({ fingers }) => fingers.includes('middle'))!;
    expect(['rangeChanged', 'legResistance']).toContain(finding.fault);
  });

  it('ground on the wrong pad leaves a fader dead at the top (omriharel/deej#49)', () => {
    // The track hangs on the supply through the top resistor; the pull-down alone loads it.
    const volts = (3.3 * 100e3) / (100e3 + 5600 + 5000);
    const counts = 3562 + ((volts - 2.9) / 0.1) * (3776 - 3562);
    expect(middleKinds({ level: (slot, level) => only(slot, counts, level) })[0]).toBe('missingLeg');
  });

  it('an unplugged input wanders over 25000-32000 of 65535 (FreeJoy-Team/FreeJoy#206)', () => {
    const middle = 28500 / 16;
    const half = 3500 / 16;
    const floats = (slot: number, level: number, tS: number) =>
      only(slot, middle + half * Math.sin(2.1 * tS) * Math.cos(0.7 * tS), level);
    expect(middleKinds({ level: floats })[0]).toBe('openWiper');
  });

  it('a slide potentiometer given up by its owner: 530 703 538 543 718 of 1023 round 601 is dirt (a public student log)', () => {
    const jumps = [530, 703, 538, 543, 718].map((v) => (v - 601) * 4);
    const kinds = middleKinds({
      reading: (slot, counts, n, closure, passage) =>
        counts + only(slot, passage === 'rawSlow' && closure > 0.55 && closure < 0.62 ? jumps[n % 5]! : 0, 0),
    });
    expect(kinds[0]).toBe('dirtyWiper');
  });

  it('one that stays at 1019-1023 of 1023 wherever it is moved (the same log) has lost its leg or is beyond the range', () => {
    const finding = findingsOf({
      sdCounts: 2,
      reading: (slot, counts, n) => only(slot, 4 * (1019 + (n % 5)), counts),
      word: (slot, word) => only(slot, 65534, word),
    }).find(({ fingers }) => fingers.includes('middle'))!;
    expect([finding.fault, ...finding.orElse]).toContain('saturated');
    expect([finding.fault, ...finding.orElse]).toContain('missingLeg');
  });

  it('nothing moves in the first and last 12 % of the travel: dead ends (opentx/opentx#4172)', () => {
    // 260 deg of track over 197 deg of stroke: 12 % more at either end runs off it.
    const findings = findingsOf({
      isCalibrated: true,
      closure: (slot, closure) => only(slot, 0.5 + 1.73 * (closure - 0.5), closure),
    });
    const dead = findings.filter(({ fault, fingers }) => fault === 'deadEnd' && fingers[0] === 'middle');
    expect(dead).toHaveLength(2);
  });

  it('63 µA that leak into the pin are a pull-up of 47 kΩ (public log of a draw-wire board)', () => {
    const rig = rigWith();
    const curve = (volts: number) => 77 + ((volts - 0.2) / 0.8) * (1059 - 77);
    const openV = dividerVolts(0.12, 3.3, 10e3, 5600, 1000, 100e3);
    const closedV = dividerVolts(0.88, 3.3, 10e3, 5600, 1000, 100e3);
    // Node equation: the pull-up beside the divider's own resistance.
    const lifted = (volts: number, lower: number) => {
      const behind = 1 / (1 / lower + 1 / (16600 - lower) + 1 / 100e3);
      return volts + ((3.3 - volts) * behind) / (behind + 47e3);
    };
    const shift = [
      curve(lifted(openV, 1000 + 1200)) - curve(openV),
      curve(lifted(closedV, 1000 + 8800)) - curve(closedV),
    ];
    const finding = findingsOf(
      {
        isCalibrated: true,
        level: (slot, counts) => {
          const place = (counts - 350) / 1790;
          return only(slot, counts + shift[0]! + place * (shift[1]! - shift[0]!), counts);
        },
      },
      rig,
    ).find(({ fingers }) => fingers.includes('middle'))!;
    expect([finding.fault, ...finding.orElse]).toContain('pullUp');
  });
});

describe('strings', () => {
  it('the first 2 of 15 mm draw nothing: slack (Arduino forum, string potentiometer)', () => {
    const slack = 2 / 15;
    const kinds = middleKinds({
      closure: (slot, closure) => only(slot, Math.max(0, closure - slack) / (1 - slack), closure),
    });
    expect(kinds[0]).toBe('slackString');
  });

  it('a zero that shifts with play after each pull slips (Arduino forum, string potentiometer)', () => {
    const kinds = middleKinds({
      closure: (slot, closure, tS, passage) =>
        only(
          slot,
          passage === 'flick' && tS > 0.6 + 1.6 * MIDDLE + 0.3 ? Math.max(closure, 0.07) : closure,
          closure,
        ),
    });
    expect(kinds).toEqual(['slippingString']);
  });

  it('a rest that comes back 4.3 % elsewhere is told, 0.4 % is not (rdoeffinger/xwa_ddraw_d3d11#22, Ryochan7/DS4Windows#729)', () => {
    // Rests at 31138 and 33962 of 65535; a good stick's at 32511 and 32767.
    const back = (shift: number): SyntheticOptions => ({
      closure: (slot, closure, tS, passage) =>
        only(
          slot,
          passage === 'flick' && tS > 0.6 + 1.6 * MIDDLE + 0.3 ? Math.max(closure, shift) : closure,
          closure,
        ),
    });
    expect(middleKinds(back((33962 - 31138) / 65535))).toEqual(['slippingString']);
    expect(middleKinds(back((32767 - 32511) / 65535))).toEqual([]);
  });
});
