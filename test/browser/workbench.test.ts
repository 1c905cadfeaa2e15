import { copyFileSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createDevice } from '../../sim/device/device.ts';
import { puppetScene } from '../../sim/device/motions.ts';
import { planOfRig } from '../../workbench/bundle/plan-of-rig.ts';
import type { PageConfig } from '../../workbench/page/config.ts';
import { readRig } from '../../workbench/rig/read-rig.ts';
import { writeSettings } from '../../workbench/rig/write-settings.ts';
import { pageFiles } from '../../workbench/server/page-files.ts';
import { settingsOfPage } from '../../workbench/server/page-settings.ts';
import { createSaves } from '../../workbench/server/saves.ts';
import { serveWorkbench, type WorkbenchServer } from '../../workbench/server/workbench-server.ts';
import { browserRequired, CHROMIUM_ARGUMENTS, findChromium, NO_CHROMIUM } from './chromium.ts';

const path = findChromium();
if (path === undefined && !browserRequired()) console.warn(NO_CHROMIUM);

/** The simulator's time against ours: a guided look of 80 s takes 10. */
const SPEED = 8;

/** A serial port in the browser that is only bytes to and from the test. */
const FAKE_SERIAL = `
(() => {
  let isPulled = false;
  const port = new EventTarget();
  let controller;
  Object.assign(port, {
    readable: null,
    writable: null,
    async open() {
      if (isPulled) throw new Error('no such device');
      port.readable = new ReadableStream({ start(c) { controller = c; } });
      port.writable = new WritableStream({ write: (bytes) => window.toBoard([...bytes]) });
      const pump = async () => {
        if (isPulled || !port.readable) return;
        const bytes = await window.boardBytes();
        if (bytes.length > 0) controller.enqueue(Uint8Array.from(bytes));
        setTimeout(pump, 15);
      };
      pump();
    },
    async setSignals() {},
    async close() { port.readable = null; port.writable = null; },
  });
  window.pullCable = () => {
    isPulled = true;
    port.readable = null;
    controller.error(new Error('the device has been lost'));
    port.dispatchEvent(new Event('disconnect'));
  };
  Object.defineProperty(navigator, 'serial', { value: { requestPort: async () => port, getPorts: async () => [port] }, configurable: true });
})();
`;

