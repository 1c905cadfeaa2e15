import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, chromium } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { defaultRig } from '../../sim/rig/default-rig.ts';
import type { Rig } from '../../sim/rig/rig.ts';
import { partsList } from '../../sim/sizing/parts/parts-list.ts';
import { type BuildSheetInput, buildSheetHtml } from '../../workbench/report/size/build-sheet.ts';
import { readRig } from '../../workbench/rig/read-rig.ts';
import { fullRig } from '../workbench/report/size/full-rig.ts';
import { browserRequired, CHROMIUM_ARGUMENTS, findChromium, NO_CHROMIUM } from './chromium.ts';

const path = findChromium();
if (path === undefined && !browserRequired()) console.warn(NO_CHROMIUM);

const WARNINGS = [
  'The potentiometer of the middle finger hits its end stop with the largest hand: take a spool of 16.2 mm radius.',
  'The spring cannot wind the string in against a stiff potentiometer: wind it up by another turn.',
  'Five servos that stall take 3.25 A, more than their supply gives: take one of 4 A or more.',
];

function oneFinger(): Rig {
  const rig = defaultRig();
  return { ...rig, fingers: rig.fingers.slice(1, 2) };
}

/** The theatre's rigs are invented, as their files say. */
const RIGS: [string, Rig, Partial<BuildSheetInput>][] = [
  ['one finger', oneFinger(), {}],
  ['three fingers on a breadboard', readRig('examples/marionette-left.yaml').rig, {}],
  ['the puppet’s right hand', readRig('examples/puppet-right.yaml').rig, {}],
  [
    'the puppet’s left hand, with a warning',
    readRig('examples/puppet-left.yaml').rig,
    { warnings: WARNINGS.slice(1) },
  ],
  [
    'a hand with settings',
    readRig('examples/marionette-right.yaml').rig,
    { cost: 'About 46.80 EUR at invented prices.' },
  ],
  [
    'a rig with everything, every finger another',
    fullRig(),
    {
      warnings: WARNINGS,
      cost: 'About 153.65 EUR at invented prices.',
      fingers: { thumb: { cutMm: 320 }, index: { cutMm: 420 }, middle: { cutMm: 440 } },
    },
  ],
];

describe.skipIf(path === undefined && !browserRequired())('the build sheet in a browser', () => {
  let browser: Browser;
  let folder: string;

  beforeAll(async () => {
    if (path === undefined) throw new Error(NO_CHROMIUM);
    browser = await chromium.launch({ executablePath: path, args: CHROMIUM_ARGUMENTS });
    folder = mkdtempSync(join(tmpdir(), 'tautline-sheet-'));
  }, 30_000);

  afterAll(async () => {
    await browser?.close();
    if (folder !== undefined) rmSync(folder, { recursive: true });
  });

  function addressOf(rig: Rig, more: Partial<BuildSheetInput>): string {
    const file = join(folder, 'sheet.html');
    const html = buildSheetHtml({
      rig,
      parts: partsList(rig, 1),
      version: '0.1.0',
      file: 'examples/puppet-right.yaml',
      ...more,
    });
    writeFileSync(file, html);
    return pathToFileURL(file).href;
  }

  it.each(RIGS)(
    'prints on exactly one page of A4 and leaves room at its foot: %s',
    async (_title, rig, more) => {
      const page = await browser.newPage();
      await page.goto(addressOf(rig, more));
      const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
      expect(pdf.match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
      // A4 is 595 × 842 pt
      const box = /\/MediaBox\s*\[0 0 (\d+)[\d.]* (\d+)/.exec(pdf)!;
      expect([Number(box[1]), Number(box[2])]).toEqual([594, 841]);
      // Another system's type runs wider: a twentieth more of it still has to fit.
      await page.addStyleTag({ content: '@media print{.sheet main{font-size:1.05em}}' });
      expect(
        (await page.pdf({ preferCSSPageSize: true })).toString('latin1').match(/\/Type\s*\/Page\b/g),
      ).toHaveLength(1);
      await page.close();
    },
  );

  it.each([390, 1280])('has no errors and fits %i px', async (width) => {
    for (const [, rig, more] of RIGS) {
      const page = await browser.newPage({ viewport: { width, height: 844 } });
      const complaints: string[] = [];
      page.on('console', (message) => complaints.push(message.text()));
      page.on('pageerror', (error) => complaints.push(String(error)));
      await page.goto(
        addressOf({ ...rig, name: `<img src=x onerror="console.error('ran')">${'long'.repeat(15)}` }, more),
      );
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(width);
      expect(await page.evaluate(`document.querySelectorAll('img').length`)).toBe(0);
      expect(complaints).toEqual([]);
      await page.close();
    }
  });
});
