import type { Settings } from '../../firmware/chain/settings.ts';
import type { BoardPlan } from '../../firmware/main/board-plan.ts';
import type { Fault } from '../../sim/device/faults.ts';
import { type HandMotion, puppetScene } from '../../sim/device/motions.ts';
import { FINGER_NAMES, type Rig } from '../../sim/rig/rig.ts';
import { planOfRig } from '../bundle/plan-of-rig.ts';
import { realClock } from '../live/clock.ts';
import { lineOfRig } from '../live/link-of-rig.ts';
import { createSession } from '../live/session.ts';
import type { Clock, LinkHealth, LiveFrame, Session, SessionEvent } from '../live/session-types.ts';
import { createSimulatedLink, type SimulatedLink } from '../live/simulated-link.ts';
import type { Link } from '../serial/link.ts';
import { createRings, type Rings } from './rings.ts';

/** Where frames come from. */
export type Source =
  | { kind: 'simulator'; seed: number; speed: number }
  | { kind: 'port'; name: string; find: () => Promise<Link | undefined> }
  | { kind: 'recording'; name: string; clock: Clock; find: () => Promise<Link | undefined> };

/** Events kept for the list. */
const MOST_EVENTS = 200;

/** Settings that a rig without chosen ones is shown with: the study's own starting point. */
const FIRST_SETTINGS: Settings = {
  oversampling: 8,
  despike: { kind: 'clip', limitPct: 20 },
  lowPass: { kind: 'adaptive', restCutoffHz: 2, riseHz: 10 },
  hysteresis: { kind: 'still', widthPct: 0.6 },
};

/** Everything behind the views: the session, what it brought, and the simulator's world. */
export interface Engine {
  rig: Rig;
  rings: Rings;
  events: SessionEvent[];
  source(): Source | undefined;
  connect(source: Source): Promise<void>;
  session(): Session | undefined;
  health(): LinkHealth | undefined;
  /**
   * Waits on the time of the source: a recording or a simulator may run faster.
   * @param wantsStop is asked now and then; true ends the wait
   * @returns whether the wait was whole
   */
  wait(seconds: number, wantsStop?: () => boolean): Promise<boolean>;
  /** @returns a function that ends it */
  onFrame(listener: (frame: LiveFrame) => void): () => void;
  onEvent(listener: (event: SessionEvent) => void): () => void;
  /** Settings in use: chosen, tried, or the first. */
  settings(): Settings;
  /** Shows the live traces with other settings at once; only the simulator can. @returns whether it did */
  trySettings(settings: Settings): Promise<boolean>;
  /** Only for the simulator. */
  simulated: {
    faults(): readonly Fault[];
    setFaults(faults: readonly Fault[]): void;
    /** Plays a movement from its start. */
    move(motion: HandMotion, name: string): void;
    motionName(): string;
    /** True closure by slot; undefined without a simulator. */
    closures(): (number | undefined)[] | undefined;
    restart(): void;
  };
}

export function createEngine(given: Rig): Engine {
  const rig: Rig = { ...given, settings: given.settings ?? FIRST_SETTINGS };
  const rings = createRings(FINGER_NAMES.length);
  const events: SessionEvent[] = [];
  const frameListeners = new Set<(frame: LiveFrame) => void>();
  const eventListeners = new Set<(event: SessionEvent) => void>();
  let source: Source | undefined;
  let session: Session | undefined;
  let simulator: SimulatedLink | undefined;
  let faults: readonly Fault[] = [];
  let motion: HandMotion = puppetScene;
  let motionName = 'scene';
  let motionStartS = 0;
  let clock: Clock = realClock();

  function plan(): BoardPlan {
    return planOfRig(rig);
  }

  function take(frame: LiveFrame): void {
    if (frame.kind === 'hand' && frame.step >= 1) rings.push(frame);
    for (const listener of frameListeners) listener(frame);
  }

  function tell(event: SessionEvent): void {
    events.push(event);
    if (events.length > MOST_EVENTS) events.shift();
    for (const listener of eventListeners) listener(event);
  }

  function simulate(seed: number, clock: Clock): () => Promise<Link> {
    motionStartS = 0;
    simulator = createSimulatedLink(
      rig,
      plan(),
      {
        seed,
        draw: 1,
        faults,
        motion: (finger, timeS) => motion(finger, Math.max(0, timeS - motionStartS)),
      },
      clock,
    );
    const made = simulator;
    return async () => made;
  }

  async function connect(next: Source): Promise<void> {
    await session?.stop();
    rings.clear();
    simulator = undefined;
    source = next;
    clock = next.kind === 'recording' ? next.clock : realClock(next.kind === 'simulator' ? next.speed : 1);
    const find = next.kind === 'simulator' ? simulate(next.seed, clock) : next.find;
    const line = lineOfRig(rig);
    session = createSession({
      find,
      baud: line.baud,
      framePeriodS: line.framePeriodS,
      clock,
      onFrame: take,
      onEvent: tell,
      firstTag: crypto.getRandomValues(new Uint16Array(1))[0]! % 65_535,
      ...(next.kind === 'port' && { settingsId: line.settingsId }),
    });
    session.start();
  }

  return {
    rig,
    rings,
    events,
    source: () => source,
    connect,
    session: () => session,
    health: () => session?.health(),
    wait(seconds, wantsStop = () => false) {
      const mine = clock;
      const endS = mine.nowS() + seconds;
      return new Promise((resolve) => {
        const timer = setInterval(() => {
          const isWhole = mine.nowS() >= endS;
          // Another source has another time: what was waited for will not come.
          if (!isWhole && mine === clock && !wantsStop()) return;
          clearInterval(timer);
          resolve(isWhole);
        }, 10);
      });
    },
    onFrame(listener) {
      frameListeners.add(listener);
      return () => void frameListeners.delete(listener);
    },
    onEvent(listener) {
      eventListeners.add(listener);
      return () => void eventListeners.delete(listener);
    },
    settings: () => rig.settings!,
    async trySettings(settings) {
      if (source?.kind !== 'simulator') return false;
      rig.settings = settings;
      await connect(source);
      return true;
    },
    simulated: {
      faults: () => faults,
      setFaults(next) {
        faults = next;
        simulator?.device.setFaults(next);
      },
      move(next, name) {
        motion = next;
        motionName = name;
        motionStartS = simulator?.device.nowS() ?? 0;
      },
      motionName: () => motionName,
      closures() {
        if (!simulator) return undefined;
        const own = simulator.device.closures();
        return FINGER_NAMES.map((name) => {
          const i = rig.fingers.findIndex((finger) => finger.name === name);
          return i < 0 ? undefined : own[i];
        });
      },
      restart: () => simulator?.device.restart(),
    },
  };
}
