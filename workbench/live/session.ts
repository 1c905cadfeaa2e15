import { COMMAND_VERSION } from '../../protocol/commands.ts';
import type { Frame } from '../../protocol/frame.ts';
import { createReceiver } from '../../protocol/receive.ts';
import { TautlineError } from '../../sim/errors.ts';
import { type Link, type LinkEnd, RUN_LINES } from '../serial/link.ts';
import { createBoardText, type TextMeaning } from './board-text.ts';
import { BURST_CURE, createBursts } from './bursts.ts';
import { createCommandQueue } from './command-queue.ts';
import { liveFrame } from './live-frame.ts';
import { createFrameRate } from './rate.ts';
import type { LinkHealth, Session, SessionEvent, SessionOptions, SessionState } from './session-types.ts';
import { createTimeMap } from './time-map.ts';

/** How often the session looks round, s. */
const TICK_S = 0.05;
/** No frame for so long: the pose is stale. A board may be busy storing for half of it. */
const STALE_S = 0.8;
/** Silent for so long: look whether the port is still the one that it was ... */
const DOUBT_S = 3;
/** ... and after this much open it anew whatever it looks like. */
const GIVE_UP_S = 10;
/** Between two tries to find or open a port. */
const RETRY_S = 1;
/** Bytes without a frame for so long: the rate is wrong, if they look like nothing. */
const BAUD_S = 1.5;
/** Share of senseless bytes that a wrong rate gives at least. Assumed; see SPEC.md on boot text. */
const BAUD_GARBAGE = 0.2;
const BAUD_BYTES = 60;
/** Signs of one start come within this time: text of the ROM, then a clock that has gone back. */
const ONE_START_S = 2;
/** Lines of a board told in a minute; more would bury the rest. */
const LINES_A_MINUTE = 12;

/**
 * One board, from the first look for its port to the last frame, through everything that happens to a cable.
 * Nothing of what the board says is trusted: frames are checked, text is counted and cut.
 */
