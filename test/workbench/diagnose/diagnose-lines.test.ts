import { describe, expect, it } from 'vitest';
import { defaultRig } from '../../../sim/rig/default-rig.ts';
import { diagnosisLines } from '../../../workbench/cli/diagnose-lines.ts';
import { diagnose } from '../../../workbench/diagnose/diagnose.ts';
import { FAULT_WORDS } from '../../../workbench/diagnose/fault-words.ts';
import { FAULT_KINDS } from '../../../workbench/diagnose/finding.ts';
import { syntheticEvidence } from './synthetic.ts';

const RIG = defaultRig();
const ENDS_SWAPPED = diagnose(
  syntheticEvidence(RIG, {
    closure: (slot, closure) => (slot === 2 ? 1 - closure : closure),
    reading: (slot, counts) => (slot === 4 ? 0 : counts),
  }),
  RIG,
);

describe('the diagnosis for the terminal', () => {
  it('names each fault with its finger, evidence and cure, the most certain first', () => {
    const text = diagnosisLines(ENDS_SWAPPED, 100).join('\n');
    expect(text).toContain('2 faults found, the most certain first.');
    expect(text).toMatch(/1\. \w+: .*\(95 % sure\)/);
    expect(text).toContain('middle: runs backwards');
    expect(text).toContain('little: wiper not connected');
    expect(text).toContain('It may as well be: a leg of the potentiometer is off.');
    expect(text).toContain('Cure: ');
    expect(text).toContain('multimeter');
  });

  it.each([60, 80, 100])('keeps to %d columns', (columns) => {
    for (const line of diagnosisLines(ENDS_SWAPPED, columns))
      expect(line.length).toBeLessThanOrEqual(columns);
  });

  it('says that nothing was found, and what was not judged', () => {
    const sound = syntheticEvidence(RIG);
    expect(diagnosisLines(diagnose(sound, RIG), 80).join(' ')).toMatch(/^No fault found: everything/);
    const thin = diagnosisLines(diagnose({ ...sound, rawRest: [] }, RIG), 80).join('\n');
    expect(thin).toMatch(/^No fault found in what could be judged\.\n\nNot judged\n {3}Noise/);
  });

  it('has a name for every kind', () => {
    expect(Object.keys(FAULT_WORDS).sort()).toEqual([...FAULT_KINDS].sort());
  });
});

describe('the diagnosis as data', () => {
  it('survives JSON, and is the same for the same evidence', () => {
    expect(JSON.parse(JSON.stringify(ENDS_SWAPPED))).toEqual(ENDS_SWAPPED);
    const again = diagnose(syntheticEvidence(RIG), RIG);
    expect(again).toEqual(diagnose(syntheticEvidence(RIG), RIG));
  });
});
