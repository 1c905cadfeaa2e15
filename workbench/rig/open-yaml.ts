import { type Problem, TautlineError } from '../../sim/errors.ts';
import { yamlProblems } from './yaml-problems.ts';
import { problemAt, readYaml, type YamlKind, type YamlSource } from './yaml-source.ts';

/** First character that no text file has. */
function binaryProblem(source: YamlSource, kind: YamlKind): Problem | undefined {
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
    `check that this is ${kind.noun}`,
  );
}

/**
 * Parses a text as YAML and refuses what no schema could make sense of.
 * @returns the source, and what is wrong with it all the same (doubled keys)
 * @throws TautlineError of the kind's code with every problem found, each at its line and column
 */
export function openYaml(
  text: string,
  fileName: string,
  kind: YamlKind,
): { source: YamlSource; problems: Problem[] } {
  const clean = text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
  const fail = (problems: Problem[]) => TautlineError.fromProblems(kind.code, problems);
  if (clean.length > kind.most.characters) {
    const place = { file: fileName, line: 0, column: 0 };
    throw fail([
      problemAt(
        place,
        `${clean.length} characters`,
        `${kind.noun} of at most ${kind.most.words}`,
        `check that this is ${kind.noun}`,
      ),
    ]);
  }
  const source = readYaml(clean, fileName);
  const binary = binaryProblem(source, kind);
  if (binary) throw fail([binary]);
  const { problems, usable } = yamlProblems(source, kind);
  if (!usable) throw fail(problems);
  return { source, problems };
}
