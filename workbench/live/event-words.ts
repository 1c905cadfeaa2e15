import { plainText } from '../report/escape.ts';
import type { SessionEvent } from './session-types.ts';

const STATES: Record<string, string> = {
  looking: 'Looking for the port.',
  opening: 'Opening the port.',
  listening: 'The port is open; waiting for frames.',
  streaming: 'Frames come.',
  silent: 'No frames any more: the pose is stale.',
  closed: 'Closed.',
};

/** One event as a line for people: when, what, and what to do. */
export function eventWords(event: SessionEvent, startS: number): string {
  const what = event.kind === 'state' ? (STATES[event.seen] ?? event.seen) : event.seen;
  const next = event.next === '' ? '' : ` ${event.next}`;
  return plainText(`${(event.hostS - startS).toFixed(1).padStart(7)} s  ${what}${next}`);
}
