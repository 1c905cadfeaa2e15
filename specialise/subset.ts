/**
 * Last look at a finished program: refuses what the board's interpreter would misread or does not know. What depends
 * on values (text of numbers, ranges of a DataView) it cannot see: that is what runs on the interpreter are for.
 */
import { type AnyNode, parse } from 'acorn';
import { INTERPRETER_NAMES, memberRule } from './subset/known.ts';
import { lateReads } from './subset/late-reads.ts';
import { characterProblems, lineRule } from './subset/lines.ts';
import { literalRule } from './subset/literals.ts';
import { eachNode, type SubsetProblem } from './subset/rule.ts';
import { nameProblems } from './subset/scopes.ts';
import { meaningRule, syntaxRule } from './subset/syntax.ts';

export { INTERPRETER_NAMES } from './subset/known.ts';
export type { SubsetProblem } from './subset/rule.ts';

const RULES = [syntaxRule, meaningRule, literalRule, lineRule, memberRule];

/**
 * @param program a script
 * @param known names that are there without being declared; pins always are
 * @returns problems in the order of the text; empty = none
 */
export function subsetProblems(
  program: string,
  known: ReadonlySet<string> = INTERPRETER_NAMES,
): SubsetProblem[] {
  let tree: AnyNode;
  try {
    tree = parse(program, { ecmaVersion: 2022, sourceType: 'script' });
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    const offset = 'pos' in error ? Number(error.pos) : 0;
    return [{ offset, seen: error.message, expected: 'a script' }];
  }
  const problems = [...characterProblems(program), ...nameProblems(tree, known), ...lateReads(tree, true)];
  eachNode(tree, (node, path) => {
    for (const rule of RULES) {
      const problem = rule(node, path, program);
      if (problem) problems.push({ offset: node.start, ...problem });
    }
  });
  return problems.sort((a, b) => a.offset - b.offset);
}
