import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openStream } from '../../../sim/seed/stream.ts';
import { virtualClock } from '../../../workbench/live/clock.ts';
import { createSession } from '../../../workbench/live/session.ts';
import type { LiveFrame } from '../../../workbench/live/session-types.ts';
import {
  allItems,
  asItems,
  eventsOf,
  framesOf,
  openText,
  plainFrames,
  recordedText,
} from './recording-kit.ts';
import { ascii, createTestPort, sessionRig } from './session-rig.ts';
import { frameBytes } from './streaming-board.ts';

const LONG = process.env.TAUTLINE_VERIFY === '1';
const RUNS = LONG ? 2000 : 100;

/** What a session makes of chunks that all come within one moment. */
async function framesFrom(chunks: Uint8Array[]) {
  const port = createTestPort('A');
  const rig = sessionRig(() => port.link);
  rig.session.start();
  await rig.run(0.1);
  for (const chunk of chunks) port.send(chunk);
  const { lost, framesGood, bytesIn } = rig.session.health();
  return {
    frames: rig.frames,
    starts: rig.told('board-started').length,
    counters: { lost, framesGood, bytesIn },
  };
}

function cut(bytes: Uint8Array, sizes: number[]): Uint8Array[] {
  const chunks: Uint8Array[] = [];
  for (let at = 0, i = 0; at < bytes.length; i++) {
    const size = sizes[i % sizes.length]!;
    chunks.push(bytes.slice(at, at + size));
    at += size;
  }
  return chunks;
}

describe('a session', () => {
  it('gives the same frames and events however the bytes are cut and joined', async () => {
    const part = fc.oneof(
      { weight: 8, arbitrary: fc.constant('frame' as const) },
      fc.constantFrom('text\r\n', 'rst:0x1 (POWERON_RESET)\r\n', '\x06', '\xf5', '\xf5\xf5\x00'),
    );
    await fc.assert(
      fc.asyncProperty(
        fc.array(part, { minLength: 1, maxLength: 60 }),
        fc.array(fc.integer({ min: 1, max: 70 }), { minLength: 1, maxLength: 30 }),
        async (parts, sizes) => {
          let n = 0;
          const bytes = Uint8Array.from(
            parts.flatMap((one) => {
              if (one !== 'frame') return [...ascii(one)];
              n++;
              return [...frameBytes(n, n * 40)];
            }),
          );
          const whole = await framesFrom([bytes]);
          expect(whole.counters.framesGood).toBe(n);
          expect(await framesFrom(cut(bytes, sizes))).toEqual(whole);
        },
      ),
      { numRuns: RUNS },
    );
  });

  it('survives 10 MB of random bytes, and hands out no more frames than chance makes', async () => {
    const TOTAL = LONG ? 100_000_000 : 10_000_000;
    const random = openStream([11, 20]);
    const clock = virtualClock();
    const port = createTestPort('A');
    let frames = 0;
    let events = 0;
    const session = createSession({
      find: async () => port.link,
      baud: 115_200,
      framePeriodS: 0.01,
      clock,
      firstTag: 0,
      onFrame: () => frames++,
      onEvent: () => events++,
    });
    session.start();
    await Promise.resolve();
    clock.advance(0.1);
    for (let i = 0; i < 20; i++) await Promise.resolve();
    // One block of random words, turned over with another number each time: quick, and as random.
    const words = Uint32Array.from({ length: 25_000 }, () => Math.floor(random.uniform() * 4294967296));
    const bytes = new Uint8Array(words.buffer);
    for (let sent = 0; sent < TOTAL; sent += bytes.length) {
      const key = Math.floor(random.uniform() * 4294967296);
      for (let i = 0; i < words.length; i++) {
        let word = words[i]! ^ key;
        word ^= word << 13;
        word ^= word >>> 17;
        words[i] = word ^ (word << 5);
      }
      port.send(bytes);
      clock.advance(clock.nowS() + 0.1);
    }
    expect(session.health().bytesIn).toBe(TOTAL);
    // SPEC.md: 60 right checks in 10^9 random bytes, half of them with a known kind: 0.3 in 10 MB. More than 5 come
    // once in 10^6 times (Poisson).
    expect(frames).toBeLessThanOrEqual(LONG ? 15 : 5);
    expect(events).toBeLessThan(100 + (TOTAL / 100_000) * 2);
    expect(session.health().garbageBytes).toBeGreaterThan(0.5 * TOTAL);
  });
});

const frame: fc.Arbitrary<LiveFrame> = fc.record({
  kind: fc.constantFrom('hand', 'raw', 'health', 'reply'),
  side: fc.constantFrom('left', 'right'),
  sequence: fc.nat(255),
  step: fc.integer({ min: -100, max: 100_000 }),
  deviceS: fc.nat(4_000_000_000).map((steps) => steps / 4000),
  hostS: fc.nat(1_000_000).map((us) => Number((1000 + us / 1e6).toFixed(6))),
  values: fc.array(fc.nat(65_535), { minLength: 5, maxLength: 5 }),
  joystick: fc.tuple(fc.nat(255), fc.nat(255)),
  buttons: fc.nat(15),
  status: fc.nat(255),
});
const event = fc.record({
  hostS: fc.nat(1_000_000).map((us) => Number((1000 + us / 1e6).toFixed(6))),
  kind: fc.constantFrom('port-gone', 'board-text', 'brown-out', 'state'),
  seen: fc.string({ unit: 'binary', maxLength: 60 }),
  next: fc.string({ unit: 'grapheme', maxLength: 60 }),
});

describe('a recording', () => {
  it('gives back any frame and any event exactly', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(fc.oneof(frame, event), { maxLength: 30 }), async (list) => {
        const items = list.map((one) => ('seen' in one ? { event: one } : { frame: one }));
        const back = await allItems(await openText(await recordedText(items), 97));
        expect(back).toEqual(items);
      }),
      { numRuns: RUNS },
    );
  });

  it('that was damaged anywhere is read or refused with words, never worse', async () => {
    const whole = new TextEncoder().encode(await recordedText(asItems(plainFrames(60))));
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.tuple(fc.nat(whole.length - 1), fc.nat(255)), { minLength: 1, maxLength: 8 }),
        fc.nat(whole.length),
        async (damage, end) => {
          const bytes = whole.slice(0, end);
          for (const [at, byte] of damage) if (at < end) bytes[at] = byte;
          try {
            const recording = await openText(bytes, 333);
            const items = await allItems(recording);
            const kept = framesOf(items).length + eventsOf(items).length;
            expect(kept).toBeLessThanOrEqual(60 + damage.length);
            for (const { values, sequence } of framesOf(items)) {
              expect(sequence >= 0 && sequence <= 255 && values.every((v) => v >= 0 && v <= 65_535)).toBe(
                true,
              );
            }
          } catch (error) {
            expect(error).toMatchObject({
              name: 'TautlineError',
              code: expect.stringMatching(/^recording\//),
            });
          }
        },
      ),
      { numRuns: 3 * RUNS },
    );
  });
});
