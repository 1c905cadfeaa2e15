import type { Settings } from '../../../firmware/chain/settings.ts';
import { planOfRig } from '../../../workbench/bundle/plan-of-rig.ts';
import { virtualClock } from '../../../workbench/live/clock.ts';
import { createReplay } from '../../../workbench/live/replay-link.ts';
import { createSimulatedLink } from '../../../workbench/live/simulated-link.ts';
import { readRig } from '../../../workbench/rig/read-rig.ts';
import { createMemoryLink } from '../../../workbench/serial/memory-link.ts';
import { asItems, openText, plainFrames, recordedText } from './recording-kit.ts';
import { sessionConformance } from './session-conformance.ts';
import { settle } from './session-rig.ts';
import { createStreamingBoard } from './streaming-board.ts';

/** Any that a board can run. */
const SETTINGS: Settings = {
  oversampling: 4,
  despike: { kind: 'none' },
  lowPass: { kind: 'exponential', cutoffHz: 10 },
  hysteresis: { kind: 'none' },
};

/** Turns of the event loop, as bytes of a link in memory need them. */
const turn = () => new Promise((resolve) => setImmediate(resolve));

sessionConformance('a link in memory', async () => {
  const clock = virtualClock();
  let send: (bytes: Uint8Array) => void = () => {};
  let isPlugged = true;
  let pull: () => void = () => {};
  const board = createStreamingBoard((bytes) => send(bytes));
  let name = 0;
  return {
    clock,
    framePeriodS: 0.01,
    answers: true,
    isRealTime: false,
    find: async () => {
      if (!isPlugged) return undefined;
      return createMemoryLink(`MEM${name}`, (plug) => ({
        lines() {
          send = (bytes) => plug.send(bytes);
          pull = () => plug.pull();
        },
        receive: (bytes) => board.receive(bytes),
      }));
    },
    async pass(seconds) {
      const endS = clock.nowS() + seconds;
      while (clock.nowS() < endS - 1e-9) {
        clock.advance(Math.min(endS, clock.nowS() + 0.01));
        board.advance(clock.nowS());
        await turn();
      }
    },
    pull() {
      isPlugged = false;
      pull();
    },
    plug() {
      isPlugged = true;
      name++;
    },
    async tidy() {},
  };
});

sessionConformance('a recording', async () => {
  const outer = virtualClock();
  const recording = await openText(await recordedText(asItems(plainFrames(2500))));
  const replay = createReplay(recording, outer);
  replay.play();
  return {
    clock: replay.clock,
    framePeriodS: 0.01,
    answers: false,
    isRealTime: false,
    find: replay.find,
    async pass(seconds) {
      const endS = outer.nowS() + seconds;
      while (outer.nowS() < endS - 1e-9) {
        outer.advance(outer.nowS() + 0.02);
        // The recording is read in the background.
        await turn();
        await turn();
      }
    },
    tidy: () => replay.stop(),
  };
});

sessionConformance('the simulator', async () => {
  const clock = virtualClock();
  const { rig } = readRig('examples/puppet-right.yaml');
  const plan = planOfRig({ ...rig, settings: SETTINGS });
  const link = () =>
    createSimulatedLink(
      rig,
      plan,
      { seed: 1, draw: 0, faults: [], motion: (_finger, timeS) => 0.5 + 0.4 * Math.sin(3 * timeS) },
      clock,
    );
  let last: ReturnType<typeof link> | undefined;
  return {
    clock,
    framePeriodS: 1 / plan.frameRateHz,
    answers: true,
    isRealTime: false,
    find: async () => {
      last = link();
      return last;
    },
    async pass(seconds) {
      const endS = clock.nowS() + seconds;
      while (clock.nowS() < endS - 1e-9) {
        clock.advance(Math.min(endS, clock.nowS() + 0.01));
        await settle();
      }
    },
    async tidy() {
      await last?.close();
    },
  };
});
