import { type Statement, withBlocks } from '../statement.ts';

/** `x = c ? A : x` becomes `if (c) x = A`: the untaken way costs nothing. */
export function guardAssignments(body: Statement[]): Statement[] {
  return body.flatMap((raw): Statement[] => {
    const s = withBlocks(raw, guardAssignments);
    if (s.kind !== 'assign') return [s];
    const { variable, value, origin } = s;
    if (value.kind === 'variable' && value.variable === variable) return [];
    if (value.kind !== 'conditional') return [s];
    const keeps = (e: typeof value): boolean =>
      [e.yes, e.no].some(
        (branch) =>
          (branch.kind === 'variable' && branch.variable === variable) ||
          (branch.kind === 'conditional' && keeps(branch)),
      );
    if (!keeps(value)) return [s];
    const branch = (e: typeof value.yes) =>
      guardAssignments([{ kind: 'assign', variable, value: e, origin }]);
    const yes = branch(value.yes);
    const no = branch(value.no);
    if (yes.length > 0) return [{ kind: 'if', test: value.test, yes, no, origin }];
    return [
      { kind: 'if', test: { kind: 'unary', operator: '!', operand: value.test }, yes: no, no: [], origin },
    ];
  });
}
