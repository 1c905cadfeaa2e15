/** Numbers, texts and patterns that the interpreter reads otherwise. Each seen on 2v29.277. */
import { interpreterValue } from '../literals.ts';
import type { Rule } from './rule.ts';

export const literalRule: Rule = (node, _, text) => {
  if (node.type === 'TemplateElement') return textProblem(text.slice(node.start, node.end));
  if (node.type !== 'Literal') return undefined;
  const raw = text.slice(node.start, node.end);
  if (typeof node.value === 'bigint') return { seen: `the number ${raw}`, expected: 'no n' };
  if ('regex' in node && node.regex) {
    // neither "maybe" nor groups that look around: both silently do not match
    return raw.includes('?') ? { seen: `the pattern ${raw}`, expected: 'a pattern without ?' } : undefined;
  }
  if (typeof node.value === 'string') return textProblem(raw);
  if (typeof node.value !== 'number' || /^0[xXbBoO\d]/.test(raw)) return undefined;
  const value = interpreterValue(raw.replace(/_/g, ''));
  if (value === node.value) return undefined;
  return { seen: `${raw}, which it reads as ${value}`, expected: 'what exactLiteral writes' };
};

function textProblem(raw: string): { seen: string; expected: string } | undefined {
  if (/(^|[^\\])(\\\\)*\\\r?\n/.test(raw)) return { seen: 'a line that ends within a text', expected: '\\n' };
  if (/(^|[^\\])(\\\\)*\\u(\{|(?!00)[0-9a-fA-F]{4})/.test(raw)) {
    return { seen: `the text ${raw}`, expected: 'characters of one byte: boards are built without Unicode' };
  }
  return undefined;
}