export function createSession(options: SessionOptions): Session {
  const { clock, framePeriodS } = options;
  let state: SessionState = 'closed';
  let link: Link | undefined;
  let portName = '';
  let stopTicks: (() => void) | undefined;
  let isBusy = false;
  let lastTryS = Number.NEGATIVE_INFINITY;
  let openedS = 0;
  let lastFrameS = Number.NEGATIVE_INFINITY;
  let bytesAtOpen = { bytes: 0, garbage: 0, frames: 0 };
  let firstByteS = Number.NaN;
  const told = new Set<string>();
  let startS = Number.NEGATIVE_INFINITY;
  let brownOutS = Number.NEGATIVE_INFINITY;
  let linesTold: number[] = [];
  let isVersionAsked = false;
  const count = { frames: 0, starts: 0, brownOuts: 0, clockRestarts: 0 };

  const times = createTimeMap();
  const rate = createFrameRate();
  const bursts = createBursts(framePeriodS);
  const text = createBoardText(onLine);
  let arrivalS = 0;
  const receiver = createReceiver(framePeriodS, onFrame, (byte) => text.push(byte));
  const queue = createCommandQueue(options.firstTag, (packet) => void link?.write(packet).catch(() => {}));

  function tell(kind: SessionEvent['kind'], seen: string, next = ''): void {
    options.onEvent({ hostS: clock.nowS(), kind, seen, next });
  }

  function tellOnce(kind: SessionEvent['kind'], seen: string, next: string): void {
    if (told.has(kind)) return;
    told.add(kind);
    tell(kind, seen, next);
  }

  function enter(next: SessionState): void {
    if (state === next) return;
    state = next;
    tell('state', next);
  }

  function boardStarted(): void {
    const nowS = clock.nowS();
    const isNew = nowS - startS > ONE_START_S;
    startS = nowS;
    if (!isNew) return;
    count.starts++;
    tell('board-started', 'The board has started anew.');
  }

  function onLine(line: string, meaning: TextMeaning): void {
    const nowS = clock.nowS();
    if (meaning === 'brown-out') {
      const isNew = nowS - brownOutS > ONE_START_S;
      brownOutS = nowS;
      if (!isNew) return;
      count.brownOuts++;
      tell(
        'brown-out',
        `The board reset for lack of voltage: "${line}"`,
        'Its supply sags: another cable or port, a capacitor of 100 µF and more beside the board, servos on a supply of their own.',
      );
      return;
    }
    if (meaning === 'start') {
      boardStarted();
      times.reset();
      receiver.restart();
      return;
    }
    linesTold = linesTold.filter((atS) => atS > nowS - 60);
    if (linesTold.length >= LINES_A_MINUTE) return;
    linesTold.push(nowS);
    tell('board-text', `The board says: "${line}"`);
  }

  function onFrame(frame: Frame, deviceS: number, step: number): void {
    const { restarts } = receiver.counters();
    if (restarts > count.clockRestarts) {
      count.clockRestarts = restarts;
      times.reset();
      boardStarted();
    }
    const hostS = times.arrive(deviceS, arrivalS);
    lastFrameS = arrivalS;
    count.frames++;
    if (state !== 'streaming') enter('streaming');
    const live = liveFrame(frame, deviceS, hostS, step);
    if (live.kind === 'hand' && step >= 1) rate.add(deviceS, hostS, step);
    queue.frame(frame);
    options.onFrame(live);
  }

  function onData(bytes: Uint8Array): void {
    arrivalS = clock.nowS();
    if (Number.isNaN(firstByteS)) firstByteS = arrivalS;
    bursts.chunk(arrivalS);
    receiver.push(bytes, arrivalS);
    if (bursts.isTimer()) {
      tellOnce(
        'bursts',
        'Frames come in bursts of 16 ms: the serial adapter waits before it sends.',
        BURST_CURE,
      );
    }
  }

  function onEnd(ended: Link, end: LinkEnd): void {
    if (ended !== link) return;
    link = undefined;
    queue.drop();
    if (state === 'closed') return;
    if (end.reason !== 'closed') {
      tell(
        'port-gone',
        `${portName} went away${end.detail === '' ? '' : ` (${end.detail})`}.`,
        'Plug the board in again: it is looked for.',
      );
      told.add('port-gone');
    }
    enter('looking');
  }

  async function lookAndOpen(): Promise<void> {
    lastTryS = clock.nowS();
    const found = await options.find();
    if (!found || state === 'closed') return;
    enter('opening');
    const wasGone = told.delete('port-gone');
    try {
      found.onData((bytes) => {
        if (found === link) onData(bytes);
      });
      found.onEnd((end) => onEnd(found, end));
      // Listening begins before the port is open: the first bytes may come at once.
      link = found;
      await found.open(options.baud, RUN_LINES);
    } catch (error) {
      link = undefined;
      openFailed(error);
      return;
    }
    if (isClosed()) {
      await found.close();
      return;
    }
    const isOther = portName !== '' && portName !== found.name;
    if (wasGone) tell('port-back', `The board is back${isOther ? ` as ${found.name}` : ''}.`);
    portName = found.name;
    told.delete('port-busy');
    told.delete('port-refused');
    opened();
  }

  /** `state` as it is now: it may have changed during a wait. */
  function isClosed(): boolean {
    return state === 'closed';
  }

  function opened(): void {
    openedS = clock.nowS();
    lastFrameS = Number.NEGATIVE_INFINITY;
    firstByteS = Number.NaN;
    isVersionAsked = false;
    told.delete('wrong-baud');
    const { bytesIn, garbageBytes, framesGood } = receiver.counters();
    bytesAtOpen = { bytes: bytesIn, garbage: garbageBytes, frames: framesGood };
    receiver.restart();
    times.reset();
    rate.reset();
    enter('listening');
  }

  function openFailed(error: unknown): void {
    enter('looking');
    if (!(error instanceof TautlineError)) {
      tellOnce(
        'port-refused',
        `The port could not be opened: ${String(error)}`,
        'Unplug the board, plug it in again.',
      );
    } else if (error.code === 'port/busy') tellOnce('port-busy', error.message, error.detail);
    else if (error.code !== 'port/missing') tellOnce('port-refused', error.message, error.detail);
  }

  /** A port that is silent may be another one by now: the same board under another name. */
  async function doubt(): Promise<void> {
    lastTryS = clock.nowS();
    const found = await options.find();
    const silentS = clock.nowS() - Math.max(lastFrameS, openedS);
    if (state !== 'silent' && state !== 'listening') return;
    if (found?.name === portName && silentS < GIVE_UP_S) return;
    const old = link;
    link = undefined;
    queue.drop();
    if (!found) {
      tell(
        'port-gone',
        `${portName} is silent and no longer listed.`,
        'Plug the board in again: it is looked for.',
      );
      told.add('port-gone');
    }
    enter('looking');
    await old?.close();
    lastTryS = Number.NEGATIVE_INFINITY;
  }

  function checkBaud(nowS: number): void {
    if (!(nowS - firstByteS >= BAUD_S)) return;
    const { bytesIn, garbageBytes, framesGood } = receiver.counters();
    const bytes = bytesIn - bytesAtOpen.bytes;
    if (framesGood > bytesAtOpen.frames || bytes < BAUD_BYTES) return;
    if (garbageBytes - bytesAtOpen.garbage < BAUD_GARBAGE * bytes) return;
    tellOnce(
      'wrong-baud',
      `${bytes} bytes came at ${options.baud} bits a second, but no frame: most look like nothing.`,
      'The board sends at another rate: look at "frameLink" in the rig file, or try --baud 115200.',
    );
  }

  async function askVersion(wanted: number): Promise<void> {
    isVersionAsked = true;
    const outcome = await queue.add(COMMAND_VERSION, 0, 0, 0).catch(() => undefined);
    if (outcome === undefined) return;
    if (outcome.result < 0) {
      tellOnce(
        'no-reply',
        'Frames come, but the board does not answer.',
        'Calibrating needs it: look whether the console’s port is the one that is open.',
      );
    } else if ((outcome.answer & 255) !== wanted) {
      tellOnce(
        'wrong-program',
        `The board runs program ${outcome.answer & 255}, the rig file makes ${wanted}.`,
        'Run "tautline bundle" and "tautline load", or open the rig file that the board was made from.',
      );
    }
  }

  function tick(): void {
    const nowS = clock.nowS();
    queue.tick(nowS);
    if (state === 'listening') checkBaud(nowS);
    if (state === 'streaming') {
      if (options.programId !== undefined && !isVersionAsked) void askVersion(options.programId);
      if (nowS - lastFrameS > STALE_S) {
        receiver.end();
        text.flush();
        enter('silent');
      }
    }
    if (isBusy || nowS - lastTryS < RETRY_S) return;
    const silentS = nowS - Math.max(lastFrameS, openedS);
    const job =
      state === 'looking'
        ? lookAndOpen
        : (state === 'silent' || state === 'listening') && silentS > DOUBT_S
          ? doubt
          : undefined;
    if (!job) return;
    isBusy = true;
    void job().finally(() => {
      isBusy = false;
    });
  }

  return {
    state: () => state,
    start() {
      if (state !== 'closed') return;
      lastTryS = Number.NEGATIVE_INFINITY;
      enter('looking');
      stopTicks = clock.every(TICK_S, tick);
      tick();
    },
    async stop() {
      stopTicks?.();
      const old = link;
      link = undefined;
      queue.drop();
      enter('closed');
      await old?.close();
    },
    command(code, subject, index, value) {
      if (!link || (state !== 'streaming' && state !== 'silent' && state !== 'listening')) {
        const error = new TautlineError('live/not-open', 'There is no board to talk to.', {
          detail: 'Plug one in, or wait until its port is found.',
        });
        return Promise.reject(error);
      }
      return queue.add(code, subject, index, value);
    },
    health(): LinkHealth {
      const nowS = clock.nowS();
      return {
        ...receiver.counters(),
        state,
        portName,
        frames: count.frames,
        rateHz: state === 'streaming' ? rate.rateHz(nowS) : 0,
        jitterMs: rate.jitterMs(),
        burstMs: bursts.longestMs(),
        driftPpm: times.driftPpm(),
        starts: count.starts,
        brownOuts: count.brownOuts,
        isStale: !(nowS - lastFrameS <= STALE_S),
      };
    },
  };
}
