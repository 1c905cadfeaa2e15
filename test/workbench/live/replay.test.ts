import { describe, expect, it } from 'vitest';
import { virtualClock } from '../../../workbench/live/clock.ts';
import type { Recording } from '../../../workbench/live/recording.ts';
import type { RecordedItem } from '../../../workbench/live/recording-format.ts';
import { createReplay } from '../../../workbench/live/replay-link.ts';
import { replaySession } from '../../../workbench/live/replay-session.ts';
import { createSession } from '../../../workbench/live/session.ts';
import type { LiveFrame, SessionEvent } from '../../../workbench/live/session-types.ts';
import { asItems, FACTS, openText, plainFrames, recordedText } from './recording-kit.ts';
import { ascii, createTestPort, sessionRig } from './session-rig.ts';
import { createStreamingBoard, frameBytes } from './streaming-board.ts';

const ROM = 'ets Jul 29 2019 12:21:46\r\n\r\nrst:0x1 (POWERON_RESET),boot:0x13 (SPI_FAST_FLASH_BOOT)\r\n';
const turn = () => new Promise((resolve) => setImmediate(resolve));

/** A session whose frames and events are written down as they come. */
function recordedRig(find: Parameters<typeof sessionRig>[0]) {
  const items: RecordedItem[] = [];
  const rig = sessionRig(find, {
    onFrame: (frame) => items.push({ frame }),
    onEvent: (event) => items.push({ event }),
  });
  return { ...rig, items };
}

async function replayed(recording: Recording) {
  const frames: LiveFrame[] = [];
  const result = await replaySession({
    recording,
    speed: undefined,
    clock: virtualClock(),
    wantsStop: () => false,
    onFrame: (frame) => frames.push(frame),
  });
  return { ...result, frames };
}

const onWire = ({ hostS, ...wire }: LiveFrame) => wire;
const stories = (events: SessionEvent[]) =>
  events
    .filter(({ kind }) => kind !== 'state')
    .map(({ kind, seen }) => [kind, seen.replace(/^\S+ went/, 'It went')]);

