import { type Problem, TautlineError } from '../../sim/errors.ts';
import type { Rig } from '../../sim/rig/rig.ts';
import { buildRig } from './build-rig.ts';
import { checkRig } from './check-rig.ts';
import { Findings } from './findings.ts';
import { tolerantParse } from './tolerant-parse.ts';
import { yamlProblems } from './yaml-problems.ts';
import { problemAt, readYaml, type YamlSource } from './yaml-source.ts';

/** Rig files are a few kilobytes; anything beyond this is something else. */
export const MAX_RIG_BYTES = 1_000_000;

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

/** First character that no text file has. */
function binaryProblem(source: YamlSource): Problem | undefined {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
  const offset = source.text.search(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffd]/);
  if (offset < 0) return undefined;
  const before = source.text.slice(0, offset).split('\n');
  const place = { file: source.file, line: before.length, column: before[before.length - 1]!.length + 1 };
  const code = source.text.charCodeAt(offset).toString(16).padStart(4, '0');
  return problemAt(
    place,
    `a character that is no text (U+${code})`,
    'a text file in UTF-8',
    'check that this is the rig file',
  );
}

/**
 * Reads a rig from text. Runs in browsers too.
 * @param fileName path for messages and for files that the rig names
 * @throws TautlineError `rig/invalid` with every problem found, each at its line and column
 */
export function parseRig(text: string, fileName: string): ParsedRig {
  const clean = text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
  const fail = (problems: Problem[]) => TautlineError.fromProblems('rig/invalid', problems);
  if (clean.length > MAX_RIG_BYTES) {
    const place = { file: fileName, line: 0, column: 0 };
    throw fail([
      problemAt(
        place,
        `${clean.length} characters`,
        'a rig file of at most 1 MB',
        'check that this is the rig file',
      ),
    ]);
  }
  const source = readYaml(clean, fileName);
  const binary = binaryProblem(source);
  if (binary) throw fail([binary]);
  const yaml = yamlProblems(source);
  if (!yaml.usable) throw fail(yaml.problems);
  const { block, problems, cut } = tolerantParse(source);
  const rig = buildRig(block);
  const findings = new Findings(source, cut);
  checkRig(rig, block, findings);
  const errors = [...yaml.problems, ...problems, ...findings.errors];
  if (errors.length > 0) throw fail(errors);
  const warnings = findings.warnings.sort((a, b) => a.line - b.line || a.column - b.column);
  const parsed: ParsedRig = { rig, source, warnings };
  if (block.noise?.recording !== undefined) parsed.restFile = besideFile(fileName, block.noise.recording);
  return parsed;
}
