import type { z } from 'zod';
import type { Problem } from '../../sim/errors.ts';
import type { IssueParams } from './field.ts';
import { suggest } from './suggest.ts';
import {
  follow,
  keyPlace,
  pathText,
  problemAt,
  snippet,
  valuePlace,
  type YamlPath,
  type YamlSource,
} from './yaml-source.ts';

type Issue = z.core.$ZodIssue;

function unknownKeys(source: YamlSource, path: YamlPath, keys: string[], known: string[]): Problem[] {
  return keys.map((key) => {
    const near = suggest(key, known);
    return problemAt(
      keyPlace(source, [...path, key]),
      `unknown key "${key}" in ${pathText(path)}`,
      `one of: ${known.join(', ')}`,
      near === undefined ? 'remove it or use one of these' : `did you mean "${near}"?`,
    );
  });
}

function oneOf(source: YamlSource, path: YamlPath, values: string[]): { expected: string; next: string } {
  const written = snippet(source, path).replace(/^["']|["']$/g, '');
  const near = suggest(written, values);
  return {
    expected: `one of: ${values.join(', ')}`,
    next: near === undefined ? 'write one of these' : `did you mean "${near}"?`,
  };
}

/** What zod's own checks expected, in our words. */
function wordsOf(
  source: YamlSource,
  issue: Issue,
  path: YamlPath,
): { seen?: string; expected: string; next: string } {
  switch (issue.code) {
    case 'custom':
      return issue.params as unknown as IssueParams;
    case 'invalid_value':
      return oneOf(source, path, issue.values.map(String));
    case 'invalid_union':
      return oneOf(
        source,
        path,
        'options' in issue && Array.isArray(issue.options) ? issue.options.map(String) : [],
      );
    case 'invalid_type':
      return issue.expected === 'array'
        ? { expected: 'a list, such as [a, b]', next: 'put the values in brackets' }
        : {
            expected: 'a mapping: indented lines of "key: value"',
            next: 'put its keys on indented lines below',
          };
    case 'too_small':
    case 'too_big': {
      const limit = issue.code === 'too_small' ? issue.minimum : issue.maximum;
      const most = issue.code === 'too_small' ? 'at least' : 'at most';
      const entries = `${'exact' in issue && issue.exact ? 'exactly' : most} ${limit} entries`;
      return { seen: `a list of another length`, expected: entries, next: `write ${entries}` };
    }
    default:
      return { expected: issue.message, next: 'check this value' };
  }
}

/** One issue of the schema as problems with places. */
export function issueProblems(source: YamlSource, issue: Issue): Problem[] {
  const path = issue.path;
  if (issue.code === 'unrecognized_keys')
    return unknownKeys(source, path, issue.keys, issue.message.split(','));
  const { node, depth } = follow(source, path);
  const written = path.slice(0, depth);
  const isMissing = depth < path.length && (node === undefined || snippet(source, written) === 'a mapping');
  const { seen, expected, next } = wordsOf(source, issue, written);
  if (isMissing) {
    const missing = String(path[depth]);
    return [
      problemAt(
        keyPlace(source, written),
        `${pathText(written)} has no "${missing}"`,
        expected,
        `add "${missing}"`,
      ),
    ];
  }
  return [
    problemAt(
      valuePlace(source, written),
      `${pathText(written)} is ${seen ?? snippet(source, written)}`,
      expected,
      next,
    ),
  ];
}
