import type { Link, LinkEnd } from '../serial/link.ts';
import { virtualClock } from './clock.ts';
import { createItemReader, hostTimeOf, type ItemReader } from './item-reader.ts';
import { bytesOfFrame, wordsOfEvent } from './recorded-bytes.ts';
import type { Recording } from './recording.ts';
import type { RecordedItem } from './recording-format.ts';
import type { Clock } from './session-types.ts';

/** How often the recording is moved on, s of the outer clock. */
const PUMP_S = 0.02;
/** Time passes in slices of this, so that promises of the session get their turns, s. */
const SLICE_S = 0.05;
/** A host that slept does not catch up on more than this, s of the outer clock. */
const MOST_CATCH_UP_S = 0.5;
/** Turns of promises after each slice: more than opening a port takes. */
const TURNS = 20;
/** A session that wants to see the place that was sought gets so long to open the port, s. */
const REOPEN_S = 2.5;

export interface Replay {
  /** Time of the recording: for the session, so that it sees the recorded times at any speed. */
  clock: Clock;
  /** The board's port, for the session; undefined where the recording was without it. */
  find(): Promise<Link | undefined>;
  play(): void;
  pause(): void;
  isPlaying(): boolean;
  /** @param speed 1 = as recorded; > 0 */
  setSpeed(speed: number): void;
  /** Goes to a place, 0 = the start; the session's port is closed and opened again. While paused, one frame is shown. */
  seek(positionS: number): Promise<void>;
  /** s from the first line of the recording. */
  positionS(): number;
  isAtEnd(): boolean;
  /** Plays to the end as fast as it goes. @param wantsStop is asked now and then */
  runToEnd(wantsStop?: () => boolean): Promise<void>;
  /** Ends it; the port goes with it. */
  stop(): Promise<void>;
}

/**
 * Plays a recording as a board on a port: frames as the bytes that they were, what the board said, and the times
 * when its port was gone.
 * @param outer the clock by which it plays
 * @param onTrouble is called when the recording cannot be read on
 */
