import { virtualClock } from '../../../workbench/live/clock.ts';
import { createRecorder } from '../../../workbench/live/recorder.ts';
import { openRecordingOf, type Recording } from '../../../workbench/live/recording.ts';
import type { RecordedItem, RecordingFacts } from '../../../workbench/live/recording-format.ts';
import type { LiveFrame, SessionEvent } from '../../../workbench/live/session-types.ts';

export const FACTS: RecordingFacts = {
  rigName: 'Puppet, right hand',
  rigFile: 'hands/puppet "right".yaml',
  settingsId: 0xfedcba98,
  programId: 36,
  framePeriodS: 0.01,
  started: '2026-11-25T10:00:00.000Z',
  version: '0.1.0',
  isSimulated: false,
};

/** A row of frames as a session gives them. */
export function plainFrames(count: number, fromS = 0): LiveFrame[] {
  return Array.from({ length: count }, (_, n) => ({
    kind: 'hand' as const,
    side: 'right' as const,
    sequence: n & 255,
    step: 1,
    deviceS: (8 + n * 40) / 4000,
    hostS: Number((fromS + 0.5 + n * 0.01).toFixed(6)),
    values: [6553, n % 65_536, 30_000, 65_535, 0],
    joystick: [128, n & 255] as const,
    buttons: n & 15,
    status: 8,
  }));
}

/** What a recorder makes of frames and events. */
export async function recordedText(items: RecordedItem[], facts: RecordingFacts = FACTS): Promise<string> {
  let text = '';
  const recorder = createRecorder(
    facts,
    {
      append(lines) {
        text += lines;
      },
      async close() {},
    },
    virtualClock(),
  );
  for (const item of items) {
    if ('frame' in item) recorder.frame(item.frame);
    else recorder.event(item.event);
  }
  await recorder.close();
  return text;
}

/** @param chunkBytes how the file is cut when read */
export function openText(text: string | Uint8Array, chunkBytes = 1000): Promise<Recording> {
  const bytes = typeof text === 'string' ? new TextEncoder().encode(text) : text;
  return openRecordingOf('R.csv', async function* () {
    for (let at = 0; at < bytes.length; at += chunkBytes) yield bytes.slice(at, at + chunkBytes);
  });
}

export async function allItems(recording: Recording): Promise<RecordedItem[]> {
  const all: RecordedItem[] = [];
  for await (const items of recording.items()) all.push(...items);
  return all;
}

export const framesOf = (items: RecordedItem[]): LiveFrame[] =>
  items.flatMap((item) => ('frame' in item ? [item.frame] : []));
export const eventsOf = (items: RecordedItem[]): SessionEvent[] =>
  items.flatMap((item) => ('event' in item ? [item.event] : []));
export const asItems = (frames: LiveFrame[]): RecordedItem[] => frames.map((frame) => ({ frame }));
