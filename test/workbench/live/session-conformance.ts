import { describe, expect, it } from 'vitest';
import { COMMAND_VERSION } from '../../../protocol/commands.ts';
import { createSession } from '../../../workbench/live/session.ts';
import type { Clock, LiveFrame, SessionEvent } from '../../../workbench/live/session-types.ts';
import type { Link } from '../../../workbench/serial/link.ts';

/** A board on some kind of link, as the suite needs it. */
export interface ConformanceRig {
  find: () => Promise<Link | undefined>;
  clock: Clock;
  framePeriodS: number;
  /** Lets so much time pass on the clock, with turns for everything that waits. */
  pass(seconds: number): Promise<void>;
  /** Whether the board answers commands; a recording does not. */
  answers: boolean;
  /** Pulls the cable; undefined where the kind has none. */
  pull?: () => void;
  /** Plugs it in again, perhaps under another name. */
  plug?: () => Promise<void> | void;
  /** Whether other tests may load the machine, so that rates are not to be trusted. */
  isRealTime: boolean;
  tidy(): Promise<void>;
}

/**
 * What a session does over every kind of link: memory, a port of the system, a recording, the simulator.
 * @param makeRig a board that streams, from the moment that its port is opened on, for 20 s at least
 */
export function sessionConformance(name: string, makeRig: () => Promise<ConformanceRig>): void {
  async function begin() {
    const rig = await makeRig();
    const frames: LiveFrame[] = [];
    const events: SessionEvent[] = [];
    const session = createSession({
      find: rig.find,
      baud: 115_200,
      framePeriodS: rig.framePeriodS,
      clock: rig.clock,
      firstTag: 40_000,
      onFrame: (frame) => frames.push(frame),
      onEvent: (event) => events.push(event),
    });
    const told = (kind: SessionEvent['kind']) => events.filter((event) => event.kind === kind);
    async function until(what: () => boolean, limitS = 8): Promise<void> {
      const endS = rig.clock.nowS() + limitS;
      while (!what() && rig.clock.nowS() < endS) await rig.pass(0.05);
      expect(what()).toBe(true);
    }
    async function end(): Promise<void> {
      await session.stop();
      await rig.tidy();
    }
    return { rig, frames, events, session, told, until, end };
  }

  describe(`a session over ${name}`, () => {
    it('goes through looking, opening, listening and streaming, and ends closed', async () => {
      const { session, events, until, end } = await begin();
      session.start();
      await until(() => session.state() === 'streaming');
      await end();
      expect(session.state()).toBe('closed');
      const states = events.filter(({ kind }) => kind === 'state').map(({ seen }) => seen);
      expect(states).toEqual(['looking', 'opening', 'listening', 'streaming', 'closed']);
    });

    it('hands on whole frames in order, none lost, none invented', async () => {
      const { rig, session, frames, until, end } = await begin();
      session.start();
      await until(() => frames.length > 0);
      await rig.pass(2);
      const health = session.health();
      const seen = frames.length;
      await end();
      expect(seen).toBeGreaterThan(rig.isRealTime ? 20 : (1.8 * 1) / rig.framePeriodS);
      expect(health).toMatchObject({
        frames: seen,
        framesGood: seen,
        lost: 0,
        duplicates: 0,
        reordered: 0,
        falseSync: 0,
      });
      frames.forEach((frame, i) => {
        expect(frame.values).toHaveLength(5);
        if (i === 0) return;
        const before = frames[i - 1]!;
        expect(frame.step).toBe(1);
        expect(frame.sequence).toBe((before.sequence + 1) & 255);
        expect(frame.deviceS).toBeGreaterThanOrEqual(before.deviceS);
        expect(frame.hostS).toBeGreaterThanOrEqual(before.hostS);
      });
      expect(new Set(frames.map(({ side }) => side)).size).toBe(1);
    });

    it('maps the board’s time to the host’s: as much passes on both', async () => {
      const { rig, session, frames, until, end } = await begin();
      session.start();
      await until(() => frames.length > 0);
      await rig.pass(3);
      await end();
      const [first, last] = [frames[0]!, frames.at(-1)!];
      const deviceS = last.deviceS - first.deviceS;
      expect(deviceS).toBeGreaterThan(rig.isRealTime ? 0.5 : 2.5);
      expect(Math.abs(last.hostS - first.hostS - deviceS)).toBeLessThan(rig.isRealTime ? 0.3 : 0.02);
      expect(last.hostS).toBeLessThanOrEqual(rig.clock.nowS());
    });

    it('has a health that is fresh while frames come', async () => {
      const { rig, session, frames, until, end } = await begin();
      expect(session.health()).toMatchObject({ isStale: true, rateHz: 0, frames: 0, state: 'closed' });
      session.start();
      await until(() => frames.length > 20);
      await rig.pass(0.5);
      const health = session.health();
      await end();
      expect(health).toMatchObject({ isStale: false, state: 'streaming' });
      expect(health.portName).not.toBe('');
      if (!rig.isRealTime) {
        expect(health.rateHz * rig.framePeriodS).toBeGreaterThan(0.8);
        expect(health.rateHz * rig.framePeriodS).toBeLessThan(1.2);
      }
    });

    it('gets an answer to a command, or is told that none came', async () => {
      const { rig, session, frames, until, end } = await begin();
      await expect(session.command(COMMAND_VERSION, 0, 0, 0)).rejects.toMatchObject({
        code: 'live/not-open',
      });
      session.start();
      await until(() => frames.length > 0);
      let result: number | undefined;
      void session.command(COMMAND_VERSION, 0, 0, 0).then((outcome) => {
        result = outcome.result;
      });
      await until(() => result !== undefined);
      await end();
      expect(result).toBe(rig.answers ? 0 : -1);
    });

    it('goes on after the cable was pulled and put back', async (context) => {
      const { rig, session, frames, told, until, end } = await begin();
      if (!rig.pull || !rig.plug) {
        await end();
        context.skip('this kind of link has no cable');
        return;
      }
      session.start();
      await until(() => frames.length > 20);
      rig.pull();
      await until(() => session.state() === 'looking');
      expect(told('port-gone')).toHaveLength(1);
      expect(session.health().rateHz).toBe(0);
      await rig.plug();
      const before = frames.length;
      await until(() => frames.length > before + 20);
      expect(told('port-back')).toHaveLength(1);
      expect(session.health()).toMatchObject({ state: 'streaming', lost: 0 });
      expect(frames[before]!.step).toBe(1);
      await end();
    });

    it('hears nothing any more once it was stopped', async () => {
      const { rig, session, frames, until, end } = await begin();
      session.start();
      await until(() => frames.length > 5);
      await session.stop();
      const before = frames.length;
      await rig.pass(0.5);
      expect(frames.length).toBe(before);
      await end();
    });
  });
}
