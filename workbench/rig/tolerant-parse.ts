import type { z } from 'zod';
import { PROBLEM_CAP, type Problem } from '../../sim/errors.ts';
import { issueProblems } from './schema-problems.ts';
import type { YamlPath, YamlSource } from './yaml-source.ts';

type Tree = Record<PropertyKey, unknown>;

function isTree(value: unknown): value is Tree {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/**
 * Takes the thing at a path out of a plain value; of a list, the whole list; where the path leads to nothing,
 * the mapping that lacks it. Returns the path taken out.
 */
function cutOut(root: Tree, path: YamlPath): YamlPath {
  let parent = root;
  let depth = 0;
  for (; depth < path.length - 1; depth++) {
    const inner = parent[path[depth]!];
    if (!isTree(inner) || !Object.hasOwn(inner, path[depth + 1]!)) break;
    parent = inner;
  }
  delete parent[path[depth]!];
  return path.slice(0, depth + 1);
}

/** Takes unknown keys out of the mapping at a path. */
function dropKeys(root: Tree, path: YamlPath, keys: string[]): void {
  let parent: unknown = root;
  for (const step of path)
    parent = isTree(parent) || Array.isArray(parent) ? (parent as Tree)[step] : undefined;
  if (isTree(parent)) for (const key of keys) delete parent[key];
}

const startsWith = (path: YamlPath, start: YamlPath) => start.every((step, depth) => step === path[depth]);

/** The path of what would do in place of something missing, if there is such a thing. */
function insteadOf(issue: z.core.$ZodIssue): YamlPath | undefined {
  const key: unknown = issue.code === 'custom' ? issue.params?.instead : undefined;
  return typeof key === 'string' ? [...issue.path.slice(0, -1), key] : undefined;
}

/**
 * Checks a file against the schema and goes on after errors: whatever is wrong is noted and left out, so that
 * the rest can be checked as a whole too.
 * @returns the readable rest, undefined where the file as a whole lacks what it must have; the problems, and the
 *   paths that were left out
 */
export function tolerantParse<T>(
  source: YamlSource,
  schema: z.ZodType<T>,
): { block: T | undefined; problems: Problem[]; cut: YamlPath[] } {
  const value = source.document.toJS() as Tree;
  const problems: Problem[] = [];
  const cut: YamlPath[] = [];
  for (;;) {
    const result = schema.safeParse(value);
    if (result.success) return { block: result.data, problems, cut };
    const before = [...cut];
    const text = JSON.stringify(value);
    for (const issue of result.error.issues) {
      const { path } = issue;
      // What is missing only because an earlier round left it out has been told already.
      const instead = insteadOf(issue);
      const isKnown = before.some(
        (gone) => startsWith(path, gone) || (instead !== undefined && startsWith(instead, gone)),
      );
      if (!isKnown && problems.length <= 10 * PROBLEM_CAP) problems.push(...issueProblems(source, issue));
      if (issue.code === 'unrecognized_keys') dropKeys(value, path, issue.keys);
      else if (!cut.slice(before.length).some((gone) => startsWith(path, gone)))
        cut.push(cutOut(value, path));
    }
    // Nothing was left to take out: what is wrong is something missing.
    if (JSON.stringify(value) === text) return { block: undefined, problems, cut };
  }
}
