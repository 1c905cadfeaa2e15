import { type Problem, TautlineError } from '../../sim/errors.ts';
import type { Rig } from '../../sim/rig/rig.ts';
import { buildRig } from './build-rig.ts';
import { checkRig } from './check-rig.ts';
import { Findings } from './findings.ts';
import { openYaml } from './open-yaml.ts';
import { rigSchema } from './rig-schema.ts';
import { tolerantParse } from './tolerant-parse.ts';
import type { YamlKind, YamlSource } from './yaml-source.ts';

/** Rig files are a few kilobytes; anything beyond this is something else. */
export const MAX_RIG_BYTES = 1_000_000;

const RIG: YamlKind = {
  code: 'rig/invalid',
  noun: 'a rig file',
  example: 'tautline new',
  insteadOfAlias: 'write the value out, or put what all fingers share under "eachFinger"',
  most: { characters: MAX_RIG_BYTES, words: '1 MB' },
};

export interface ParsedRig {
  rig: Rig;
  /** Recording of the noise at rest that the rig names: its path, taken from the rig file's folder. */
  restFile?: string;
  source: YamlSource;
  /** What is unwise but not wrong, in the order of the file. */
  warnings: Problem[];
}

/** A path named in a file, taken from that file's folder. */
function besideFile(fileName: string, path: string): string {
  if (/^([/\\]|[A-Za-z]:)/.test(path)) return path;
  return fileName.slice(0, Math.max(fileName.lastIndexOf('/'), fileName.lastIndexOf('\\')) + 1) + path;
}

/**
 * Reads a rig from text. Runs in browsers too.
 * @param fileName path for messages and for files that the rig names
 * @throws TautlineError `rig/invalid` with every problem found, each at its line and column
 */
export function parseRig(text: string, fileName: string): ParsedRig {
  const { source, problems: yaml } = openYaml(text, fileName, RIG);
  const { block, problems, cut } = tolerantParse(source, rigSchema);
  if (block === undefined) throw TautlineError.fromProblems(RIG.code, [...yaml, ...problems]);
  const rig = buildRig(block);
  const findings = new Findings(source, cut);
  checkRig(rig, block, findings);
  const errors = [...yaml, ...problems, ...findings.errors];
  if (errors.length > 0) throw TautlineError.fromProblems(RIG.code, errors);
  const warnings = findings.warnings.sort((a, b) => a.line - b.line || a.column - b.column);
  const parsed: ParsedRig = { rig, source, warnings };
  if (block.noise?.recording !== undefined) parsed.restFile = besideFile(fileName, block.noise.recording);
  return parsed;
}
