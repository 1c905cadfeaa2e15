import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { newFingerState, putWord, startFinger, stepFinger } from '../../../firmware/chain/finger.ts';
import { prepare } from '../../../firmware/chain/prepare.ts';
import { evenly } from '../../sim/evenly.ts';
import { anySettings } from '../../sim/study/any-settings.ts';

const RUNS = process.env.TAUTLINE_VERIFY === '1' ? 20_000 : 400;
const FULL_SCALE = 4095 / 4096;

/** Ends at least 40 counts apart, either way round. */
const anyEnds = fc
  .tuple(evenly(0, 0.99), evenly(0.0098, 1), fc.boolean())
  .map(([low, span, turned]) => {
    const high = Math.min(1, low + span);
    return turned ? { open: high, closed: low } : { open: low, closed: high };
  })
  .filter(({ open, closed }) => Math.abs(open - closed) >= 40 / 4096);

const code = fc.oneof(fc.constantFrom(0, 4095), fc.integer({ min: 0, max: 4095 }));

describe('words of a finger', () => {
  // Full scale wrapped round to the other end in moonlight-stream/moonlight-embedded#354.
  it('never wrap: whatever is read, the stored word lies between those of the readings seen so far', () => {
    fc.assert(
      fc.property(
        anySettings,
        anyEnds,
        fc.array(code, { minLength: 1, maxLength: 25 }),
        (settings, ends, codes) => {
          const constants = prepare(settings, 0.01, ends);
          const n = settings.oversampling;
          /** The word that a reading asks for, by the frame's definition: 6553 at the open end, 58982 at the closed one. */
          const asked = (x: number) =>
            Math.min(65534, Math.max(0, 6553 + ((x - ends.open) / (ends.closed - ends.open)) * 52429));
          const state = newFingerState();
          const store = new Uint16Array(1);
          let low = Number.POSITIVE_INFINITY;
          let high = Number.NEGATIVE_INFINITY;
          codes.forEach((c, f) => {
            const x = c / 4096;
            low = Math.min(low, asked(x));
            high = Math.max(high, asked(x));
            if (f === 0) startFinger(state, n * x);
            else stepFinger(state, n * x, constants);
            putWord(store, 0, state, constants);
            expect(store[0]).toBeGreaterThanOrEqual(low - 0.51);
            expect(store[0]).toBeLessThanOrEqual(high + 0.51);
          });
        },
      ),
      { numRuns: RUNS },
    );
  });

  it('rise or fall with the reading over the whole scale, and never say "no valid value" (65535)', () => {
    fc.assert(
      fc.property(anySettings, anyEnds, (settings, ends) => {
        const constants = prepare(settings, 0.01, ends);
        const store = new Uint16Array(1);
        let before = ends.closed > ends.open ? 0 : 65534;
        for (let i = 0; i <= 64; i++) {
          const state = newFingerState();
          startFinger(state, (settings.oversampling * FULL_SCALE * i) / 64);
          putWord(store, 0, state, constants);
          expect(store[0]).toBeLessThan(65535);
          if (ends.closed > ends.open) expect(store[0]).toBeGreaterThanOrEqual(before);
          else expect(store[0]).toBeLessThanOrEqual(before);
          before = store[0];
        }
      }),
      { numRuns: RUNS / 4 },
    );
  });
});
