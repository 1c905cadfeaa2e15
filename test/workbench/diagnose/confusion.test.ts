import { describe, expect, it } from 'vitest';
import { defaultRig } from '../../../sim/rig/default-rig.ts';
import { confusion, confusionTable, tally } from '../../../workbench/diagnose/confusion.ts';
import { diagnose } from '../../../workbench/diagnose/diagnose.ts';
import type { FaultKind } from '../../../workbench/diagnose/finding.ts';
import { simulatedEvidence } from '../../../workbench/diagnose/simulated-session.ts';

const IS_LONG = process.env.TAUTLINE_VERIFY === '1';
const RIG = defaultRig();

/**
 * Kinds looked for here at clear strength, on one draw of parts. Left out: hum (depends on phase), saturated, slackString,
 * deadEnd and pullUp, which clear strength does not always bring into view; the long run counts all of them.
 */
const CLEAR: readonly Exclude<FaultKind, 'noise' | 'wander' | 'notMoving'>[] = [
  'openWiper',
  'missingLeg',
  'frozen',
  'dirtyWiper',
  'legResistance',
  'samePin',
  'crosstalk',
  'supplySag',
  'radioDips',
  'oddCodes',
  'spikes',
  'slippingString',
  'endStop',
  'friction',
  'zeroDrift',
  'reversed',
  'swapped',
  'rangeChanged',
  'twoLevels',
];
const WHOLE_HAND = new Set<FaultKind>(['supplySag', 'radioDips', 'rangeChanged']);

describe('a guided session on the simulated controller', () => {
  it('finds nothing in sound builds over their tolerances', () => {
    for (let draw = 0; draw < (IS_LONG ? 60 : 6); draw++) {
      const evidence = simulatedEvidence({
        rig: RIG,
        seed: 40 + draw,
        draw,
        isCalibrated: draw % 2 === 0,
        faults: [],
      });
      expect(diagnose(evidence, RIG).findings, `draw ${draw}`).toEqual([]);
    }
  });

  it.each(CLEAR)('names %s of clear strength first, on the finger that has it', (kind) => {
    const finger = WHOLE_HAND.has(kind) ? {} : { finger: 'index' as const };
    const faults = [{ kind, strength: 0.5, ...finger }];
    const [first] = diagnose(
      simulatedEvidence({ rig: RIG, seed: 5, draw: 4, isCalibrated: true, faults }),
      RIG,
    ).findings;
    expect([first?.fault, ...(first?.orElse ?? [])]).toContain(kind);
    if (!WHOLE_HAND.has(kind)) expect(first?.fingers).toContain('index');
  });

  it('gives the same evidence for the same plan', () => {
    const plan = { rig: RIG, seed: 9, draw: 2, isCalibrated: false, faults: [] };
    expect(simulatedEvidence(plan)).toEqual(simulatedEvidence(plan));
  });
});

describe('the confusion table', () => {
  it('counts what was named, what was alike, false alarms and mistakes', () => {
    const result = tally([
      { putIn: [], findings: [{ fault: 'hum', fingers: ['thumb'], orElse: [], confidence: 0.6 }] },
      {
        putIn: [{ kind: 'openWiper', finger: 'ring', strength: 0.5 }],
        findings: [{ fault: 'missingLeg', fingers: ['ring'], orElse: ['openWiper'], confidence: 0.9 }],
      },
      {
        putIn: [{ kind: 'openWiper', finger: 'ring', strength: 0.5 }],
        findings: [{ fault: 'openWiper', fingers: ['thumb'], orElse: [], confidence: 0.9 }],
      },
    ]);
    expect(result).toMatchObject({ sessions: 3, healthy: 1, falseAlarms: 1 });
    const open = result.kinds.find(({ kind }) => kind === 'openWiper')!;
    expect(open).toMatchObject({ tried: [0, 2, 0], named: [0, 0, 0], within: [0, 1, 0], told: 1, right: 0 });
    expect(result.mistaken).toEqual([
      { putIn: 'none', found: 'hum', times: 1 },
      { putIn: 'openWiper', found: 'openWiper', times: 1 },
    ]);
    expect(confusionTable(result)).toContain('| openWiper | – | 0/2 | – | 1/2 | 1 | 0 |');
  });

  it.runIf(IS_LONG)(
    'keeps its goals over 2000 sessions',
    () => {
      const result = confusion(2000, 1);
      console.log(confusionTable(result));
      expect(result.falseAlarms / result.healthy).toBeLessThanOrEqual(0.01);
      const most = result.kinds.filter(({ tried, within }) => tried[1]! > 0 && within[1]! / tried[1]! >= 0.9);
      expect(most.length).toBeGreaterThanOrEqual(14);
    },
    3_600_000,
  );
});