describe('the replay of a recording', () => {
  it('gives the very frames that were recorded, at the recorded times', async () => {
    const port = createTestPort('A');
    const rig = recordedRig(() => port.link);
    const board = createStreamingBoard((bytes) => port.send(bytes), { ppm: 60 });
    rig.session.start();
    await rig.run(40, (nowS) => {
      if (nowS > 20 && nowS < 20.1) board.drop = 5;
      board.advance(nowS);
    });
    port.send(frameBytes(7, 100));
    const before = rig.items.flatMap((item) => ('frame' in item ? [item.frame] : []));
    const after = await replayed(await openText(await recordedText(rig.items)));
    expect(before.length).toBeGreaterThan(3900);
    expect(after.frames.map(onWire)).toEqual(before.map(onWire));
    expect(after.health).toMatchObject({
      lost: rig.session.health().lost,
      frames: before.length,
      falseSync: 0,
    });
    const shiftS = after.frames[1000]!.hostS - before[1000]!.hostS;
    after.frames.slice(0, -1).forEach((frame, i) => {
      expect(Math.abs(frame.hostS - before[i]!.hostS - shiftS)).toBeLessThan(0.02);
    });
  });

  it('tells the same story: starts, brown-outs, words, and a cable that came off', async () => {
    const ports = [createTestPort('/dev/ttyUSB0'), createTestPort('/dev/ttyUSB0')];
    let now: (typeof ports)[number] | undefined = ports[0];
    const rig = recordedRig(() => now?.link);
    const board = createStreamingBoard((bytes) => now?.send(bytes));
    const live = (toS: number) => rig.run(toS, (nowS) => board.advance(nowS));
    rig.session.start();
    await live(2);
    now!.send(ascii(`\r\nBrownout detector was triggered\r\n\r\n${ROM}one word\n`));
    board.restart(2, 0.4);
    await live(21);
    now!.send(ascii('\r\nrst:0xf (BROWNOUT_RST),boot:0xc (SPI_FAST_FLASH_BOOT)\r\n'));
    board.restart(21, 0.4);
    await live(24);
    now = undefined;
    ports[0]!.end('gone');
    await live(30);
    now = ports[1];
    await live(40);
    // A start that only the clock shows.
    board.restart(40, 0.3);
    await live(43);

    const after = await replayed(await openText(await recordedText(rig.items)));
    const before = rig.items.flatMap((item) => ('event' in item ? [item.event] : []));
    expect(stories(before).map(([kind]) => kind)).toEqual([
      'brown-out',
      'board-text',
      'board-started',
      'board-text',
      'brown-out',
      'board-started',
      'port-gone',
      'port-back',
      'board-started',
    ]);
    expect(stories(after.events)).toEqual(stories(before));
    const frames = rig.items.flatMap((item) => ('frame' in item ? [item.frame] : []));
    expect(after.frames.map(onWire)).toEqual(frames.map(onWire));
    const { starts, brownOuts, lost } = rig.session.health();
    expect(after.health).toMatchObject({ starts, brownOuts, lost });
    expect([starts, brownOuts]).toEqual([3, 2]);
    // The gap of the cable is as long as it was, but for the second in which the port is tried again.
    expect(after.playedS).toBeGreaterThan(41);
    expect(after.playedS).toBeLessThan(44);
  });

  it('opens its port anew where that was done without a word', async () => {
    const ports = [createTestPort('A'), createTestPort('A')];
    const rig = recordedRig(() => ports.find((port) => port.opened.length === 0)?.link);
    const board = createStreamingBoard((bytes) => ports.find((port) => port.isOpen())?.send(bytes));
    rig.session.start();
    await rig.run(20, (nowS) => board.advance(nowS));
    ports[0]!.end('closed');
    await rig.run(23, (nowS) => board.advance(nowS));
    const before = rig.items.flatMap((item) => ('frame' in item ? [item.frame] : []));
    // The round of 16.384 s begins anew with the port.
    expect(before.at(-1)!.deviceS).toBeLessThan(7);
    const after = await replayed(await openText(await recordedText(rig.items)));
    expect(after.frames.map(onWire)).toEqual(before.map(onWire));
    expect(after.health).toMatchObject({ starts: 0, lost: rig.session.health().lost });
  });

  it('can be recorded again, and nothing has changed', async () => {
    const first = await openText(await recordedText(asItems(plainFrames(500))));
    const items: RecordedItem[] = [];
    const { frames } = await replayed(first);
    for (const frame of frames) items.push({ frame });
    const { frames: again } = await replayed(await openText(await recordedText(items)));
    expect(again.map(onWire)).toEqual(plainFrames(500).map(onWire));
  });
});

