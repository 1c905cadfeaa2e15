import type { Frame } from '../../protocol/frame.ts';
import { createReceiver } from '../../protocol/receive.ts';
import { TautlineError } from '../../sim/errors.ts';
import { type Link, type LinkEnd, RUN_LINES } from '../serial/link.ts';
import { createBaudWatch } from './baud-watch.ts';
import { createBoardText, type TextMeaning } from './board-text.ts';
import { BURST_CURE, createBursts } from './bursts.ts';
import { createCommandQueue } from './command-queue.ts';
import { liveFrame } from './live-frame.ts';
import { createFrameRate } from './rate.ts';
import type { LinkHealth, Session, SessionEvent, SessionOptions, SessionState } from './session-types.ts';
import { createStartWatch } from './start-watch.ts';
import { createTimeMap } from './time-map.ts';
import { askWhatRuns } from './what-runs.ts';

/** How often the session looks round, s. */
const TICK_S = 0.05;
/** No frame for so long: the pose is stale. A board may be busy storing for half of it. */
const STALE_S = 0.8;
/** Not a byte for so long: look whether the port is still the one that it was ... */
const DOUBT_S = 1.5;
/** ... and after this much open it anew whatever it looks like. */
const GIVE_UP_S = 10;
/** Between two tries to find or open a port. */
const RETRY_S = 1;
/** Open for so long without a byte: told. */
const NOTHING_S = 3;
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
  const told = new Set<string>();
  let linesTold: number[] = [];
  let isProgramAsked = false;
  /** Counted as lost where in truth the board had started anew. */
  let lostByStart = 0;
  let frames = 0;
  let clockRestarts = 0;
  let bytesAtOpen = 0;
  let lastByteS = Number.NEGATIVE_INFINITY;
  let lastHandS = Number.NEGATIVE_INFINITY;
  let lastHostS = Number.NEGATIVE_INFINITY;
  /** The look for a port, or the opening of it, that is under way. */
  let job: Promise<void> = Promise.resolve();

  const times = createTimeMap();
  const rate = createFrameRate();
  const bursts = createBursts(framePeriodS);
  const baud = createBaudWatch();
  const text = createBoardText(onLine);
  const starts = createStartWatch(tell);
  let arrivalS = 0;
  const receiver = createReceiver(framePeriodS, onFrame, (byte) => text.push(byte));
  const queue = createCommandQueue(options.firstTag, (packet) => void link?.write(packet).catch(() => {}));

  function tell(kind: SessionEvent['kind'], seen: string, next = ''): void {
    options.onEvent({ hostS: clock.nowS(), kind, seen, next });
  }

  function tellOnce(kind: SessionEvent['kind'], seen: string, next: string, key: string = kind): void {
    if (told.has(key)) return;
    told.add(key);
    tell(kind, seen, next);
  }

  /** @param isTold false: one more try, which changes nothing for the user */
  function enter(next: SessionState, isTold = true): void {
    if (state === next) return;
    state = next;
    if (isTold) tell('state', next);
  }

  /** The next frame is a first one. */
  function beginAnew(): void {
    times.reset();
    rate.skip();
    receiver.restart();
  }

  function onLine(line: string, meaning: TextMeaning): void {
    if (starts.line(line, meaning)) beginAnew();
    if (meaning.isStart || meaning.isBrownOut) return;
    const nowS = clock.nowS();
    linesTold = linesTold.filter((atS) => atS > nowS - 60);
    if (linesTold.length >= LINES_A_MINUTE) return;
    linesTold.push(nowS);
    tell('board-text', `The board says: "${line}"`);
  }

  /** @returns the step, 1 if the board has started anew by the look of its clock */
  function stepAfterStart(deviceS: number, step: number): number {
    const { restarts } = receiver.counters();
    const isBack = restarts > clockRestarts;
    clockRestarts = restarts;
    const isJump = !isBack && step !== 1 && times.isAhead(deviceS, arrivalS);
    if (!isBack && !isJump) return step;
    if (isJump && step > 1) lostByStart += step - 1;
    times.reset();
    rate.skip();
    starts.clock();
    return 1;
  }

  function onFrame(frame: Frame, deviceS: number, rawStep: number): void {
    const step = stepAfterStart(deviceS, rawStep);
    const mappedS = times.arrive(deviceS, arrivalS);
    // The map is laid anew every few seconds: time on the host must not run back over it.
    const hostS = step >= 1 ? Math.max(mappedS, Math.min(lastHostS, arrivalS)) : mappedS;
    if (step >= 1) lastHostS = hostS;
    lastFrameS = arrivalS;
    frames++;
    if (state !== 'streaming') {
      told.delete('wrong-baud');
      told.delete('nothing');
      enter('streaming');
    }
    const live = liveFrame(frame, deviceS, hostS, step);
    if (live.kind === 'hand') {
      lastHandS = arrivalS;
      if (step >= 1) rate.add(deviceS, hostS, step);
    } else rate.skip();
    queue.frame(frame);
    options.onFrame(live);
  }

  function onData(bytes: Uint8Array): void {
    arrivalS = clock.nowS();
    lastByteS = arrivalS;
    bursts.chunk(arrivalS);
    receiver.push(bytes, arrivalS);
    if (bursts.isTimer()) {
      tellOnce(
        'bursts',
        `Frames come in bursts, ${Math.round(bursts.longestMs())} ms apart: the serial adapter waits before it sends.`,
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
        `${ended.name} went away${end.detail === '' ? '' : ` (${end.detail})`}.`,
        'Plug the board in again: it is looked for.',
      );
      told.add('port-gone');
    }
    enter('looking');
  }

  async function lookAndOpen(): Promise<void> {
    lastTryS = clock.nowS();
    const found = await options.find();
    if (!found || isClosed()) return;
    const isFirstTry = !told.has('port-busy') && !told.has('port-refused');
    enter('opening', isFirstTry);
    try {
      found.onData((bytes) => {
        if (found === link) onData(bytes);
      });
      found.onEnd((end) => onEnd(found, end));
      // Listening begins before the port is open: the first bytes may come at once.
      link = found;
      await found.open(options.baud, RUN_LINES);
    } catch (error) {
      if (link === found) link = undefined;
      await found.close();
      if (!isClosed()) openFailed(error, isFirstTry);
      return;
    }
    if (link !== found) {
      // Ended, or stopped by the user, while it was being opened.
      await found.close();
      return;
    }
    if (told.delete('port-gone')) {
      const isOther = portName !== '' && portName !== found.name;
      tell('port-back', `The board is back${isOther ? ` as ${found.name}` : ''}.`);
    }
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
    isProgramAsked = false;
    const { bytesIn, garbageBytes, framesGood } = receiver.counters();
    bytesAtOpen = bytesIn;
    baud.reset(openedS, bytesIn, garbageBytes, framesGood);
    beginAnew();
    rate.reset();
    bursts.reset();
    enter('listening');
  }

  function openFailed(error: unknown, isTold: boolean): void {
    enter('looking', isTold);
    if (!(error instanceof TautlineError)) {
      tellOnce(
        'port-refused',
        `The port could not be opened: ${error instanceof Error ? error.message : String(error)}`,
        'Unplug the board, plug it in again, and run "tautline ports" to see its path.',
      );
    } else if (error.code === 'port/busy') tellOnce('port-busy', error.message, error.detail);
    else if (error.code !== 'port/missing') tellOnce('port-refused', error.message, error.detail);
  }

  /** A port that is silent may be another one by now: the same board under another name. */
  async function doubt(): Promise<void> {
    lastTryS = clock.nowS();
    const found = await options.find();
    const silentS = clock.nowS() - Math.max(lastByteS, openedS);
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

  function checkBytes(nowS: number): void {
    const { bytesIn, garbageBytes, framesGood } = receiver.counters();
    const wrong = baud.look(nowS, bytesIn, garbageBytes, framesGood);
    if (wrong) {
      tellOnce(
        'wrong-baud',
        `${wrong.bytes} bytes came at ${options.baud} bits a second and no frame; ${Math.round(100 * wrong.share)} % of them make no sense.`,
        'The board sends at another rate: look at "frameLink" in the rig file, or try --baud 115200.',
      );
    }
    if (bytesIn === bytesAtOpen && nowS - openedS > NOTHING_S) {
      tellOnce(
        'no-reply',
        `${portName} is open, but nothing comes.`,
        'Press RESET (EN) on the board; if it stays silent, put a program on it with "tautline load".',
        'nothing',
      );
    }
  }

  function tick(): void {
    const nowS = clock.nowS();
    queue.tick(nowS);
    if (state === 'listening') checkBytes(nowS);
    if (state === 'streaming') {
      if (!isProgramAsked) {
        isProgramAsked = true;
        void askWhatRuns(options, queue.add, tellOnce);
      }
      if (nowS - lastFrameS > STALE_S) {
        receiver.end();
        text.flush();
        enter('silent');
      }
    }
    if (isBusy || nowS - lastTryS < RETRY_S) return;
    const silentS = nowS - Math.max(lastByteS, openedS);
    if (state === 'looking') begin(lookAndOpen);
    else if ((state === 'silent' || state === 'listening') && silentS > DOUBT_S) begin(doubt);
  }

  function begin(work: () => Promise<void>): void {
    isBusy = true;
    job = work()
      .catch((error) => {
        if (!isClosed()) openFailed(error, false);
      })
      .finally(() => {
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
      await job;
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
      const counters = receiver.counters();
      return {
        ...counters,
        lost: Math.max(0, counters.lost - lostByStart),
        state,
        portName,
        frames,
        rateHz: state === 'streaming' ? rate.rateHz(nowS) : 0,
        jitterMs: rate.jitterMs(),
        burstMs: bursts.longestMs(),
        driftPpm: times.driftPpm(),
        starts: starts.starts(),
        brownOuts: starts.brownOuts(),
        isStale: !(nowS - lastHandS <= STALE_S),
      };
    },
  };
}
