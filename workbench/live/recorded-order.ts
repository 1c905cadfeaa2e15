import type { RecordedItem } from './recording-format.ts';

/** Host time of a frame is worked out anew every few seconds, so that it may step back a little, s. */
const MOST_BACK_S = 1;

/** Says of each item in turn whether it can stand where it stands. */
export interface OrderWatch {
  /** @returns undefined when it can; else what is wrong, and whether the line must be left out */
  see(item: RecordedItem): { seen: string; isLeftOut: boolean } | undefined;
}

export function createOrderWatch(): OrderWatch {
  let latestS = Number.NEGATIVE_INFINITY;
  let last: { sequence: number; deviceS: number } | undefined;

  function time(hostS: number): { seen: string; isLeftOut: boolean } | undefined {
    if (hostS < latestS - MOST_BACK_S) {
      return {
        seen: `the host time ${hostS.toFixed(3)} s after ${latestS.toFixed(3)} s`,
        isLeftOut: true,
      };
    }
    latestS = Math.max(latestS, hostS);
    return undefined;
  }

  return {
    see(item) {
      if ('event' in item) {
        const { kind, hostS } = item.event;
        // After these the row of numbers starts anew.
        if (kind === 'board-started' || kind === 'state' || kind.startsWith('port-')) last = undefined;
        return time(hostS);
      }
      const { sequence, step, hostS, deviceS } = item.frame;
      const wrongTime = time(hostS);
      if (wrongTime) return wrongTime;
      const before = last;
      if (step > 0) last = { sequence, deviceS };
      if (!before || deviceS < before.deviceS - MOST_BACK_S) return undefined;
      if ((((before.sequence + step - sequence) % 256) + 256) % 256 === 0) return undefined;
      return {
        seen: `sequence ${sequence} with a step of ${step} after sequence ${before.sequence}`,
        isLeftOut: false,
      };
    },
  };
}