export function createReplay(
  recording: Recording,
  outer: Clock,
  onTrouble: (error: unknown) => void = () => {},
): Replay {
  const inner = virtualClock();
  let reader: ItemReader = createItemReader(recording.items());
  let link: ReplayPort | undefined;
  let isPulled = false;
  let isPlaying = false;
  let isAtEnd = false;
  let isOver = false;
  let speed = 1;
  let startS = Number.NaN;
  /** Recorded time of the place, and the inner time at which it stood there. */
  let anchor = { recordedS: 0, innerS: 0 };
  let dueS = Number.NEGATIVE_INFINITY;
  let saidBrownOut = '';
  /** Whether this port has sent a frame: a session that only begins to look for it is not sent away. */
  let hasGiven = false;
  let work: Promise<void> = Promise.resolve();
  let isBusy = false;
  let lastOuterS = outer.nowS();

  const isHeld = () => !link?.isOpen() && !isPulled;
  const recordedNowS = () => (isHeld() ? anchor.recordedS : anchor.recordedS + inner.nowS() - anchor.innerS);

  function setAnchor(recordedS: number): void {
    anchor = { recordedS, innerS: inner.nowS() };
  }

  function newPort(): ReplayPort {
    return createReplayPort(recording.file, () => setAnchor(anchor.recordedS));
  }

  function pull(reason: LinkEnd['reason']): void {
    setAnchor(recordedNowS());
    link?.end(reason);
    link = undefined;
    hasGiven = false;
  }

  function say(words: string): void {
    link?.send(Uint8Array.from(`${words}\n`, (sign) => sign.charCodeAt(0)));
  }

  function give(item: RecordedItem): void {
    if ('frame' in item) {
      isPulled = false;
      hasGiven = true;
      saidBrownOut = '';
      link?.send(bytesOfFrame(item.frame));
      return;
    }
    const { kind } = item.event;
    const words = wordsOfEvent(item.event);
    // One line of the chip's can tell both that it started and that it did so for lack of voltage.
    if (words !== '' && !(kind === 'board-started' && words === saidBrownOut)) say(words);
    saidBrownOut = kind === 'brown-out' ? words : '';
    if (kind === 'port-gone') {
      pull('gone');
      isPulled = true;
    } else if (kind === 'port-back') {
      setAnchor(dueS);
      isPulled = false;
    } else if (kind === 'state' && item.event.seen === 'looking' && hasGiven) pull('closed');
  }

  async function settle(): Promise<void> {
    for (let i = 0; i < TURNS; i++) await Promise.resolve();
  }

  /** Lets inner time pass to `toS` and gives what falls due; stops at the end of the recording. */
  async function pump(toS: number): Promise<void> {
    while (inner.nowS() < toS && !isOver && !isAtEnd) {
      const sliceS = Math.min(toS, inner.nowS() + SLICE_S);
      const item = await reader.peek();
      if (!item && !isHeld()) {
        isAtEnd = true;
        isPlaying = false;
        return;
      }
      if (item && Number.isNaN(startS)) {
        startS = hostTimeOf(item);
        dueS = startS;
        setAnchor(startS);
      }
      if (item) dueS = Math.max(dueS, hostTimeOf(item));
      // A port that comes back is opened before its frames are due.
      const isReturn = item !== undefined && isPulled && 'frame' in item;
      const atS = isHeld() || !item ? Number.POSITIVE_INFINITY : anchor.innerS + (dueS - anchor.recordedS);
      if (atS > sliceS) {
        inner.advance(sliceS);
        await settle();
      } else {
        inner.advance(Math.max(atS, inner.nowS()));
        if (isHeld()) continue;
        if (isReturn) {
          isPulled = false;
          setAnchor(dueS);
          continue;
        }
        give(item!);
        reader.take();
      }
    }
  }

  function queue(job: () => Promise<void>): Promise<void> {
    work = work.then(job).catch((error) => {
      isPlaying = false;
      isAtEnd = true;
      onTrouble(error);
    });
    return work;
  }

  const stopPump = outer.every(PUMP_S, () => {
    const passedS = Math.min(outer.nowS() - lastOuterS, MOST_CATCH_UP_S);
    if (isBusy && isPlaying) return;
    lastOuterS = outer.nowS();
    if (!isPlaying) return;
    isBusy = true;
    void queue(() => pump(inner.nowS() + passedS * speed)).finally(() => {
      isBusy = false;
    });
  });

  async function skipTo(wantedS: number): Promise<void> {
    pull('closed');
    await reader.close();
    reader = createItemReader(recording.items());
    isPulled = false;
    isAtEnd = false;
    saidBrownOut = '';
    const first = await reader.peek();
    startS = first ? hostTimeOf(first) : 0;
    dueS = startS;
    for (let item = first; item; item = await reader.peek()) {
      dueS = Math.max(dueS, hostTimeOf(item));
      if (dueS >= startS + wantedS) break;
      if ('frame' in item || item.event.kind === 'port-back') isPulled = false;
      else if (item.event.kind === 'port-gone') isPulled = true;
      reader.take();
    }
    setAnchor(startS + Math.max(0, wantedS));
    if (isPlaying) return;
    const untilS = inner.nowS() + REOPEN_S;
    while (isHeld() && inner.nowS() < untilS && !isOver) {
      inner.advance(inner.nowS() + SLICE_S);
      await settle();
    }
    const next = await reader.peek();
    if (!next || isHeld() || isPulled) return;
    if (!('frame' in next)) return;
    setAnchor(dueS);
    give(next);
    reader.take();
  }

  return {
    clock: { nowS: inner.nowS, every: inner.every },
    async find() {
      if (isOver || isPulled) return undefined;
      if (!link || link.isSpent()) link = newPort();
      return link;
    },
    play() {
      if (isAtEnd || isOver) return;
      lastOuterS = outer.nowS();
      isPlaying = true;
    },
    pause() {
      isPlaying = false;
    },
    isPlaying: () => isPlaying,
    setSpeed(next) {
      if (!(next > 0)) throw new RangeError(`a speed of ${next}; expected more than 0`);
      speed = next;
    },
    seek: (positionS) => queue(() => skipTo(positionS)),
    positionS: () => (Number.isNaN(startS) ? 0 : recordedNowS() - startS),
    isAtEnd: () => isAtEnd,
    async runToEnd(wantsStop = () => false) {
      await queue(async () => {
        let slices = 0;
        while (!isAtEnd && !isOver && !wantsStop()) {
          await pump(inner.nowS() + SLICE_S);
          // The world outside, Ctrl-C for instance, gets its turn too.
          if (++slices % 100 === 0) await new Promise((resolve) => setTimeout(resolve, 0));
        }
      });
    },
    async stop() {
      isOver = true;
      isPlaying = false;
      stopPump();
      await work;
      link?.end('closed');
      link = undefined;
      await reader.close();
    },
  };
}

interface ReplayPort extends Link {
  send(bytes: Uint8Array): void;
  end(reason: LinkEnd['reason']): void;
  isOpen(): boolean;
  isSpent(): boolean;
}

/** One stay of the recorded board on its port. What is written to it goes nowhere: a recording does not answer. */
function createReplayPort(name: string, onOpen: () => void): ReplayPort {
  let isOpen = false;
  let ended: LinkEnd | undefined;
  let hearData: ((bytes: Uint8Array) => void) | undefined;
  const hearEnd: ((end: LinkEnd) => void)[] = [];

  function end(reason: LinkEnd['reason']): void {
    if (ended) return;
    ended = { reason, detail: '' };
    isOpen = false;
    for (const listener of hearEnd.splice(0)) listener(ended);
    hearData = undefined;
  }

  return {
    name,
    async open() {
      if (isOpen || ended) return;
      onOpen();
      isOpen = true;
    },
    write: async () => {},
    setLines: async () => false,
    setBaud: async () => {},
    onData(listener) {
      hearData = listener;
    },
    onEnd(listener) {
      if (ended) listener(ended);
      else hearEnd.push(listener);
    },
    async close() {
      end('closed');
    },
    send(bytes) {
      if (isOpen) hearData?.(bytes);
    },
    end,
    isOpen: () => isOpen,
    isSpent: () => ended !== undefined,
  };
}
