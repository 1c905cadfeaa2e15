import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { renderChoose, thinned } from '../../../workbench/cli/render-choose.ts';
import { columnsOf } from '../../../workbench/report/wrap.ts';
import { inventedResult } from '../report/fixture.ts';

const ESCAPE = '\u001b';

describe('the answer in the terminal', () => {
  const result = inventedResult();
  const text = renderChoose(result, { columns: 80, color: false });

  it('says whether the wishes are met before anything else about them', () => {
    expect(text.split('\n')[1]).toBe('✓ Wishes met');
    const refused = renderChoose(inventedResult({ meets: false }), { columns: 80, color: false });
    expect(refused.split('\n')[1]).toBe('✗ Wishes not met');
    expect(refused).toContain('What stands in the way');
  });

  it('keeps within the columns, whatever the rig file says', () => {
    const words = fc.string({ unit: 'grapheme', maxLength: 120 });
    fc.assert(
      fc.property(words, words, words, fc.constantFrom(60, 80, 100), (name, warning, change, columns) => {
        const any = inventedResult({ meets: false });
        any.rig.name = name;
        any.warnings = [warning];
        any.whatIf[1].change = change;
        any.pick.id = `os8 ${name}`.slice(0, 40);
        any.runnersUp[0].id = change;
        const lines = renderChoose(any, { columns, color: false }).split('\n');
        // Commands are never broken: the one for the rig file needs 71 columns here.
        const wide = lines.filter(
          (line) => columnsOf(line) > columns && !line.startsWith('  tautline choose'),
        );
        expect(wide).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });

  it('writes colour codes only when asked', () => {
    expect(text).not.toContain(ESCAPE);
    expect(renderChoose(result, { columns: 80, color: true })).toContain(ESCAPE);
  });

  it('passes on no control characters', () => {
    const evil = inventedResult();
    evil.rig.name = `${ESCAPE}]0;title\u0007${ESCAPE}[2J`;
    evil.rig.file = `a${ESCAPE}[31m.yaml`;
    expect(renderChoose(evil, { columns: 80, color: false })).not.toContain(ESCAPE);
  });

  it('has the pick, the runners-up, the commands and only plain spaces', () => {
    expect(text).toContain(result.pick.id);
    for (const rated of result.runnersUp) expect(text).toContain(rated.id);
    expect(text).toContain('tautline choose examples/lantern-yard.yaml --seed 7 --draws 64 --write\n');
    expect(text).toMatch(/seed 7, tautline\s0\.1\.0/);
    expect(text).not.toMatch(/[\u00a0\u202f]/);
  });

  it('ranks the changes that help and counts the others', () => {
    const capacitor = text.indexOf('capacitor at the pin');
    const frameRate = text.indexOf('frame rate: 100 Hz → 125 Hz');
    const spool = text.indexOf('spool radius');
    expect(capacitor).toBeGreaterThan(0);
    expect(frameRate).toBeGreaterThan(capacitor);
    expect(spool).toBeGreaterThan(frameRate);
    expect(text).toContain('2 make no clear difference, 2 harm');
    expect(text).not.toContain('own regulator');
  });

  it('thins the trade-off to eight rows with both ends', () => {
    const points = Array.from({ length: 31 }, (_, index) => ({
      id: `p${index}`,
      jitterPct: 1,
      lagMs: index,
    }));
    const kept = thinned(points, 8).map((point) => point.lagMs);
    expect(kept.length).toBe(8);
    expect(kept[0]).toBe(0);
    expect(kept[7]).toBe(30);
    expect(new Set(kept).size).toBe(8);
  });
});
