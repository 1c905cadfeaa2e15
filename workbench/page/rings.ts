import { INVALID_VALUE } from '../../protocol/frame.ts';
import type { LiveFrame } from '../live/session-types.ts';
import { travelOf } from '../live/travel.ts';

/** Frames kept for the charts: more than they show at the highest rate. */
const LENGTH = 4096;

/** The last frames, in bounded memory. */
export interface Rings {
  push(frame: LiveFrame): void;
  /** Times (s, newest last) and travel of a slot over the last stretch. */
  read(slot: number, lengthS: number): [times: number[], travel: (number | null)[]];
  /** Travel now; null = invalid or nothing yet. */
  latest(slot: number): number | null;
  latestS(): number;
  clear(): void;
}

export function createRings(slots: number): Rings {
  const times = new Float64Array(LENGTH);
  const words = Array.from({ length: slots }, () => new Uint16Array(LENGTH).fill(INVALID_VALUE));
  let count = 0;

  return {
    push(frame) {
      const at = count % LENGTH;
      // A board that starts anew begins at 0: what was before is another time.
      if (count > 0 && frame.deviceS < times[(count - 1) % LENGTH]! - 1) count = 0;
      times[count === 0 ? 0 : at] = frame.deviceS;
      words.forEach((row, slot) => {
        row[count === 0 ? 0 : at] = frame.values[slot] ?? INVALID_VALUE;
      });
      count++;
    },
    read(slot, lengthS) {
      const lastS = count > 0 ? times[(count - 1) % LENGTH]! : 0;
      const at: number[] = [];
      const travel: (number | null)[] = [];
      for (let i = Math.max(0, count - LENGTH); i < count; i++) {
        const timeS = times[i % LENGTH]!;
        if (timeS < lastS - lengthS) continue;
        // A gap of lost frames is a gap in the line.
        const before = at.at(-1);
        if (before !== undefined && timeS - before > 0.1) {
          at.push((timeS + before) / 2);
          travel.push(null);
        }
        at.push(timeS);
        travel.push(travelOf(words[slot]![i % LENGTH]!));
      }
      return [at, travel];
    },
    latest: (slot) => (count === 0 ? null : travelOf(words[slot]![(count - 1) % LENGTH]!)),
    latestS: () => (count === 0 ? 0 : times[(count - 1) % LENGTH]!),
    clear() {
      count = 0;
    },
  };
}
