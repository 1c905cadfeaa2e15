import { accessSync, constants } from 'node:fs';

const COMMON_PATHS = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/snap/bin/chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

/** Keeps the browser to itself: no sandbox (containers), no calls home. */
export const CHROMIUM_ARGUMENTS = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** Path of a Chromium to test with: TAUTLINE_CHROMIUM if set, else the first common path that can be run. */
export function findChromium(): string | undefined {
  const wanted = process.env.TAUTLINE_CHROMIUM;
  const candidates = wanted === undefined || wanted === '' ? COMMON_PATHS : [wanted];
  return candidates.find((path) => {
    try {
      accessSync(path, constants.X_OK);
      return true;
    } catch {
      return false;
    }
  });
}

/** Whether a missing browser is a failure rather than a reason to skip. */
export function browserRequired(): boolean {
  return process.env.TAUTLINE_REQUIRE_BROWSER === '1';
}

export const NO_CHROMIUM =
  'no Chromium found: browser tests are skipped. Install it (apt install chromium) or set TAUTLINE_CHROMIUM to its path; TAUTLINE_REQUIRE_BROWSER=1 makes this a failure';
