import { describe, expect, it } from 'vitest';
import { STATUS_UNCALIBRATED } from '../../../protocol/frame.ts';
import { defaultRig } from '../../../sim/rig/default-rig.ts';
import { diagnose } from '../../../workbench/diagnose/diagnose.ts';
import { createFreeGatherer, createGatherer } from '../../../workbench/diagnose/gather.ts';
import { MOST_HAND_ROWS } from '../../../workbench/diagnose/grow.ts';
import { guideOf } from '../../../workbench/diagnose/guide.ts';
import type { LiveFrame } from '../../../workbench/live/session-types.ts';
import { syntheticEvidence } from './synthetic.ts';

function frameOf(change: Partial<LiveFrame>): LiveFrame {
  return {
    kind: 'hand',
    side: 'right',
    sequence: 0,
    step: 1,
    deviceS: 0,
    hostS: 0,
    values: [1, 2, 3, 4, 5],
    joystick: [0, 0],
    buttons: 0,
    status: 0,
    ...change,
  };
}

describe('a guided collector', () => {
  it('keeps frames of the passage that is open, and only new ones', () => {
    const gatherer = createGatherer();
    gatherer.take(frameOf({ deviceS: 1 }));
    gatherer.begin({ kind: 'rest' });
    gatherer.take(frameOf({ deviceS: 2 }));
    gatherer.take(frameOf({ deviceS: 2, step: 0 }));
    gatherer.take(frameOf({ deviceS: 1.9, step: -3 }));
    gatherer.take(frameOf({ deviceS: 2.5, kind: 'raw' }));
    gatherer.take(frameOf({ deviceS: 3, values: [9, 8, 7, 6, 65535] }));
    gatherer.end();
    gatherer.take(frameOf({ deviceS: 4 }));
    const { hand } = gatherer.evidence();
    expect([...hand.rest!.timesS]).toEqual([2, 3]);
    expect(hand.rest!.words.map((words) => [...words])).toEqual([
      [1, 9],
      [2, 8],
      [3, 7],
      [4, 6],
      [5, 65535],
    ]);
    expect(hand.slow).toBeUndefined();
  });

  it('keeps raw frames of the channel asked for, with their pace', () => {
    const gatherer = createGatherer();
    gatherer.begin({ kind: 'rawRest', slot: 2 });
    gatherer.take(frameOf({ kind: 'raw', deviceS: 1, joystick: [1, 40] }));
    gatherer.take(frameOf({ kind: 'raw', deviceS: 2, joystick: [2, 40] }));
    const raw = gatherer.evidence().rawRest[2]!;
    expect([...raw.timesS]).toEqual([2]);
    expect([...raw.counts]).toEqual([1, 2, 3, 4, 5]);
    // 40 steps of 50 us, protocol/SPEC.md
    expect(raw.paceS).toBeCloseTo(0.002, 12);
  });

  it('begins a repeated passage anew', () => {
    const gatherer = createGatherer();
    for (const deviceS of [1, 2]) {
      gatherer.begin({ kind: 'slow' });
      gatherer.take(frameOf({ deviceS }));
    }
    expect([...gatherer.evidence().hand.slow!.timesS]).toEqual([2]);
  });

  it('takes health frames at any time, and the calibration from the last hand frame', () => {
    const gatherer = createGatherer();
    gatherer.take(frameOf({ kind: 'health', deviceS: 5, values: [3290, 65535, 0, 2, 256] }));
    gatherer.take(frameOf({ kind: 'health', deviceS: 6, values: [65535, 65535, 0, 2, 256] }));
    gatherer.take(frameOf({ status: STATUS_UNCALIBRATED }));
    expect(gatherer.evidence()).toMatchObject({
      isCalibrated: false,
      health: [
        { timeS: 5, supplyMv: 3290, errors: 2 },
        { timeS: 6, supplyMv: undefined, errors: 2 },
      ],
    });
    gatherer.take(frameOf({}));
    expect(gatherer.evidence().isCalibrated).toBe(true);
  });

  it('keeps within its limits and forgets the oldest', () => {
    const gatherer = createGatherer();
    gatherer.begin({ kind: 'rest' });
    const frames = 2 * MOST_HAND_ROWS + 7;
    for (let i = 0; i < frames; i++) gatherer.take(frameOf({ deviceS: i }));
    const { timesS, words } = gatherer.evidence().hand.rest!;
    expect(timesS.length).toBeLessThanOrEqual(MOST_HAND_ROWS);
    expect(timesS.length).toBeGreaterThanOrEqual(MOST_HAND_ROWS / 2);
    expect(timesS[timesS.length - 1]).toBe(frames - 1);
    expect(timesS[0]).toBe(frames - timesS.length);
    expect(words[4]!.length).toBe(timesS.length);
  });
});

