import type { AnyNode } from 'acorn';
import { type Effects, effectsOfBlock } from './effects.ts';
import type { Variable } from './expression.ts';
import { SpecialiseError } from './problem.ts';
import type { Statement } from './statement.ts';

/** A function of the program to be printed. */
export interface Routine {
  name: string;
  variable: Variable;
  parameters: Variable[];
  body: Statement[];
}

/** What calling a routine does to the rest of the program. */
export function effectsOfRoutine(routine: Routine): Effects {
  const inner = effectsOfBlock(routine.body);
  const isOuter = (v: Variable) => v.kind === 'state';
  return {
    ...inner,
    reads: new Set([...inner.reads].filter(isOuter)),
    writes: new Set([...inner.writes].filter(isOuter)),
  };
}

export function parameterName(node: AnyNode): string {
  if (node.type !== 'Identifier') {
    throw new SpecialiseError(`a parameter that is a ${node.type}`, 'plain names', node.start);
  }
  return node.name;
}
