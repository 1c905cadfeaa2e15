import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { defaultGrid } from '../../../sim/study/grid.ts';
import { settingsId } from '../../../sim/study/settings-id.ts';
import { settingsFrom, settingsSchema } from '../../../workbench/rig/settings-schema.ts';
import { settingsBlock } from '../../../workbench/rig/settings-yaml.ts';
import { anySettings } from './any-settings.ts';

const grid = defaultGrid();

describe('the grid of settings', () => {
  it('has every combination once, each with a text of its own', () => {
    // 1 + 6 exponential + 4·4 one euro + 5·5 adaptive = 48 low-passes
    expect(grid.length).toBe(5 * 3 * 48 * 7);
    expect(new Set(grid.map(settingsId)).size).toBe(grid.length);
    expect(new Set(grid.map((s) => JSON.stringify(s))).size).toBe(grid.length);
  });

  it('can be written into a rig file and read back, every one', () => {
    for (const s of grid) {
      const read = settingsSchema.parse(settingsBlock(s));
      expect(settingsFrom(read)).toEqual(s);
    }
  });

  it('is looked at in an order that starts with the cheapest', () => {
    expect(settingsId(grid[0])).toBe('os2');
  });
});

describe('the text form of settings', () => {
  it('differs whenever the settings do', () => {
    fc.assert(
      fc.property(anySettings, anySettings, (a, b) => {
        expect(settingsId(a) === settingsId(b)).toBe(JSON.stringify(a) === JSON.stringify(b));
      }),
    );
  });

  it('names what is on, in the settings’ own units', () => {
    expect(
      settingsId({
        oversampling: 8,
        despike: { kind: 'clip', limitPct: 10 },
        lowPass: { kind: 'adaptive', restCutoffHz: 1, riseHz: 30 },
        hysteresis: { kind: 'still', widthPct: 0.5 },
      }),
    ).toBe('os8 clip10 adaptive1/30 still0.5');
    expect(
      settingsId({
        oversampling: 32,
        despike: { kind: 'median' },
        lowPass: { kind: 'oneEuro', minCutoffHz: 0.5, beta: 3, speedCutoffHz: 1 },
        hysteresis: { kind: 'none' },
      }),
    ).toBe('os32 median oneEuro0.5/3/1');
  });
});
