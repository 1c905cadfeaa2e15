import { TautlineError } from '../../sim/errors.ts';
import { eventLine, frameLine, headerText, type RecordingFacts } from './recording-format.ts';
import type { Clock, LiveFrame, SessionEvent } from './session-types.ts';

/** A line waits no longer than this before it is handed on, s ... */
const BLOCK_S = 0.5;
/** ... and no more than so many characters wait. */
const BLOCK_CHARACTERS = 65_536;

/** Where the text of a recording goes. */
export interface RecordingSink {
  /**
   * Puts whole lines behind those before.
   * @throws whatever the store says, a full disk for instance
   */
  append(lines: string): void;
  /** Nothing follows. */
  close(): Promise<void>;
}

export interface Recorder {
  frame(frame: LiveFrame): void;
  event(event: SessionEvent): void;
  /** Frames and events taken so far. */
  counts(): { frames: number; events: number };
  /** Why it stopped before it was told to; undefined while all is well. */
  trouble(): TautlineError | undefined;
  /** Writes what waits and ends the recording. */
  close(): Promise<void>;
}

/**
 * Writes frames and events down as they come, in blocks of whole lines that wait for half a second at most. Holds
 * nothing else, so that a recording may be as long as the disk has room.
 * @param onTrouble is called once, when the store takes no more; the recorder takes nothing from then on
 */
export function createRecorder(
  facts: RecordingFacts,
  sink: RecordingSink,
  clock: Clock,
  onTrouble: (error: TautlineError) => void = () => {},
): Recorder {
  let waiting = headerText(facts);
  let frames = 0;
  let events = 0;
  let isOver = false;
  let trouble: TautlineError | undefined;
  const stop = clock.every(BLOCK_S, flush);
  flush();

  function flush(): void {
    if (waiting === '' || trouble) return;
    const block = waiting;
    waiting = '';
    try {
      sink.append(block);
    } catch (cause) {
      trouble =
        cause instanceof TautlineError
          ? cause
          : new TautlineError('output/not-written', 'The recording could not be written on.', {
              detail: `${cause instanceof Error ? cause.message : String(cause)}. Check that the disk has room; what was written before can be read.`,
              cause,
            });
      onTrouble(trouble);
    }
  }

  function put(line: string): void {
    waiting += line;
    if (waiting.length >= BLOCK_CHARACTERS) flush();
  }

  return {
    frame(frame) {
      if (isOver || trouble) return;
      frames++;
      put(frameLine(frame));
    },
    event(event) {
      if (isOver || trouble) return;
      events++;
      put(eventLine(event));
    },
    counts: () => ({ frames, events }),
    trouble: () => trouble,
    async close() {
      if (isOver) return;
      isOver = true;
      stop();
      flush();
      await sink.close();
    },
  };
}
