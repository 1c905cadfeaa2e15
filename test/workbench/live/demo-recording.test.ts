import { readFileSync, writeFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { puppetScene } from '../../../sim/device/motions.ts';
import { settingsIdOf } from '../../../workbench/bundle/ids.ts';
import { planOfRig } from '../../../workbench/bundle/plan-of-rig.ts';
import { virtualClock } from '../../../workbench/live/clock.ts';
import { readRecording } from '../../../workbench/live/read-recording.ts';
import { createRecorder } from '../../../workbench/live/recorder.ts';
import { createSession } from '../../../workbench/live/session.ts';
import { createSimulatedLink } from '../../../workbench/live/simulated-link.ts';
import { readRig } from '../../../workbench/rig/read-rig.ts';

const FILE = 'examples/sessions/puppet-scene.csv';
const SEED = 7;
const LENGTH_S = 36;

/** The scene of the puppet theatre, played by the simulator and recorded as a board would be. */
async function record(): Promise<string> {
  const rigFile = 'examples/marionette-right.yaml';
  const { rig } = readRig(rigFile);
  const clock = virtualClock();
  const plan = planOfRig(rig);
  const link = createSimulatedLink(
    rig,
    plan,
    { seed: SEED, draw: 1, motion: puppetScene, faults: [] },
    clock,
  );
  let text = '';
  const recorder = createRecorder(
    {
      rigName: `${rig.name} (invented demo)`,
      rigFile,
      settingsId: settingsIdOf(rig),
      programId: undefined,
      framePeriodS: 1 / rig.frameRateHz,
      started: '2026-11-25T12:00:00.000Z',
      version: '0.1.0',
      isSimulated: true,
    },
    {
      append: (lines) => {
        text += lines;
      },
      close: async () => {},
    },
    clock,
  );
  const session = createSession({
    find: async () => link,
    baud: 115_200,
    framePeriodS: 1 / rig.frameRateHz,
    clock,
    firstTag: 1,
    onFrame: (frame) => recorder.frame(frame),
    onEvent: (event) => recorder.event(event),
  });
  session.start();
  for (let s = 0.05; s <= LENGTH_S; s += 0.05) {
    clock.advance(s);
    await new Promise((resolve) => setImmediate(resolve));
  }
  await recorder.close();
  await session.stop();
  return text;
}

it('the recording in examples is what the simulator plays, and is whole', async () => {
  const text = await record();
  if (process.env.TAUTLINE_MAKE_EXAMPLES === '1') writeFileSync(FILE, text);
  expect(
    readFileSync(FILE, 'utf8') === text,
    `other than ${FILE}: make it anew with TAUTLINE_MAKE_EXAMPLES=1`,
  ).toBe(true);
  const recording = await readRecording(FILE);
  expect(recording.facts).toMatchObject({
    isSimulated: true,
    rigName: 'Marionette, right hand (invented demo)',
  });
  let frames = 0;
  let latestS = 0;
  for await (const items of recording.items()) {
    for (const item of items) {
      if (!('frame' in item)) continue;
      frames++;
      latestS = item.frame.deviceS;
    }
  }
  // 36 s at 100 Hz, and a health frame a second
  expect(frames).toBeGreaterThan(3600);
  expect(latestS).toBeGreaterThan(35);
  expect(recording.warnings().listed).toEqual([]);
}, 30_000);
