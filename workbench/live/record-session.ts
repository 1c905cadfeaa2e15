import { TautlineError } from '../../sim/errors.ts';
import type { Link } from '../serial/link.ts';
import { createRecorder, type RecordingSink } from './recorder.ts';
import type { RecordingFacts } from './recording-format.ts';
import { createSession } from './session.ts';
import type { Clock, LinkHealth, SessionEvent, SessionOptions } from './session-types.ts';

/** How often the end is looked for, s. */
const LOOK_S = 0.1;

export interface RecordOrder extends Pick<SessionOptions, 'baud' | 'firstTag' | 'programId' | 'settingsId'> {
  find: () => Promise<Link | undefined>;
  facts: RecordingFacts;
  sink: RecordingSink;
  clock: Clock;
  /** Ends so long after the first frame, s; Infinity = when it is stopped. */
  seconds: number;
  /** Gives up when no frame came so long after the start, s. */
  patienceS: number;
  onEvent: (event: SessionEvent) => void;
  /** Called about once a second while frames come. */
  onProgress: (recordedS: number, health: LinkHealth) => void;
}

export interface RecordResult {
  frames: number;
  events: number;
  /** From the first frame to the end, s; 0 without a frame. */
  recordedS: number;
  health: LinkHealth;
}

export interface RecordRun {
  /** Settles when the file is closed. @throws TautlineError when no frame came, or the file could not be written */
  done: Promise<RecordResult>;
  /** Ends it in order: what was recorded stays. */
  stop(): void;
}

/** Records a board until the time is over, or until it is stopped. */
export function recordSession(order: RecordOrder): RecordRun {
  const { clock } = order;
  const startS = clock.nowS();
  let firstS = Number.NaN;
  let progressS = startS;
  let refused: SessionEvent | undefined;
  let settle: (result: Promise<RecordResult>) => void = () => {};
  let isOver = false;
  const done = new Promise<RecordResult>((resolve) => {
    settle = resolve;
  });
  const recorder = createRecorder(order.facts, order.sink, clock, () => stop());
  const { programId, settingsId } = order;
  const session = createSession({
    find: order.find,
    baud: order.baud,
    framePeriodS: order.facts.framePeriodS,
    clock,
    firstTag: order.firstTag,
    ...(programId === undefined ? {} : { programId }),
    ...(settingsId === undefined ? {} : { settingsId }),
    onFrame(frame) {
      if (Number.isNaN(firstS)) firstS = clock.nowS();
      recorder.frame(frame);
    },
    onEvent(event) {
      recorder.event(event);
      order.onEvent(event);
      if (Number.isNaN(firstS) && (event.kind === 'port-busy' || event.kind === 'port-refused')) {
        refused = event;
        stop();
      }
    },
  });
  const stopLooking = clock.every(LOOK_S, look);
  session.start();

  function look(): void {
    const nowS = clock.nowS();
    const isLate = Number.isNaN(firstS) ? nowS - startS > order.patienceS : nowS - firstS >= order.seconds;
    if (isLate) stop();
    else if (!Number.isNaN(firstS) && nowS - progressS >= 1) {
      progressS = nowS;
      order.onProgress(nowS - firstS, session.health());
    }
  }

  function stop(): void {
    if (isOver) return;
    isOver = true;
    stopLooking();
    settle(finish());
  }

  async function finish(): Promise<RecordResult> {
    const health = session.health();
    const recordedS = Number.isNaN(firstS) ? 0 : clock.nowS() - firstS;
    // Whatever stopped it may have been called from inside the session.
    await Promise.resolve();
    await session.stop();
    await recorder.close();
    const trouble = recorder.trouble();
    if (trouble) throw trouble;
    const { frames, events } = recorder.counts();
    if (frames === 0) throw refused ? refusal(refused) : nothingCame(health);
    return { frames, events, recordedS, health };
  }

  return { done, stop };
}

function refusal(event: SessionEvent): TautlineError {
  const code = event.kind === 'port-busy' ? 'port/busy' : 'port/denied';
  return new TautlineError(code, event.seen, { detail: event.next });
}

function nothingCame(health: LinkHealth): TautlineError {
  const { bytesIn, textBytes, garbageBytes, portName } = health;
  const bytes =
    bytesIn === 0 ? 'not a byte' : `${bytesIn} bytes (${textBytes} of text, ${garbageBytes} without sense)`;
  return new TautlineError(
    'live/no-frames',
    `No frame came${portName === '' ? '' : ` from ${portName}`}: ${bytes}.`,
    {
      detail:
        'Expected frames of the board’s program. Press RESET (EN); if none come, put the program on the board with "tautline load", and look at the rate (--baud).',
    },
  );
}
