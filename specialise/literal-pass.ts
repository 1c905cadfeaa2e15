/** Last step over finished text: decimals that the interpreter would misread become quotients. */
import { type AnyNode, parse } from 'acorn';
import { exactLiteral, interpreterValue } from './literals.ts';

interface Place {
  start: number;
  end: number;
  value: number;
}

/** Text with the same numbers, all of them read exactly. Nothing may fold constants after it. */
export function shiftLiterals(text: string): string {
  const wrong: Place[] = [];
  const visit = (node: unknown): void => {
    if (Array.isArray(node)) node.forEach(visit);
    else if (typeof node === 'object' && node !== null && 'type' in node) {
      const one = node as AnyNode;
      if (one.type === 'Literal' && typeof one.value === 'number') {
        const raw = text.slice(one.start, one.end);
        if (!/^0[xXbBoO]/.test(raw) && interpreterValue(raw) !== one.value) {
          wrong.push({ start: one.start, end: one.end, value: one.value });
        }
      }
      Object.values(one).forEach(visit);
    }
  };
  visit(parse(text, { ecmaVersion: 2022 }).body);
  let result = text;
  for (const place of wrong.sort((a, b) => b.start - a.start)) {
    result = result.slice(0, place.start) + exactLiteral(place.value) + result.slice(place.end);
  }
  return result;
}
