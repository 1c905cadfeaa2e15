import { appendFileSync, existsSync, mkdirSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { TautlineError } from '../../sim/errors.ts';
import { replaceFile } from '../rig/replace-file.ts';
import { type Save, saveName } from './messages.ts';

const ENDINGS = { recording: '.csv', profile: '.json' } as const;
/** Most that one name may hold, bytes: an hour of five fingers at 100 Hz is about 30 MB. */
const MAX_BYTES = 200 * 1024 * 1024;
/** Most that is read back into the page at once. */
const MAX_LOAD_BYTES = 64 * 1024 * 1024;

/** Named things that the page may keep: all in one folder, under names that are checked. */
export interface Saves {
  list(): Save[];
  /** @throws TautlineError `save/...` */
  save(kind: Save['kind'], name: string, text: string, append: boolean): void;
  /** @throws TautlineError `save/not-found`, `save/too-large` */
  load(kind: Save['kind'], name: string): string;
}

export function createSaves(folder: string): Saves {
  function pathOf(kind: Save['kind'], name: string): string {
    if (!saveName.safeParse(name).success) {
      throw new TautlineError('save/name', `"${name}" is no name for a save.`, {
        detail: 'Take up to 60 small letters, digits and dashes, such as evening-1.',
      });
    }
    return join(folder, name + ENDINGS[kind]);
  }

  return {
    list() {
      if (!existsSync(folder)) return [];
      return readdirSync(folder).flatMap((file): Save[] => {
        for (const kind of ['recording', 'profile'] as const) {
          const name = file.slice(0, -ENDINGS[kind].length);
          if (!file.endsWith(ENDINGS[kind]) || !saveName.safeParse(name).success) continue;
          return [{ kind, name, bytes: statSync(join(folder, file)).size }];
        }
        return [];
      });
    },
    save(kind, name, text, append) {
      const path = pathOf(kind, name);
      const before = append && existsSync(path) ? statSync(path).size : 0;
      if (before + Buffer.byteLength(text) > MAX_BYTES) {
        throw new TautlineError('save/full', `${path} would grow beyond ${MAX_BYTES / 1048576} MB.`, {
          detail: 'Go on under another name.',
        });
      }
      try {
        mkdirSync(folder, { recursive: true });
        if (append) appendFileSync(path, text);
        else replaceFile(path, text);
      } catch (cause) {
        throw new TautlineError('save/not-written', `${path} could not be written.`, {
          detail: `${cause instanceof Error ? cause.message : String(cause)}. Check that the disk has room and the folder may be written to.`,
          cause,
        });
      }
    },
    load(kind, name) {
      const path = pathOf(kind, name);
      if (!existsSync(path)) {
        throw new TautlineError('save/not-found', `There is no ${kind} "${name}" in ${folder}.`, {
          detail: 'Look at the list of saves.',
        });
      }
      if (statSync(path).size > MAX_LOAD_BYTES) {
        throw new TautlineError('save/too-large', `${path} is too large to be shown in the page.`, {
          detail: 'Use "tautline diagnose --from" or "tautline choose --from" on it.',
        });
      }
      return readFileSync(path, 'utf8');
    },
  };
}
