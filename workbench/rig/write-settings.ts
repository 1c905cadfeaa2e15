import type { Settings } from '../../firmware/chain/settings.ts';
import { rewriteRig } from './rewrite-rig.ts';
import { withSettings } from './settings-yaml.ts';
import type { YamlSource } from './yaml-source.ts';

/**
 * Puts settings into a rig file, in place of those it has. Comments and layout elsewhere stay as they are; the
 * file is replaced in one step and keeps its mode. On any error the file is left as it was.
 * @param readBefore what {@link readRig} gave as `source`: if the file has changed since, nothing is written
 * @throws TautlineError as {@link rewriteRig}
 */
export function writeSettings(path: string, settings: Settings, readBefore?: Pick<YamlSource, 'text'>): void {
  rewriteRig(path, {
    what: 'the settings',
    made: 'chosen',
    textOf: (source) => withSettings(source, settings),
    rigOf: (rig) => ({ ...rig, settings }),
    readBefore,
  });
}
