import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ChooseResult } from '../../../sim/study/result.ts';
import { escapeHtml } from '../../../workbench/report/escape.ts';
import { chooseReport } from '../../../workbench/report/page.ts';
import { inventedResult } from './fixture.ts';

const EVIL = `"'></title></style></script></svg><script>alert(1)</script><img src=x onerror=alert(1)>&`;

/** Puts the text wherever a rig file, a recording or a catalogue of changes could put it. */
function poisoned(text: string): ChooseResult {
  const result = inventedResult({ meets: false });
  result.version = text;
  result.rig.name = text;
  result.rig.file = text;
  result.rig.fingers = [text];
  result.rig.side = text;
  result.rig.board = text;
  result.verdict = { meets: false, headline: text, details: [text], obstacles: [text] };
  result.warnings = [text];
  result.notModelled = [text];
  result.pick.id = text;
  result.runnersUp[0].id = text;
  result.pareto[0].id = text;
  result.table[0].id = text;
  result.lagParts[0].part = text;
  result.example.finger = text;
  result.rest.finger = text;
  Object.assign(result.whatIf[0], { change: text, path: text, from: text, to: text, settingsId: text });
  Object.assign(result.assumptions[0], { path: text, label: text, value: text, source: text });
  Object.assign(result.assumptions[1], { kind: text });
  return result;
}

/** Tags without their attributes' values, in order. */
function tags(html: string): string[] {
  return [...html.matchAll(/<\/?([a-z!][a-z0-9]*)/gi)].map((match) => match[0].toLowerCase());
}

describe('escapeHtml', () => {
  it('leaves nothing that could open a tag or close an attribute', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        expect(escapeHtml(text)).not.toMatch(/[<>"']|&(?!(amp|lt|gt|quot|#39);)/);
      }),
    );
  });

  it('replaces control characters and marks that turn the reading direction', () => {
    expect(escapeHtml('a\u0000b\u001b[31m\u202ec')).toBe('a\ufffdb\ufffd[31m\ufffdc');
  });
});

describe('the report', () => {
  const result = inventedResult();
  const html = chooseReport(result);

  it('has the same tags whatever names and words it is given', () => {
    const harmless = tags(chooseReport(poisoned('word')));
    const evil = chooseReport(poisoned(EVIL));
    const withoutWraps = (list: string[]): string[] => list.filter((tag) => !/text/.test(tag));
    expect(withoutWraps(tags(evil))).toEqual(withoutWraps(harmless));
    expect(evil).not.toContain('<script>alert');
    expect(evil).not.toContain('<img');
  });

  it('refers to nothing outside itself', () => {
    expect(html).not.toMatch(/url\(/i);
    expect(html).not.toMatch(/@import/i);
    expect(html).not.toMatch(/<(link|img|iframe|object|embed|base|use|image|audio|video)\b/i);
    const references = [...html.matchAll(/\s(?:src|href|xlink:href|action|srcset)="([^"]*)"/g)].map(
      (found) => found[1],
    );
    expect(references.length).toBeGreaterThan(0);
    for (const reference of references) expect(reference).toMatch(/^#/);
  });

  it('points its links at parts that exist, and uses each id once', () => {
    const ids = [...html.matchAll(/\sid="([^"]*)"/g)].map((found) => found[1]);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [, target] of html.matchAll(/href="#([^"]*)"/g)) expect(ids).toContain(target);
    for (const [, names] of html.matchAll(/aria-labelledby="([^"]*)"/g))
      for (const name of names.split(' ')) expect(ids).toContain(name);
  });

  it('lets only its own script run, by its hash', () => {
    const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(html)![1];
    const scripts = [...html.matchAll(/<script>([\s\S]*?)<\/script>/g)].map((found) => found[1]);
    expect(scripts.length).toBe(1);
    const hash = createHash('sha256').update(scripts[0], 'utf8').digest('base64');
    expect(policy).toContain(`default-src 'none'`);
    expect(policy).toContain(`script-src 'sha256-${hash}'`);
    expect(html).not.toMatch(/\son[a-z]+="/);
  });

  it('holds every assumption, every change, every row and every effect left out', () => {
    for (const assumption of result.assumptions)
      for (const text of [assumption.label, assumption.value, assumption.source, assumption.path])
        expect(html).toContain(escapeHtml(text));
    for (const change of result.whatIf) expect(html).toContain(`>${escapeHtml(change.change)}<`);
    for (const row of result.table) expect(html).toContain(`<td class="id">${escapeHtml(row.id)}`);
    for (const text of result.notModelled) expect(html).toContain(escapeHtml(text));
  });

  it('opens with the verdict', () => {
    const main = html.slice(html.indexOf('<main>'));
    expect(main.indexOf('Wishes met')).toBeLessThan(main.indexOf(escapeHtml(result.verdict.headline)));
    expect(main.indexOf(escapeHtml(result.verdict.headline))).toBeLessThan(main.indexOf('<h2 id="settings'));
    expect(chooseReport(inventedResult({ meets: false }))).toContain('Wishes not met');
  });

  it('says how to get the answer again', () => {
    expect(html).toContain('tautline choose examples/lantern-yard.yaml --seed 7 --draws 64</pre>');
  });

  it('stays below 1.5 MB for 1500 rows', () => {
    const table = Array.from({ length: 1500 }, (_, index) => result.table[index % result.table.length]);
    const size = Buffer.byteLength(chooseReport({ ...result, table }));
    expect(size).toBeLessThan(1.5e6);
  });

  it('is the same for the same result', () => {
    expect(chooseReport(inventedResult())).toBe(html);
  });

  it('copes with a result that has nothing beyond the pick', () => {
    const bare = { ...result, runnersUp: [], pareto: [], whatIf: [], lagParts: [], table: [], warnings: [] };
    expect(chooseReport(bare)).toContain('No changes of the build were tried.');
  });
});
