import type { Problem } from '../../sim/errors.ts';
import type { RecordedItem, RecordingFacts } from './recording-format.ts';
import { createRecordingParser, type RecordingParser } from './recording-parser.ts';

/** A recording that can be read from its start as often as wanted, a piece at a time. */
export interface Recording {
  /** Name that the user knows it by. */
  file: string;
  facts: RecordingFacts;
  /** Frames and events, in blocks. @throws TautlineError `recording/...` where the file cannot be read on */
  items(): AsyncGenerator<RecordedItem[]>;
  /** What was repaired or left out so far, and how many warnings more than are listed. */
  warnings(): { listed: Problem[]; more: number };
}

/** The bytes of a file from its start, in pieces of any size. */
export type FileChunks = () => AsyncIterable<Uint8Array>;

/**
 * Opens a recording: reads its header.
 * @throws TautlineError `recording/...` for a file that is no recording of ours
 */
export async function openRecordingOf(file: string, chunks: FileChunks): Promise<Recording> {
  let parser: RecordingParser = createRecordingParser(file);

  async function* items(): AsyncGenerator<RecordedItem[]> {
    const own = createRecordingParser(file);
    parser = own;
    const decoder = new TextDecoder('utf-8', { ignoreBOM: true });
    for await (const bytes of chunks()) {
      const found = own.push(decoder.decode(bytes, { stream: true }));
      if (found.length > 0) yield found;
    }
    const last = [...own.push(decoder.decode()), ...own.end()];
    if (last.length > 0) yield last;
  }

  // Until the first items, or to the end of a file without any.
  const first = items();
  await first.next();
  await first.return(undefined);
  const facts = parser.facts()!;
  return {
    file,
    facts,
    items,
    warnings: () => ({ listed: parser.warnings(), more: parser.moreWarnings() }),
  };
}
