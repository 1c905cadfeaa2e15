import type { Recording } from './recording.ts';
import { createReplay } from './replay-link.ts';
import { createSession } from './session.ts';
import type { Clock, LinkHealth, LiveFrame, SessionEvent } from './session-types.ts';

/** Events that are kept for the end. */
const MOST_EVENTS = 200;

export interface ReplayOrder {
  recording: Recording;
  /** 1 = as recorded; undefined = as fast as it goes. */
  speed: number | undefined;
  clock: Clock;
  onFrame?: (frame: LiveFrame) => void;
  /** Asked now and then. */
  wantsStop: () => boolean;
}

export interface ReplayResult {
  health: LinkHealth;
  events: SessionEvent[];
  /** Events beyond those. */
  moreEvents: number;
  /** Length that was played, s. */
  playedS: number;
}

/**
 * Plays a recording through a session and gives what the session made of it.
 * @throws TautlineError `recording/...` when it cannot be read on
 */
export async function replaySession(order: ReplayOrder): Promise<ReplayResult> {
  const { recording, speed, clock, wantsStop } = order;
  let trouble: unknown;
  const replay = createReplay(recording, clock, (error) => {
    trouble = error;
  });
  const events: SessionEvent[] = [];
  let moreEvents = 0;
  const session = createSession({
    find: replay.find,
    baud: 115_200,
    framePeriodS: recording.facts.framePeriodS,
    clock: replay.clock,
    firstTag: 0,
    onFrame: order.onFrame ?? (() => {}),
    onEvent(event) {
      if (events.length < MOST_EVENTS) events.push(event);
      else moreEvents++;
    },
  });
  session.start();
  if (speed === undefined) await replay.runToEnd(wantsStop);
  else {
    replay.setSpeed(speed);
    replay.play();
    await new Promise<void>((resolve) => {
      const stop = clock.every(0.05, () => {
        if (!replay.isAtEnd() && !wantsStop()) return;
        stop();
        resolve();
      });
    });
    replay.pause();
  }
  const result = { health: session.health(), events, moreEvents, playedS: replay.positionS() };
  await session.stop();
  await replay.stop();
  if (trouble !== undefined) throw trouble;
  // What is told by the end of the session is no part of the recording.
  return { ...result, events: events.filter((event) => event.seen !== 'closed' || event.kind !== 'state') };
}
