import { writeFileSync, mkdirSync } from 'node:fs';
import { chromium } from 'playwright-core';
import { inventedResult } from '/work/main/test/workbench/report/fixture.ts';
import { chooseReport } from '/work/main/workbench/report/page.ts';
import { renderChoose } from '/work/main/workbench/cli/render-choose.ts';
import { renderSweep } from '/work/main/workbench/cli/render-sweep.ts';
mkdirSync('/tmp/shots', { recursive: true });
for (const meets of [true, false]) {
  const r = inventedResult({ meets });
  const html = chooseReport(r);
  writeFileSync(`/tmp/shots/${meets ? 'met' : 'not'}.html`, html);
  console.log(html.length);
  console.log(renderChoose(r, { columns: 80, color: false }));
  if (meets) console.log(renderSweep(r.table, { columns: 80, color: false, file: 'sweep.csv' }));
}
if (process.argv[2] === 'text') process.exit(0);
const b = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--headless','--no-sandbox','--disable-gpu','--disable-quic','--no-first-run','--disable-background-networking','--disable-component-update','--disable-sync'] });
for (const w of [1280, 390]) for (const s of ['light','dark'] as const) {
  const p = await b.newPage({ viewport: { width: w, height: 900 }, colorScheme: s });
  p.on('console', m => console.log(m.text())); p.on('pageerror', e => console.log('ERR', e));
  await p.goto('file:///tmp/shots/' + (s === 'light' ? 'met' : 'not') + '.html');
  console.log(w, await p.evaluate('document.documentElement.scrollWidth'));
  if (process.argv[2] === 'open') await p.evaluate(`for (const d of document.querySelectorAll('details')) d.open = true`);
  const h = await p.evaluate('document.documentElement.scrollHeight') as number;
  const step = w === 1280 ? 1500 : 2400; let i = 0;
  for (let y = 0; y < h; y += step) { await p.screenshot({ path: `/tmp/shots/${w}-${s}-${i++}.png`, fullPage: true, clip: { x: 0, y, width: w, height: Math.min(step, h - y) } }); }
  console.log(w, s, h, i);
}
{ const p = await b.newPage(); await p.goto('file:///tmp/shots/met.html'); await p.pdf({ path: '/tmp/shots/print.pdf', format: 'A4' }); }
await b.close();
