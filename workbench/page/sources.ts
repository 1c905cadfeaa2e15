import { TautlineError } from '../../sim/errors.ts';
import { realClock } from '../live/clock.ts';
import { openRecordingOf } from '../live/recording.ts';
import { createReplay } from '../live/replay-link.ts';
import type { Source } from './engine.ts';
import type { ServerConnection } from './server-connection.ts';
import { createWebSerialLink } from './web-serial-link.ts';

/** Bytes of a recording that the page keeps at most. */
const MOST_BYTES = 64 * 1024 * 1024;

/** A port of the server's machine. */
export function portSource(server: ServerConnection, path: string): Source {
  return {
    kind: 'port',
    name: path,
    async find() {
      const { ports = [], trouble = '' } = await server.ask({ do: 'ports' });
      // Where ports cannot be listed they can be opened all the same.
      return trouble !== '' || ports.some((port) => port.path === path) ? server.link(path) : undefined;
    },
  };
}

/** A port that the user picks in the browser. @throws when nothing was picked */
export async function webSerialSource(): Promise<Source> {
  const port = await navigator.serial.requestPort();
  return { kind: 'port', name: 'port of the browser', find: async () => createWebSerialLink(port) };
}

/** A recording, played as it came. */
export async function recordingSource(
  name: string,
  bytes: Uint8Array,
  say: (text: string) => void,
): Promise<Source> {
  if (bytes.length > MOST_BYTES) {
    throw new TautlineError('recording/large', `${name} is larger than ${MOST_BYTES / 1048576} MB.`, {
      detail: 'Use "tautline replay" or "tautline diagnose --from" on it.',
    });
  }
  const recording = await openRecordingOf(name, async function* () {
    for (let at = 0; at < bytes.length; at += 65_536) yield bytes.subarray(at, at + 65_536);
  });
  const replay = createReplay(recording, realClock(), (error) =>
    say(error instanceof Error ? error.message : String(error)),
  );
  replay.play();
  return { kind: 'recording', name, clock: replay.clock, find: () => replay.find() };
}