describe.skipIf(path === undefined && !browserRequired())('the workbench in a browser', () => {
  let browser: Browser;
  let server: WorkbenchServer;
  let folder: string;
  let rigFile: string;
  const complaints: string[] = [];

  beforeAll(async () => {
    if (path === undefined) throw new Error(NO_CHROMIUM);
    folder = mkdtempSync(join(tmpdir(), 'tautline-workbench-'));
    rigFile = join(folder, 'rig.yaml');
    copyFileSync('examples/puppet-right.yaml', rigFile);
    const config: PageConfig = {
      version: '0.0.0',
      rigFile,
      rigText: readRig(rigFile).source.text,
      source: { kind: 'simulator', seed: 3, speed: SPEED },
    };
    server = await serveWorkbench(pageFiles(config), {
      listPorts: async () => ({ ports: [], trouble: '' }),
      createLink: () => {
        throw new Error('no port is to be opened here');
      },
      saves: createSaves(join(folder, 'saves')),
      writeSettings: (settings) => writeSettings(rigFile, settingsOfPage(settings)),
    });
    browser = await chromium.launch({ executablePath: path, args: CHROMIUM_ARGUMENTS });
  }, 60_000);

  afterAll(async () => {
    await browser?.close();
    await server?.close();
    if (folder !== undefined) rmSync(folder, { recursive: true });
  });

  async function open(view: string, width = 1280): Promise<Page> {
    const page = await browser.newPage({ viewport: { width, height: 900 } });
    page.on('console', (message) => {
      if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
    });
    page.on('pageerror', (error) => complaints.push(String(error)));
    await page.goto(`${server.address}#${view}`);
    await page.locator('#state[data-state=streaming]').waitFor({ timeout: 15_000 });
    return page;
  }

  const views = ['live', 'first-light', 'calibrate', 'diagnose', 'choose', 'size'];

  for (const width of [390, 1600]) {
    it(`fits ${width} px in every view, and can be worked by keyboard`, async () => {
      const page = await open('live', width);
      for (const view of views) {
        await page.locator(`#tab-${view}`).focus();
        await page.keyboard.press('Enter');
        await page.locator(`#tab-${view}[aria-current=page]`).waitFor();
        expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(width);
        expect(await page.locator('main > :not([hidden])').count()).toBe(1);
      }
      await page.close();
    }, 60_000);
  }

  it('shows the live hand, and loses no frame', async () => {
    const page = await open('live');
    const value = () => page.locator('.finger .value').first().textContent();
    const seen = new Set<string | null>();
    for (let i = 0; i < 30; i++) {
      seen.add(await value());
      await page.waitForTimeout(50);
    }
    expect(seen.size).toBeGreaterThan(3);
    const lost = page.locator('.health tr', { hasText: /^lost/ }).locator('td');
    expect(await lost.textContent()).toBe('0');
    await page.close();
  }, 60_000);

  it('records under a name, and refuses a name that is none', async () => {
    const page = await open('live');
    await page.fill('#record-name', '../evil');
    await page.click('#record');
    expect(await page.textContent('#status')).toMatch(/up to 60 small letters/);
    await page.fill('#record-name', 'evening-1');
    await page.click('#record');
    await page.waitForTimeout(1500);
    await page.click('#record');
    await page.getByText('Recorded as evening-1.').waitFor();
    expect(readdirSync(join(folder, 'saves'))).toEqual(['evening-1.csv']);
    const lines = readFileSync(join(folder, 'saves/evening-1.csv'), 'utf8').split('\n');
    expect(lines[0]).toMatch(/^# tautline recording/);
    expect(lines.filter((line) => /,hand,right,/.test(line)).length).toBeGreaterThan(400);
    await page.close();
  }, 60_000);

  it('names a fault that was built in from its drawer', async () => {
    const page = await open('live');
    await page.click('#faults summary');
    await page.selectOption('#fault-kind', 'reversed');
    await page.selectOption('#fault-finger', 'ring');
    await page.click('#add-fault');
    await page.click('#tab-diagnose');
    await page.click('#diagnose');
    const finding = page.locator('.finding h3').first();
    await finding.waitFor({ timeout: 60_000 });
    expect(await finding.textContent()).toMatch(/^ring: /);
    expect(await page.locator('#diagnosis').textContent()).toMatch(/runs backwards/);
    await page.close();
  }, 90_000);

  it('goes through first light, and stops at a finger whose string hangs', async () => {
    const page = await open('first-light');
    await page.click('#first-light');
    await page.getByText('The thumb is alive.').waitFor({ timeout: 20_000 });
    await page.click('#tab-live');
    await page.click('#faults summary');
    await page.selectOption('#fault-kind', 'frozen');
    await page.selectOption('#fault-finger', 'middle');
    await page.click('#add-fault');
    await page.click('#tab-first-light');
    await page.selectOption('#first-finger', 'middle');
    await page.click('#first-light');
    await page.getByText('Mend this first').waitFor({ timeout: 20_000 });
    expect(await page.locator('.steps .is-bad').count()).toBe(1);
    await page.close();
  }, 60_000);

  it('calibrates, and stores what it captured on the board', async () => {
    const page = await open('calibrate');
    await page.click('#calibrate');
    await page.getByText('Stored: the board has new ends').waitFor({ timeout: 30_000 });
    await page.click('#tab-live');
    const calibration = page.locator('.health tr', { hasText: /^calibration/ }).locator('td');
    await expect.poll(() => calibration.textContent()).toBe('stored');
    await page.close();
  }, 60_000);

  it('chooses beside the live hand, tries a setting on it, and puts the pick into the rig file', async () => {
    const page = await open('choose');
    await page.selectOption('#draws', '40');
    await page.click('#choose');
    const tries = page.locator('.tries .try');
    await tries.first().waitFor({ timeout: 120_000 });
    // the live hand went on meanwhile
    expect(await page.locator('#state').getAttribute('data-state')).toBe('streaming');
    const before = await page.textContent('#in-use');
    await tries.nth(1).click();
    await page.getByText('Tried on the live hand').waitFor();
    expect(await page.textContent('#in-use')).not.toBe(before);
    await page.locator('#state[data-state=streaming]').waitFor({ timeout: 15_000 });
    await page.click('#save-settings');
    await page.getByText('The settings stand in the rig file now').waitFor();
    const text = readFileSync(rigFile, 'utf8');
    expect(text).toMatch(/^settings:\n {2}oversampling: \d+/m);
    // comments of the example stay
    expect(text).toContain('# PTFE tube over the back of the hand');
    await page.close();
  }, 180_000);

  it('talks to a port of the browser: real frames, commands answered, and a cable that comes off', async () => {
    const { rig } = readRig(rigFile);
    const settings = {
      oversampling: 8,
      despike: { kind: 'none' },
      lowPass: { kind: 'none' },
      hysteresis: { kind: 'none' },
    };
    const chosen = { ...rig, settings: settingsOfPage(settings) };
    const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
    page.on('pageerror', (error) => complaints.push(String(error)));
    // The board runs here; the browser's fake port carries its bytes.
    let waiting: number[] = [];
    const device = createDevice(chosen, planOfRig(chosen), {
      seed: 2,
      draw: 1,
      motion: puppetScene,
      faults: [],
      onBytes: (bytes) => void waiting.push(...bytes),
    });
    const beganS = performance.now() / 1000;
    await page.exposeFunction('boardBytes', () => {
      device.advance(performance.now() / 1000 - beganS);
      const bytes = waiting;
      waiting = [];
      return bytes;
    });
    await page.exposeFunction('toBoard', (bytes: number[]) => device.receive(Uint8Array.from(bytes)));
    await page.addInitScript(FAKE_SERIAL);
    await page.goto(`${server.address}#live`);
    await page.locator('#state[data-state=streaming]').waitFor({ timeout: 15_000 });
    await page.click('#use-web-serial');
    await page.getByText('port of the browser', { exact: true }).waitFor();
    await page.locator('#state[data-state=streaming]').waitFor({ timeout: 15_000 });
    await page.waitForTimeout(1500);
    const health = (words: RegExp) =>
      page.locator('.health tr', { hasText: words }).locator('td').textContent();
    expect(await health(/^lost/)).toBe('0');
    expect(Number(await health(/^frames a second/))).toBeGreaterThan(80);
    expect(await page.locator('#faults').isHidden()).toBe(true);
    // a command goes out over the port and its answer comes back
    await page.click('#tab-calibrate');
    await page.click('#zero');
    await page.getByText('The open end is where the hand is now').waitFor({ timeout: 10_000 });
    await page.click('#tab-live');
    await page.evaluate('window.pullCable()');
    await page.locator('#state[data-state=looking], #state[data-state=silent]').waitFor({ timeout: 5000 });
    await page.close();
  }, 60_000);

  it('said nothing on its console, and asked for nothing from elsewhere', () => {
    expect(complaints).toEqual([]);
  });
});
