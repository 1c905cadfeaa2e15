/** Ends of lines that mean something in the language and nothing to the interpreter. Each seen on 2v29.277. */
import type { Rule, SubsetProblem } from './rule.ts';

export const lineRule: Rule = (node, path, text) => {
  if (node.type === 'ReturnStatement' && !node.argument && text[node.end - 1] !== ';') {
    const next = /\S/.exec(text.slice(node.end))?.[0];
    if (next !== '}' && next !== undefined) {
      return { seen: 'a return that ends with its line', expected: 'a semicolon: it returns what follows' };
    }
  }
  if (node.type === 'UpdateExpression' && node.prefix) {
    const before = text.slice(0, node.start);
    const isFirst = path.at(-1)?.type === 'ExpressionStatement' && path.at(-1)!.start === node.start;
    if (isFirst && /[\w$)\]]\s*\n\s*$/.test(before)) {
      return { seen: `${node.operator} at the start of a line`, expected: 'a semicolon before it' };
    }
  }
  return undefined;
};

/** What no parser hands on: characters outside ASCII, comments of web pages. */
export function characterProblems(text: string): SubsetProblem[] {
  const problems: SubsetProblem[] = [];
  for (const match of text.matchAll(/[^\t\n\r -~]|<!--|^\s*-->/gm)) {
    const isComment = match[0].length > 1;
    problems.push({
      offset: match.index,
      seen: isComment ? `${match[0].trim()}, an operator there` : `the character ${match[0]}`,
      expected: isComment ? 'blanks' : 'ASCII',
    });
  }
  return problems;
}
