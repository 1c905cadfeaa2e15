import { describe, expect, it } from 'vitest';
import { defaultPrices } from '../../../../workbench/parts/default-prices.ts';
import { sizeReport } from '../../../../workbench/report/size/size-page.ts';
import { parseRig } from '../../../../workbench/rig/parse-rig.ts';
import { sizeRigFile } from '../../../../workbench/size/size-rig-file.ts';

function report(text: string): string {
  const parsed = parseRig(text, 'rig.yaml');
  const about = { version: '1.2.3', file: 'rig.yaml', warnings: ['<b>mind</b>'] };
  return sizeReport(sizeRigFile(parsed, about, [0.9, 1.1], defaultPrices()));
}

const HOSTILE = 'name: "<script>alert(1)</script>"\nfingers: { index: { pin: 32 }, thumb: { pin: 33 } }\n';

describe('the report of size', () => {
  const html = report(HOSTILE);

  it('has a part for every link', () => {
    const links = [...html.matchAll(/href="#([^"]+)"/g)].map(([, id]) => id!);
    expect(links.length).toBeGreaterThan(8);
    for (const id of links) expect(html).toContain(`<section id="${id}"`);
  });

  it('runs no script, loads nothing, and shows names as they are', () => {
    expect(html).not.toMatch(/<script|<b>mind|src=|@import|url\(/);
    expect(html).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
    expect(html).toContain('&lt;b&gt;mind&lt;/b&gt;');
    expect(/content="(default-src[^"]+)"/.exec(html)![1]).toBe(
      "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'",
    );
  });

  it('has no name of an element twice', () => {
    const ids = [...html.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id!);
    expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([]);
  });

  it('draws fingers that are built alike once', () => {
    const five =
      'fingers: { thumb: { pin: 32 }, index: { pin: 33 }, middle: { pin: 34 }, ring: { pin: 35 } }\n';
    const titles = [...report(five).matchAll(/The (\w+) finger to scale/g)].map(([, name]) => name);
    // each twice: for wide and for narrow screens
    expect(titles).toEqual(['thumb', 'thumb', 'index', 'index']);
  });

  it('says in its stamp whether the build works', () => {
    expect(html).toContain('✓ Works on paper');
    expect(report('eachFinger: { spool: { radius: 8 mm } }\nfingers: { index: { pin: 32 } }\n')).toMatch(
      /✗ Does not work yet[\s\S]*With all of them the build works on paper/,
    );
  });
});
