/** Host only. The whole receiving end of a link: bytes in, frames with device time and place in the row out. */
import { createDeviceClock } from './device-clock.ts';
import type { Frame } from './frame.ts';
import { createLossCounter, type LossCounters } from './loss.ts';
import { createReassembler, type StreamCounters } from './reassemble.ts';

export type ReceiveCounters = StreamCounters & LossCounters;

/**
 * @param frame is overwritten by the next frame: copy what is to be kept
 * @param deviceS unwrapped device time, s
 * @param step 1 = next, n > 1 = n - 1 lost before it, 0 = duplicate, negative = late
 */
export type FrameListener = (frame: Frame, deviceS: number, step: number) => void;

export interface Receiver {
  /** @param arrivalS when the chunk came in, on a host clock that never goes back, s */
  push(chunk: Uint8Array, arrivalS: number): void;
  /** The stream is over or silent; see Reassembler. */
  end(): void;
  /** The device was started anew or the port opened again: the next frame is a first one; counts stay. */
  restart(): void;
  /** A copy of the counts so far. */
  counters(): ReceiveCounters;
}

/**
 * @param framePeriodS time between two frames of the board, s; > 0
 * @param onStray is called for each byte that belongs to no frame: console text, acknowledge bytes
 */
export function createReceiver(
  framePeriodS: number,
  onFrame: FrameListener,
  onStray?: (byte: number) => void,
): Receiver {
  const clock = createDeviceClock();
  const loss = createLossCounter(framePeriodS);
  let chunkArrivalS = 0;
  const stream = createReassembler((frame) => {
    const deviceS = clock.unwrap(frame.timeSteps, chunkArrivalS);
    onFrame(frame, deviceS, loss.arrive(frame.sequence, deviceS));
  }, onStray);

  return {
    push(chunk, arrivalS) {
      chunkArrivalS = arrivalS;
      stream.push(chunk);
    },
    end: stream.end,
    restart() {
      stream.end();
      clock.reset();
      loss.restart();
    },
    counters() {
      const bytes = stream.counters();
      const { lost, duplicates, reordered, restarts } = loss.counters;
      return { ...bytes, lost, duplicates, reordered, restarts };
    },
  };
}
