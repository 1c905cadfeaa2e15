import { type ErrorCode, isAlias, isMap, isScalar, visit, type YAMLError } from 'yaml';
import type { Problem } from '../../sim/errors.ts';
import { placeAt, problemAt, type YamlKind, type YamlSource } from './yaml-source.ts';

type Words = [seen: string, expected: string, next: string];

const NESTING: Words = [
  'a line that does not fit the lines above',
  'a key and its value',
  'check the indentation and the quotes here',
];

/** Our words for the parser's codes; others fall back on the parser's own message. */
const WORDS: Partial<Record<ErrorCode, Words>> = {
  TAB_AS_INDENT: ['a tab used as indentation', 'spaces', 'replace each tab by two spaces'],
  DUPLICATE_KEY: ['a key written a second time', 'each key once', 'remove one of the two'],
  BAD_INDENT: [
    'a line indented differently from its neighbours, or a bracket never closed',
    'all keys of one mapping in the same column',
    'line the keys up and close every bracket',
  ],
  MULTIPLE_DOCS: ['a second document (---)', 'one document a file', 'keep each in a file of its own'],
  BLOCK_AS_IMPLICIT_KEY: [
    'a second "key:" inside one value',
    'one key a line',
    'start a new line, or put quotes round text with a colon',
  ],
  MULTILINE_IMPLICIT_KEY: [
    'a line without ": " after its key',
    'key: value',
    'put a colon and a space after the key',
  ],
  TAG_RESOLVE_FAILED: ['a tag (!)', 'plain values', 'remove the word that starts with "!"'],
  NON_STRING_KEY: [
    'a list or mapping as key',
    'plain words as keys',
    'remove the "?" or the brackets before the colon',
  ],
  BAD_SCALAR_START: ['a character that cannot start plain text', 'a value', 'put quotes round the text'],
  BLOCK_IN_FLOW: [
    'indented lines inside brackets',
    'values separated by commas inside brackets',
    'close the bracket or use commas',
  ],
  BAD_ALIAS: ['an unfinished alias (*)', 'plain values', 'write the value out'],
  BAD_DIRECTIVE: ['a line that starts with %', 'no directives', 'remove the line'],
  UNEXPECTED_TOKEN: NESTING,
  IMPOSSIBLE: NESTING,
};

function wordsFor(error: YAMLError): Words {
  if (error.code === 'MISSING_CHAR') {
    if (/quote/.test(error.message))
      return ['text whose quote is never closed', 'a closing quote', 'add the closing quote'];
    if (/map keys/.test(error.message))
      return ['a line without a colon', 'key: value', 'add ": " and a value, or "#" to make it a comment'];
    return ['something left open', 'a closing bracket, quote or comma', 'complete the line'];
  }
  return WORDS[error.code] ?? [error.message, 'valid YAML', 'check the punctuation here'];
}

/** An unclosed quote is reported by the parser at the end of the file: its beginning helps more. */
function offsetOf(source: YamlSource, error: YAMLError): number {
  let offset = error.pos[0];
  if (error.code !== 'MISSING_CHAR' || !/quote/.test(error.message)) return offset;
  visit(source.document, {
    Scalar(_key, node) {
      const open = node.range !== null && node.range !== undefined && node.range[1] >= error.pos[0];
      if (open && /^["']/.test(source.text[node.range![0]]!)) offset = node.range![0];
    },
  });
  return offset;
}

/** Aliases could swell a small file to any size, and a shared value has no single place to point at. */
function aliasProblems(source: YamlSource, kind: YamlKind): Problem[] {
  const problems: Problem[] = [];
  visit(source.document, {
    Alias(_key, node) {
      problems.push(
        problemAt(
          placeAt(source, node.range?.[0] ?? 0),
          `an alias (*${node.source})`,
          'plain values',
          kind.insteadOfAlias,
        ),
      );
    },
  });
  return problems;
}

/** What stands at the top of the document if that is not a mapping. */
function rootProblem(source: YamlSource, kind: YamlKind): Problem | undefined {
  const { contents } = source.document;
  if (isMap(contents) || isAlias(contents)) return undefined;
  const empty = contents === null || (isScalar(contents) && contents.value === null);
  return problemAt(
    empty ? { file: source.file, line: 1, column: 1 } : placeAt(source, contents?.range?.[0] ?? 0),
    empty ? 'an empty file' : isScalar(contents) ? 'text without keys' : 'a list',
    `${kind.noun}: lines of "key: value"`,
    `run "${kind.example}" for an example to start from`,
  );
}

/**
 * Everything wrong with a text as YAML, before its keys are looked at.
 * @returns the problems, and whether the tree can be trusted all the same (only doubled keys)
 */
export function yamlProblems(source: YamlSource, kind: YamlKind): { problems: Problem[]; usable: boolean } {
  const problems: Problem[] = [];
  const seenLines = new Set<number>();
  let usable = true;
  for (const error of [...source.document.errors, ...source.document.warnings]) {
    const place = placeAt(source, offsetOf(source, error));
    if (error.code !== 'DUPLICATE_KEY') usable = false;
    // One slip often breaks the rest of its line too.
    if (seenLines.has(place.line)) continue;
    seenLines.add(place.line);
    const [seen, expected, next] = wordsFor(error);
    problems.push(problemAt(place, seen, expected, next));
  }
  if (source.document.directives.yaml.explicit && source.document.directives.yaml.version !== '1.2') {
    problems.push(
      problemAt(placeAt(source, 0), 'a %YAML line for another version', 'YAML 1.2', 'remove that line'),
    );
    usable = false;
  }
  if (!usable) return { problems, usable };
  const root = rootProblem(source, kind);
  const aliases = root ? [] : aliasProblems(source, kind);
  if (root) problems.push(root);
  problems.push(...aliases);
  return { problems, usable: root === undefined && aliases.length === 0 };
}
