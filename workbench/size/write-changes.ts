import { type Change, withChanges } from '../../sim/sizing/change.ts';
import { withValues } from '../rig/put-values.ts';
import { rewriteRig } from '../rig/rewrite-rig.ts';
import type { YamlSource } from '../rig/yaml-source.ts';
import { changeValues } from './change-file.ts';

/**
 * Puts proposed values into a rig file, each where it stands or would stand; all else stays as it is.
 * @param readBefore what {@link readRig} gave as `source`: if the file has changed since, nothing is written
 * @throws TautlineError as {@link rewriteRig}
 */
export function writeChanges(
  path: string,
  changes: readonly Change[],
  readBefore: Pick<YamlSource, 'text'>,
): void {
  rewriteRig(path, {
    what: 'the proposed values',
    made: 'worked out',
    textOf: (source, rig) => withValues(source, changeValues(source, changes, rig)),
    rigOf: (rig) => withChanges(rig, changes),
    readBefore,
  });
}
