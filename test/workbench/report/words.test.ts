import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import type { Settings } from '../../../firmware/chain/settings.ts';
import { settingsLine, settingsSentences, settingsYaml } from '../../../workbench/report/words.ts';
import { settingsFrom, settingsSchema } from '../../../workbench/rig/settings-schema.ts';

const hertz = fc.integer({ min: 1, max: 400 }).map((value) => value / 10);
const width = fc.integer({ min: 1, max: 50 }).map((value) => value / 10);
const anySettings: fc.Arbitrary<Settings> = fc.record({
  oversampling: fc.constantFrom(1, 2, 4, 8, 16, 32),
  despike: fc.oneof(
    fc.record({ kind: fc.constant('none' as const) }),
    fc.record({ kind: fc.constant('median' as const) }),
    fc.record({ kind: fc.constant('clip' as const), limitPct: width }),
  ),
  lowPass: fc.oneof(
    fc.record({ kind: fc.constant('none' as const) }),
    fc.record({ kind: fc.constant('exponential' as const), cutoffHz: hertz }),
    fc.record({
      kind: fc.constant('oneEuro' as const),
      minCutoffHz: hertz,
      beta: width,
      speedCutoffHz: hertz,
    }),
    fc.record({ kind: fc.constant('adaptive' as const), restCutoffHz: hertz, riseHz: hertz }),
  ),
  hysteresis: fc.oneof(
    fc.record({ kind: fc.constant('none' as const) }),
    fc.record({ kind: fc.constantFrom('still' as const, 'drag' as const, 'step' as const), widthPct: width }),
  ),
});

describe('settings in words', () => {
  const settings: Settings = {
    oversampling: 8,
    despike: { kind: 'clip', limitPct: 20 },
    lowPass: { kind: 'adaptive', restCutoffHz: 1.2, riseHz: 4 },
    hysteresis: { kind: 'still', widthPct: 0.6 },
  };

  it('says each stage in a sentence', () => {
    expect(settingsSentences(settings).map((sentence) => sentence.replace(/\u00a0/g, ' '))).toEqual([
      'Read each finger 8 times a frame and use the mean.',
      'Isolated wrong readings: let a new reading pull by at most 20 % of full closure.',
      'Smooth with the adaptive low-pass: 1.2 Hz at rest, 4 Hz more when a reading is 10 % of closure away, four times that at 20 %.',
      'Still band of 0.6 % of closure: readings that stay within half of it change nothing.',
    ]);
  });

  it('leaves stages that are off out of the short line', () => {
    const plain: Settings = {
      oversampling: 1,
      despike: { kind: 'none' },
      lowPass: { kind: 'none' },
      hysteresis: { kind: 'none' },
    };
    expect(settingsLine(plain)).toBe('single readings');
  });

  it('writes YAML that the rig file’s reader turns back into the same settings', () => {
    fc.assert(
      fc.property(anySettings, (any) => {
        const { settings: block } = parse(settingsYaml(any)) as { settings: unknown };
        expect(settingsFrom(settingsSchema.parse(block))).toEqual(any);
      }),
    );
  });

  it('tells any two different settings apart', () => {
    fc.assert(
      fc.property(anySettings, anySettings, (a, b) => {
        const same = JSON.stringify(a) === JSON.stringify(b);
        expect(settingsSentences(a).join() === settingsSentences(b).join()).toBe(same);
      }),
    );
  });
});
