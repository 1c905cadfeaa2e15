import { PROBLEM_CAP, type Problem } from '../../sim/errors.ts';
import { type RigBlock, rigSchema } from './rig-schema.ts';
import { issueProblems } from './schema-problems.ts';
import type { YamlPath, YamlSource } from './yaml-source.ts';

/** Takes the thing at a path out of a plain value; of lists, the whole list. Returns the path taken out. */
function cutOut(root: Record<string, unknown>, path: YamlPath): YamlPath {
  let parent = root;
  for (let depth = 0; depth < path.length; depth++) {
    const key = path[depth]! as string;
    const inner = Object.hasOwn(parent, key) ? parent[key] : undefined;
    const isLast = depth === path.length - 1 || typeof path[depth + 1] === 'number';
    const leadsOn = typeof inner === 'object' && inner !== null && !Array.isArray(inner);
    const nextKey = path[depth + 1] as string;
    if (isLast || !leadsOn || !Object.hasOwn(inner, nextKey)) {
      delete parent[key];
      return path.slice(0, depth + 1);
    }
    parent = inner as Record<string, unknown>;
  }
  return path;
}

/**
 * Checks a file against the schema and goes on after errors: whatever is wrong is noted and left out, so that
 * the rest can be checked as a whole too.
 * @returns the readable rest, the problems, and the paths that were left out
 */
export function tolerantParse(source: YamlSource): { block: RigBlock; problems: Problem[]; cut: YamlPath[] } {
  const value = source.document.toJS() as Record<string, unknown>;
  const problems: Problem[] = [];
  const cut: YamlPath[] = [];
  for (;;) {
    const result = rigSchema.safeParse(value);
    if (result.success) return { block: result.data, problems, cut };
    for (const issue of result.error.issues) {
      const known = cut.some((gone) => gone.every((step, depth) => issue.path[depth] === step));
      if (!known && problems.length <= 10 * PROBLEM_CAP) problems.push(...issueProblems(source, issue));
      if (issue.code === 'unrecognized_keys') {
        for (const key of issue.keys) cutOut(value, [...issue.path, key]);
      } else {
        cut.push(cutOut(value, issue.path));
      }
    }
  }
}