describe('playing', () => {
  async function player(count = 3000) {
    const outer = virtualClock();
    const recording = await openText(await recordedText(asItems(plainFrames(count)), FACTS));
    const troubles: unknown[] = [];
    const replay = createReplay(recording, outer, (error) => troubles.push(error));
    const frames: LiveFrame[] = [];
    const session = createSession({
      find: replay.find,
      baud: 115_200,
      framePeriodS: 0.01,
      clock: replay.clock,
      firstTag: 0,
      onFrame: (frame) => frames.push(frame),
      onEvent: () => {},
    });
    session.start();
    async function pass(seconds: number): Promise<void> {
      const endS = outer.nowS() + seconds;
      while (outer.nowS() < endS - 1e-9) {
        outer.advance(outer.nowS() + 0.02);
        await turn();
        await turn();
      }
    }
    return { replay, session, frames, pass, troubles };
  }

  it.each([0.5, 1, 4, 20])(
    'at a speed of %d takes its time by it, with the session none the wiser',
    async (speed) => {
      const { replay, session, frames, pass } = await player();
      replay.setSpeed(speed);
      replay.play();
      await pass(1);
      const played = frames.length;
      expect(played / (100 * speed)).toBeGreaterThan(0.85);
      expect(played / (100 * speed)).toBeLessThan(1.05);
      expect(session.health()).toMatchObject({ lost: 0, state: 'streaming', isStale: false });
      expect(frames.every((frame, i) => frame.sequence === (i & 255))).toBe(true);
      await replay.stop();
    },
  );

  it('pauses, and the pose does not grow stale: recorded time stands still', async () => {
    const { replay, session, frames, pass } = await player();
    replay.play();
    await pass(1);
    replay.pause();
    await pass(0.1);
    const [paused, positionS] = [frames.length, replay.positionS()];
    await pass(5);
    expect(frames.length).toBe(paused);
    expect(replay.positionS()).toBe(positionS);
    expect(session.health()).toMatchObject({ isStale: false, state: 'streaming' });
    replay.play();
    await pass(1);
    expect(frames.length).toBeGreaterThan(paused + 90);
    expect(session.health().lost).toBe(0);
    await replay.stop();
  });

  it.each([
    ['forward', 15],
    ['back', 0.5],
    ['to the start', 0],
  ])('seeks %s, counting nothing as lost and no start', async (_where, toS) => {
    const { replay, session, frames, pass } = await player();
    replay.play();
    await pass(3);
    const before = frames.length;
    await replay.seek(toS);
    await pass(1);
    const next = frames[before]!;
    expect(next.deviceS).toBeCloseTo(0.002 + toS, 6);
    expect(next.sequence).toBe(Math.round(toS * 100) & 255);
    expect(session.health()).toMatchObject({ lost: 0, starts: 0, restarts: 0, duplicates: 0 });
    expect(frames.length).toBeGreaterThan(before + 80);
    expect(replay.positionS()).toBeGreaterThan(toS + 0.8);
    expect(replay.positionS()).toBeLessThan(toS + 1.1);
    await replay.stop();
  });

  it('shows the frame of the place that was sought while it is paused', async () => {
    const { replay, frames, pass } = await player();
    replay.play();
    await pass(1);
    replay.pause();
    await pass(0.1);
    const before = frames.length;
    await replay.seek(12);
    expect(frames.length).toBe(before + 1);
    expect(frames.at(-1)!.sequence).toBe(1200 & 255);
    await pass(2);
    expect(frames.length).toBe(before + 1);
    expect(replay.positionS()).toBeCloseTo(12, 2);
    replay.play();
    await pass(0.5);
    expect(frames.length).toBeGreaterThan(before + 40);
    await replay.stop();
  });

  it('ends at the end, and can be played again from a place before it', async () => {
    const { replay, frames, pass } = await player(300);
    replay.play();
    await pass(5);
    expect(replay.isAtEnd()).toBe(true);
    expect(replay.isPlaying()).toBe(false);
    expect(frames.length).toBe(300);
    await replay.seek(0);
    replay.play();
    await pass(5);
    // The first one was shown by the seeking.
    expect(frames.length).toBe(600);
    await replay.stop();
  });

  it('a place behind the end is the end', async () => {
    const { replay, session, pass, troubles } = await player(100);
    replay.play();
    await pass(0.3);
    await replay.seek(1e6);
    replay.play();
    await pass(3);
    expect(replay.isAtEnd()).toBe(true);
    expect(troubles).toEqual([]);
    expect(session.health().lost).toBe(0);
    await replay.stop();
  });

  it('tells a recording that cannot be read on', async () => {
    const outer = virtualClock();
    const text = await recordedText(asItems(plainFrames(300)));
    const recording = await openText(text.replace(/(\n.*){100}$/, (end) => end.replaceAll('hand', 'x')));
    const troubles: unknown[] = [];
    const replay = createReplay(recording, outer, (error) => troubles.push(error));
    const session = createSession({
      find: replay.find,
      baud: 115_200,
      framePeriodS: 0.01,
      clock: replay.clock,
      firstTag: 0,
      onFrame: () => {},
      onEvent: () => {},
    });
    session.start();
    await replay.runToEnd();
    expect(troubles).toMatchObject([{ code: 'recording/invalid' }]);
    expect(replay.isAtEnd()).toBe(true);
  });

  it('refuses a speed of nothing', async () => {
    const { replay } = await player(10);
    for (const speed of [0, -1, Number.NaN]) expect(() => replay.setSpeed(speed)).toThrow(/more than 0/);
    await replay.stop();
  });
});
