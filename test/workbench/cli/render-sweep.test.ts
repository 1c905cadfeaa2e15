import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SCORE_NAMES } from '../../../sim/study/score-names.ts';
import { renderSweep, SWEEP_COLUMNS, sweepCsv } from '../../../workbench/cli/render-sweep.ts';
import { inventedResult } from '../report/fixture.ts';

/** A small reader of RFC 4180, section 2: CRLF between records, quoted fields, doubled quotes inside them. */
function readCsv(text: string): string[][] {
  const records: string[][] = [];
  let record: string[] = [];
  let at = 0;
  while (at < text.length) {
    let field = '';
    if (text[at] === '"') {
      for (at++; ; at++) {
        if (at >= text.length) throw new Error('quote without end');
        if (text[at] !== '"') field += text[at];
        else if (text[at + 1] === '"') {
          field += '"';
          at++;
        } else break;
      }
      at++;
    } else {
      while (text[at] !== ',' && text[at] !== '\r') {
        if (at >= text.length || text[at] === '"' || text[at] === '\n')
          throw new Error(`stray character at ${at}`);
        field += text[at++];
      }
    }
    record.push(field);
    if (text[at] === ',') {
      at++;
      continue;
    }
    if (text.slice(at, at + 2) !== '\r\n') throw new Error(`no record end at ${at}`);
    at += 2;
    records.push(record);
    record = [];
  }
  return records;
}

describe('sweepCsv', () => {
  const { table } = inventedResult();

  it('comes back unharmed through a reader of RFC 4180', () => {
    const [head, ...records] = readCsv(sweepCsv(table));
    expect(head).toEqual(SWEEP_COLUMNS);
    expect(records.length).toBe(table.length);
    records.forEach((record, index) => {
      expect(record.length).toBe(head.length);
      expect(record[head.indexOf('id')]).toBe(table[index].id);
      expect(Number(record[head.indexOf('metShare')])).toBe(table[index].metShare);
      for (const name of SCORE_NAMES)
        expect(Number(record[head.indexOf(name)])).toBe(table[index].scores[name]);
    });
  });

  it('quotes what would break a record', () => {
    fc.assert(
      fc.property(fc.string(), fc.constantFrom('', '"', ',', '\r\n', '\n', '\r'), (text, spice) => {
        const id = text + spice + text;
        const [, record] = readCsv(sweepCsv([{ ...table[0], id }]));
        expect(record[0]).toBe(id);
      }),
    );
  });

  it('leaves empty what a stage does not have and what is not a number', () => {
    const row = {
      ...table[0],
      settings: {
        oversampling: 4 as const,
        despike: { kind: 'median' as const },
        lowPass: { kind: 'oneEuro' as const, minCutoffHz: 1.5, beta: 0.3, speedCutoffHz: 2 },
        hysteresis: { kind: 'none' as const },
      },
      scores: { ...table[0].scores, recoveryMs: Number.POSITIVE_INFINITY },
    };
    const [head, record] = readCsv(sweepCsv([row]));
    const field = (name: string): string => record[head.indexOf(name)];
    expect(['oversampling', 'despike', 'clipLimitPct', 'lowPass', 'cutoffHz'].map(field)).toEqual([
      '4',
      'median',
      '',
      'oneEuro',
      '',
    ]);
    expect(['minCutoffHz', 'beta', 'speedCutoffHz', 'bandWidthPct', 'recoveryMs'].map(field)).toEqual([
      '1.5',
      '0.3',
      '2',
      '',
      '',
    ]);
  });
});

describe('renderSweep', () => {
  const { table } = inventedResult();

  it('names the calmest and the quickest settings within 80 columns', () => {
    const text = renderSweep(table, { columns: 80, color: false, file: 'sweep.csv' });
    const calmest = [...table].sort((a, b) => a.scores.jitterPct - b.scores.jitterPct)[0];
    const quickest = [...table].sort((a, b) => a.scores.lagMs - b.scores.lagMs)[0];
    expect(text).toMatch(new RegExp(`calmest +${calmest.id} `));
    expect(text).toMatch(new RegExp(`quickest +${quickest.id} `));
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('says so when nothing was swept', () => {
    expect(renderSweep([], { columns: 80, color: false })).toBe(
      '0 settings swept; 0 meet every wish in 95 % of their draws.\n',
    );
  });
});
