import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { chooseReport } from '../../workbench/report/page.ts';
import { inventedResult } from '../workbench/report/fixture.ts';
import { browserRequired, CHROMIUM_ARGUMENTS, findChromium, NO_CHROMIUM } from './chromium.ts';

const path = findChromium();
if (path === undefined && !browserRequired()) console.warn(NO_CHROMIUM);

interface Opened {
  page: Page;
  requests: string[];
  complaints: string[];
}

describe.skipIf(path === undefined && !browserRequired())('the report in a browser', () => {
  let browser: Browser;
  let folder: string;
  let address: string;

  beforeAll(async () => {
    if (path === undefined) throw new Error(NO_CHROMIUM);
    browser = await chromium.launch({ executablePath: path, args: CHROMIUM_ARGUMENTS });
    folder = mkdtempSync(join(tmpdir(), 'tautline-report-'));
    const file = join(folder, 'report.html');
    const result = inventedResult();
    result.rig.name = `</script><img src=x onerror="console.error('ran')">`;
    result.warnings.push(`<svg onload="console.error('ran')">${'long'.repeat(60)}`);
    writeFileSync(file, chooseReport(result));
    address = pathToFileURL(file).href;
  }, 30_000);

  afterAll(async () => {
    await browser?.close();
    if (folder !== undefined) rmSync(folder, { recursive: true });
  });

  async function open(width: number, colorScheme: 'light' | 'dark'): Promise<Opened> {
    const page = await browser.newPage({ viewport: { width, height: 844 }, colorScheme });
    const opened: Opened = { page, requests: [], complaints: [] };
    page.on('request', (request) => opened.requests.push(request.url()));
    page.on('console', (message) => opened.complaints.push(message.text()));
    page.on('pageerror', (error) => opened.complaints.push(String(error)));
    await page.goto(address);
    return opened;
  }

  for (const width of [390, 1280])
    for (const scheme of ['light', 'dark'] as const)
      it(`needs one request, has no errors and fits ${width} px, ${scheme}`, async () => {
        const { page, requests, complaints } = await open(width, scheme);
        await page.evaluate(`for (const part of document.querySelectorAll('details')) part.open = true`);
        expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(width);
        expect(await page.evaluate(`document.querySelectorAll('img').length`)).toBe(0);
        expect(requests).toEqual([address]);
        expect(complaints).toEqual([]);
        await page.close();
      });

  for (const scheme of ['light', 'dark'] as const)
    it(`has texts of a contrast of at least 4.5 : 1 (WCAG 2 AA), ${scheme}`, async () => {
      const { page } = await open(1280, scheme);
      await page.evaluate(`for (const part of document.querySelectorAll('details')) part.open = true`);
      const weak = await page.evaluate(WEAK_TEXTS);
      expect(weak).toEqual([]);
      await page.close();
    });

  it('shows one of the two versions of each drawing', async () => {
    for (const width of [390, 1280]) {
      const { page } = await open(width, 'light');
      expect(await page.locator('svg.plot').count()).toBe(10);
      expect(await page.locator('svg.plot:visible').count()).toBe(5);
      await page.close();
    }
  });

  it('keeps the labels of drawings inside them', async () => {
    for (const width of [390, 1280]) {
      const { page } = await open(width, 'light');
      expect(await page.evaluate(LABELS_OUTSIDE)).toEqual([]);
      await page.close();
    }
  });

  it('sorts and searches the full table', async () => {
    const { page } = await open(1280, 'light');
    await page.locator('section#table summary').click();
    await page.locator('#all-settings th', { hasText: 'lag at fast grasps' }).locator('button').click();
    const column = await page.locator('#all-settings th').allTextContents();
    const index = column.findIndex((words) => words.startsWith('lag at fast grasps'));
    const lags = await page.locator(`#all-settings tbody td:nth-child(${index + 1})`).allTextContents();
    const numbers = lags.map(Number);
    expect(numbers.length).toBe(inventedResult().table.length);
    expect(numbers).toEqual([...numbers].sort((a, b) => a - b));
    await page.locator('#finder input').fill('os16 still');
    const shown = await page.locator('#all-settings tbody tr:visible td:first-child').allTextContents();
    const expected = inventedResult().table.filter(
      (row) => row.id.includes('os16') && row.id.includes('still'),
    );
    expect(shown.length).toBe(expected.length);
    await page.close();
  });
});

/** Contrast as in WCAG 2 (relative luminance); backgrounds are looked up from the nearest filled ancestor. */
const WEAK_TEXTS = `(() => {
  const parse = (color) => color.match(/[\\d.]+/g).map(Number);
  const light = (rgb) => {
    const [r, g, b] = rgb.slice(0, 3).map((v) => { const s = v / 255; return s <= 0.03928 ? s / 12.92 : ((s + 0.055) / 1.055) ** 2.4; });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const under = (node) => {
    for (let at = node; at; at = at.parentElement) {
      const rgb = parse(getComputedStyle(at).backgroundColor);
      if (rgb.length === 3 || rgb[3] > 0) return rgb;
    }
    return [255, 255, 255];
  };
  const weak = new Set();
  for (const node of document.querySelectorAll('p,li,td,th,a,h1,h2,h3,pre,code,figcaption,summary,text,footer,label,button')) {
    if (!node.textContent.trim() || node.getClientRects().length === 0) continue;
    const style = getComputedStyle(node);
    const ink = light(parse(node.tagName === 'text' ? style.fill : style.color));
    const ground = light(under(node));
    const ratio = (Math.max(ink, ground) + 0.05) / (Math.min(ink, ground) + 0.05);
    if (ratio < 4.5) weak.add(node.tagName + '.' + node.getAttribute('class') + ' ' + ratio.toFixed(2));
  }
  return [...weak];
})()`;

const LABELS_OUTSIDE = `(() => {
  const outside = [];
  for (const svg of document.querySelectorAll('svg.plot')) {
    const frame = svg.getBoundingClientRect();
    if (frame.width === 0) continue;
    for (const text of svg.querySelectorAll('text')) {
      const box = text.getBoundingClientRect();
      if (box.left < frame.left - 0.5 || box.right > frame.right + 0.5 || box.top < frame.top - 0.5 || box.bottom > frame.bottom + 0.5)
        outside.push(text.textContent);
    }
  }
  return outside;
})()`;
