import type { SessionState } from '../live/session-types.ts';

export const STATE_WORDS: Record<SessionState, string> = {
  closed: 'not connected',
  looking: 'looking for the board',
  opening: 'opening the port',
  listening: 'port open, no frames yet',
  streaming: 'frames come',
  silent: 'silent: the pose is stale',
};

export function percent(travel: number | null): string {
  return travel === null ? '–' : `${(100 * travel).toFixed(1)} %`;
}