describe('a free collector', () => {
  it('finds the passages of a session that nobody named', () => {
    const evidence = syntheticEvidence(defaultRig());
    const gatherer = createFreeGatherer();
    let startS = 0;
    const lengths: number[] = [];
    for (const passage of ['rest', 'slow', 'flick'] as const) {
      const rows = evidence.hand[passage]!;
      rows.timesS.forEach((_, i) => {
        gatherer.take(frameOf({ deviceS: startS + i / 100, values: rows.words.map((words) => words[i]!) }));
      });
      lengths.push(rows.timesS.length);
      startS += rows.timesS.length / 100;
      // A rest between two passages, as people make it.
      for (let i = 0; i < 200; i++) {
        gatherer.take(
          frameOf({ deviceS: startS + i / 100, values: rows.words.map((words) => words[words.length - 1]!) }),
        );
      }
      startS += 2;
    }
    const { hand } = gatherer.evidence();
    // The guided rest is 8 s, the slow passage 16 s, of which the first and last 0.8 s are rest.
    expect(hand.rest!.timesS.length).toBeGreaterThan(750);
    expect(hand.slow!.timesS.length).toBeGreaterThan(1300);
    expect(hand.slow!.timesS.length).toBeLessThan(1700);
    expect(hand.flick!.timesS[0]).toBeGreaterThan(28);
    expect(hand.flick!.timesS.length).toBeGreaterThan(600);
  });

  it('splits a channel into its rest and its movement', () => {
    const evidence = syntheticEvidence(defaultRig());
    const gatherer = createFreeGatherer();
    let t = 0;
    for (const raw of [evidence.rawRest[1]!, evidence.rawSlow[1]!]) {
      for (let f = 0; f < raw.timesS.length; f++) {
        t += 0.01;
        gatherer.take(
          frameOf({
            kind: 'raw',
            deviceS: t,
            joystick: [1, 0],
            values: [...raw.counts.slice(5 * f, 5 * f + 5)],
          }),
        );
      }
    }
    const found = gatherer.evidence();
    expect(found.rawRest[1]!.timesS.length).toBeGreaterThanOrEqual(400);
    expect(found.rawRest[1]!.timesS.length).toBeLessThan(500);
    expect(found.rawSlow[1]!.timesS.length).toBe(1200);
    expect(found.rawRest[0]).toBeUndefined();
  });
});

describe('thin evidence', () => {
  it('is told as not judged, and nothing is found in it', () => {
    const rig = defaultRig();
    const { findings, unjudged } = diagnose(createGatherer().evidence(), rig);
    expect(findings).toEqual([]);
    expect(unjudged.map(({ what }) => what.split(':')[0])).toEqual([
      'Drift and sag',
      'Ends, play, dead ends and direction',
      'Order, crosstalk and slipping',
      'Noise, odd codes, hum and spikes of thumb, index, middle, ring, little',
      'Dirt on the track of thumb, index, middle, ring, little',
    ]);
    for (const { next } of unjudged) expect(next).toMatch(/^(Record|Repeat)/);
  });
});

describe('the guide', () => {
  it('names every passage once, and each wired channel twice', () => {
    const rig = defaultRig();
    rig.fingers = rig.fingers.slice(1, 3);
    expect(guideOf(rig).map(({ step, rawSlot }) => [step.kind, rawSlot])).toEqual([
      ['rest', -1],
      ['slow', -1],
      ['flick', -1],
      ['rawRest', 1],
      ['rawSlow', 1],
      ['rawRest', 2],
      ['rawSlow', 2],
    ]);
  });
});
