import type { Settings } from '../../firmware/chain/settings.ts';
import type { Ends } from '../../firmware/chain/word-scale.ts';
import { commandPacket } from '../../protocol/command-packet.ts';
import {
  COMMAND_CAPTURE_BEGIN,
  COMMAND_CAPTURE_END,
  COMMAND_GET,
  COMMAND_RAW,
  COMMAND_START,
  COMMAND_STOP,
  COMMAND_STORE,
  NUMBER_WORD_GAIN,
  NUMBER_WORD_OFFSET,
  SUBJECT_ALL,
} from '../../protocol/commands.ts';
import { createReceiver } from '../../protocol/receive.ts';
import { createDevice, type Device } from '../../sim/device/device.ts';
import type { Fault, FaultKind } from '../../sim/device/faults.ts';
import { FINGER_NAMES, type Rig } from '../../sim/rig/rig.ts';
import { keys, uniformAt } from '../../sim/seed/mix.ts';
import { planOfRig } from '../bundle/plan-of-rig.ts';
import { liveFrame } from '../live/live-frame.ts';
import type { LiveFrame } from '../live/session-types.ts';
import { endsOfLiveNumbers } from './board-ends.ts';
import type { Evidence } from './evidence.ts';
import { createGatherer } from './gather.ts';
import { type GuideStep, guideOf } from './guide.ts';
import { sessionMotion, timed } from './session-motion.ts';

/** A session to be played through on the simulated controller. */
export interface SessionPlan {
  /** With chosen settings, or {@link SESSION_SETTINGS} stand in. */
  rig: Rig;
  seed: number;
  /** 0 = nominal parts, else a draw from their tolerances. */
  draw: number;
  /** Whether the ends are captured before the faults come; those of the build are there from the start. */
  isCalibrated: boolean;
  faults: readonly Omit<Fault, 'fromS' | 'toS'>[];
}

/** Settings of a rig file that has none: an ordinary chain, assumed. */
export const SESSION_SETTINGS: Settings = {
  oversampling: 8,
  despike: { kind: 'clip', limitPct: 20 },
  lowPass: { kind: 'adaptive', restCutoffHz: 2, riseHz: 10 },
  hysteresis: { kind: 'still', widthPct: 0.6 },
};

/** Faults of the build itself: there from the start, before any capture. */
const BUILT_IN: ReadonlySet<FaultKind> = new Set(['friction', 'endStop', 'deadEnd', 'swapped', 'samePin']);

/** Capture of the ends: one slow closing. */
const CAPTURE: GuideStep = { step: { kind: 'rawSlow', slot: 0 }, rawSlot: -1, lengthS: 6, say: '' };

/** Plays a guided session. Same plan, same evidence. */
export function simulatedEvidence(plan: SessionPlan): Evidence {
  const rig = plan.rig.settings ? plan.rig : { ...plan.rig, settings: SESSION_SETTINGS };
  const steps = timed([...(plan.isCalibrated ? [CAPTURE] : []), ...guideOf(rig)], 0.5);
  const fromS = plan.isCalibrated ? steps[0]!.toS : 0;
  const boardPlan = planOfRig(rig);
  const replies: LiveFrame[] = [];
  const ends: (Ends | undefined)[] = [];
  const gatherer = createGatherer({ ends });
  const receiver = createReceiver(1 / rig.frameRateHz, (frame, deviceS, step) => {
    const live = liveFrame(frame, deviceS, deviceS, step);
    if (live.kind === 'reply') replies.push(live);
    gatherer.take(live);
  });
  const device = createDevice(rig, boardPlan, {
    seed: plan.seed,
    draw: plan.draw,
    motion: sessionMotion(rig, steps, plan.seed),
    faults: plan.faults.map((fault) => (BUILT_IN.has(fault.kind) ? fault : { ...fault, fromS })),
    onBytes: (bytes, atS) => receiver.push(bytes, atS),
  });
  const board = commander(device, replies);
  shiftTicks(device, board, plan.seed);
  if (plan.isCalibrated) {
    device.advance(steps[0]!.fromS);
    board(COMMAND_CAPTURE_BEGIN);
    device.advance(steps[0]!.toS);
    board(COMMAND_CAPTURE_END);
    board(COMMAND_STORE);
  }
  readEnds(rig, boardPlan.settings.oversampling, board, ends);
  for (const step of plan.isCalibrated ? steps.slice(1) : steps) {
    device.advance(step.fromS);
    if (step.rawSlot >= 0) board(COMMAND_RAW, step.rawSlot);
    gatherer.begin(step.step);
    device.advance(step.toS);
    gatherer.end();
    if (step.rawSlot >= 0) board(COMMAND_RAW, SUBJECT_ALL);
  }
  return gatherer.evidence();
}

type Board = (code: number, subject?: number, index?: number, value?: number) => [low: number, high: number];

/** Sends commands to a device that answers at once. */
function commander(device: Device, replies: readonly LiveFrame[]): Board {
  let tag = 0;
  return (code, subject = SUBJECT_ALL, index = 0, value = 0) => {
    const before = replies.length;
    device.receive(commandPacket({ tag: tag++, code, subject, index, value }));
    const reply = replies[before];
    return reply ? [reply.values[2]!, reply.values[3]!] : [0, 0];
  };
}

/** The board's ticks must not stand in a fixed relation to the simulated mains. */
function shiftTicks(device: Device, board: Board, seed: number): void {
  device.advance(0.001 * Math.floor(10 * uniformAt(0, ...keys(0x71, seed, 0))));
  board(COMMAND_STOP);
  board(COMMAND_START);
}

/** Asks the board for the ends that its words refer to. */
function readEnds(rig: Rig, oversampling: number, board: Board, ends: (Ends | undefined)[]): void {
  const words = new Uint16Array(4);
  const number = new Float64Array(words.buffer);
  const get = (slot: number, index: number) => {
    const [a, b] = board(COMMAND_GET, slot, index, 0);
    const [c, d] = board(COMMAND_GET, slot, index, 1);
    words.set([a, b, c, d]);
    return number[0]!;
  };
  for (const { name } of rig.fingers) {
    const slot = FINGER_NAMES.indexOf(name);
    ends[slot] = endsOfLiveNumbers(get(slot, NUMBER_WORD_GAIN), get(slot, NUMBER_WORD_OFFSET), oversampling);
  }
}
