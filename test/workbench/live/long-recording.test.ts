import { createHash } from 'node:crypto';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { describe, expect, it } from 'vitest';
import { virtualClock } from '../../../workbench/live/clock.ts';
import { createRecorder } from '../../../workbench/live/recorder.ts';
import { openRecordingOf } from '../../../workbench/live/recording.ts';
import { createSession } from '../../../workbench/live/session.ts';
import { createMemoryLink } from '../../../workbench/serial/memory-link.ts';
import { FACTS } from './recording-kit.ts';
import { createStreamingBoard } from './streaming-board.ts';

/** An hour, or two minutes of it. */
const LIVE_S = process.env.TAUTLINE_VERIFY === '1' ? 3600 : 120;
const RATE_HZ = 100;
const DROP_EVERY_S = 7;

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;

/** Memory that is really in use, bytes. */
function used(): number {
  collect();
  const { heapUsed, external, arrayBuffers } = process.memoryUsage();
  return heapUsed + external + arrayBuffers;
}

const turn = () => new Promise((resolve) => setImmediate(resolve));

describe(`${LIVE_S} s of five fingers at ${RATE_HZ} Hz, recorded over a link in memory`, () => {
  it('lose no line, count exactly, and leave memory flat within 10 MB', async () => {
    const clock = virtualClock();
    let send: (bytes: Uint8Array) => void = () => {};
    let swallowed = 0;
    let lines = 0;
    let recordedBytes = 0;
    const written = createHash('sha256');
    const expected = createHash('sha256');
    const session = createSession({
      find: async () =>
        createMemoryLink('MEM', (plug) => ({
          lines() {
            send = (bytes) => plug.send(bytes);
          },
          receive() {},
        })),
      baud: 115_200,
      framePeriodS: 1 / RATE_HZ,
      clock,
      firstTag: 0,
      onFrame(frame) {
        recorder.frame(frame);
        expected.update(`${frame.sequence},${frame.values.join(',')};`);
      },
      onEvent: (event) => recorder.event(event),
    });
    const recorder = createRecorder(
      FACTS,
      {
        append(text) {
          recordedBytes += text.length;
          for (const line of text.split('\n')) {
            const cells = line.split(',');
            if (cells.length !== 15 || cells[0] === 'device_s') continue;
            lines++;
            written.update(`${cells[4]},${cells.slice(6, 11).join(',')};`);
          }
        },
        async close() {},
      },
      clock,
    );
    const board = createStreamingBoard((bytes) => send(bytes), { rateHz: RATE_HZ, ppm: 35 });
    session.start();
    await turn();
    let nextDropS = DROP_EVERY_S;
    let early = 0;
    let most = 0;
    for (let step = 1; step <= LIVE_S * 50; step++) {
      clock.advance(step / 50);
      if (clock.nowS() >= nextDropS && clock.nowS() < LIVE_S - 1) {
        nextDropS += DROP_EVERY_S;
        board.drop = 3;
        swallowed += 3;
      }
      board.advance(clock.nowS());
      await turn();
      if (step % (LIVE_S * 5) !== 0) continue;
      const now = used();
      if (early === 0) early = now;
      most = Math.max(most, now);
    }
    clock.advance(LIVE_S + 0.01);
    await turn();
    await recorder.close();
    const health = session.health();
    await session.stop();

    const sent = board.sent();
    expect(sent + swallowed).toBeGreaterThan(LIVE_S * RATE_HZ - 5);
    expect(health).toMatchObject({
      frames: sent,
      framesGood: sent,
      lost: swallowed,
      duplicates: 0,
      reordered: 0,
      restarts: 0,
      falseSync: 0,
      garbageBytes: 0,
      bytesIn: 20 * sent,
      starts: 0,
    });
    expect(lines).toBe(sent);
    expect(recorder.counts().frames).toBe(sent);
    expect(written.digest('hex')).toBe(expected.digest('hex'));
    expect((most - early) / 1e6).toBeLessThan(10);
    expect(recordedBytes / sent).toBeLessThan(100);
  });

  it('are read back with memory flat within 10 MB', async () => {
    const count = LIVE_S * RATE_HZ;
    const bytes = (text: string) => new TextEncoder().encode(text);
    let header = '';
    await createRecorder(
      FACTS,
      {
        append(text) {
          header += text;
        },
        async close() {},
      },
      virtualClock(),
    ).close();
    const recording = await openRecordingOf('long.csv', async function* () {
      yield bytes(header);
      for (let n = 0; n < count; n += 500) {
        let block = '';
        for (let i = n; i < n + 500; i++) {
          block += `${(i / 100).toFixed(5)},${(i / 100).toFixed(6)},hand,left,${i & 255},1,1,2,3,4,${i % 65_536},128,128,0,0\n`;
        }
        yield bytes(block);
      }
    });
    let frames = 0;
    let early = 0;
    let most = 0;
    for await (const items of recording.items()) {
      frames += items.length;
      if (frames % (count / 10) >= 500) continue;
      const now = used();
      if (early === 0) early = now;
      most = Math.max(most, now);
    }
    expect(frames).toBe(count);
    expect(recording.warnings()).toEqual({ listed: [], more: 0 });
    expect((most - early) / 1e6).toBeLessThan(10);
  });
});
