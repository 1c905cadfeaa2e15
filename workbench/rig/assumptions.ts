import type { DefaultEntry } from '../../sim/rig/default-entry.ts';
import { DEFAULTS, type DefaultPath, defaultPaths } from '../../sim/rig/defaults.ts';
import { FINGER_NAMES, type Rig } from '../../sim/rig/rig.ts';
import type { Assumption } from '../../sim/study/result.ts';
import { isWritten, snippet, type YamlPath, type YamlSource } from './yaml-source.ts';

/** Places in a rig file where a default can be written instead. */
function placesOf(path: DefaultPath): YamlPath[] {
  const [head, ...rest] = path.split('.');
  if (head !== 'finger') return [[head, ...rest]];
  return [['eachFinger', ...rest], ...FINGER_NAMES.map((name): YamlPath => ['fingers', name, ...rest])];
}

/** What a rig file may give in place of a value, which is then worked out from it. */
const INSTEAD: Partial<Record<DefaultPath, YamlPath[]>> = {
  'finger.momentArms': [['joints']],
  'finger.guides.wrap': [['guides']],
  'finger.guides.friction': [['guides']],
  'finger.spring.openTorque': [
    ['spring', 'pulls'],
    ['spring', 'strip'],
  ],
  'finger.spring.perTurn': [
    ['spring', 'pulls'],
    ['spring', 'strip'],
  ],
  'finger.spring.hysteresis': [['spring', 'pulls']],
  'finger.potentiometer.drag': [['spring', 'pulls']],
};

/** The key that a value comes from where the file does not say the value itself. */
function instead(path: DefaultPath, source: YamlSource): string | undefined {
  const blocks: YamlPath[] = [['eachFinger'], ...FINGER_NAMES.map((name): YamlPath => ['fingers', name])];
  const found = INSTEAD[path]?.find((key) => blocks.some((block) => isWritten(source, [...block, ...key])));
  return found === undefined ? undefined : String(found[found.length - 1]);
}

/** Paths that say nothing about this rig: the pins and resistors of other boards, the presets not used. */
function concerns(path: DefaultPath, rig: Rig, preset: string): boolean {
  const parts = path.split('.');
  if (parts[0] === 'noise' && parts.length > 1) return parts[1] === preset;
  const board = parts.find((part) => part.startsWith('esp32'));
  return board === undefined || board === rig.board;
}

function shown(entry: DefaultEntry): string {
  const value = Array.isArray(entry.value) ? entry.value.join(' / ') : `${entry.value}`;
  if (entry.unit === 'share' && typeof entry.value === 'number') {
    return `${Number((entry.value * 100).toPrecision(4))} %`;
  }
  return entry.unit === '' ? value : `${value} ${entry.unit}`;
}

/** Everything that a study of this rig rests on: what the file says, and every default with its source. */
export function assumptionsOf(rig: Rig, source: YamlSource): Assumption[] {
  const preset = isWritten(source, ['noise', 'preset'])
    ? snippet(source, ['noise', 'preset'])
    : isWritten(source, ['noise'])
      ? snippet(source, ['noise'])
      : DEFAULTS.noise.value;
  return defaultPaths()
    .filter((path) => concerns(path, rig, preset))
    .map((path) => {
      const entry = DEFAULTS[path] as DefaultEntry;
      const written = placesOf(path).filter((place) => isWritten(source, place));
      const key = written.length === 0 ? instead(path, source) : undefined;
      if (key !== undefined) {
        return { path, label: entry.label, value: `from ${key}`, kind: 'rig file', source: 'as written' };
      }
      if (written.length === 0) {
        return { path, label: entry.label, value: shown(entry), kind: entry.source, source: entry.text };
      }
      const values = [...new Set(written.map((place) => snippet(source, place)))];
      return { path, label: entry.label, value: values.join(', '), kind: 'rig file', source: 'as written' };
    });
}
