/** How far the evaluation of a function has come. */
import type { Statement as NodeStatement } from 'acorn';
import type { Variable } from './expression.ts';
import type { Scope, Value } from './scope.ts';

/** Where the statements behind the present one are to be found. */
export interface Continuation {
  nodes: readonly NodeStatement[];
  at: number;
  scope: Scope;
  next: Continuation | undefined;
}

/** One function that is being evaluated. */
export interface Frame {
  stage: string;
  /** A routine of its own: returns are written as such. */
  isRoutine: boolean;
  /** Depth of branches that hold a return of this function. */
  branches: number;
  /** Takes the result where branches return it. */
  destination: Variable | undefined;
  result: Value | undefined;
  /** Some end of the function returns nothing. */
  endsEmpty: boolean;
}
