import type { Variable } from '../expression.ts';
import type { Statement } from '../statement.ts';
import { coalesce } from './coalesce.ts';
import { dropDead } from './dead.ts';
import { forward } from './forward.ts';
import { guardAssignments } from './guards.ts';
import { mergeIntoFirstRead } from './merge.ts';
import { rejoin } from './rejoin.ts';
import { shareTemporaries } from './share.ts';
import { pushIntoBranches } from './tails.ts';

/** Fewer steps, same outcome. @param isRead whether another function may read a state variable */
export function simplify(body: Statement[], isRead: (v: Variable) => boolean): Statement[] {
  let current = body;
  for (let round = 0; round < 4; round++) {
    current = dropDead(rejoin(pushIntoBranches(forward(current))), isRead);
  }
  return current;
}

/** Last steps, after which nothing may be moved any more. */
export function compact(body: Statement[], isRead: (v: Variable) => boolean): Statement[] {
  const shared = shareTemporaries(dropDead(coalesce(guardAssignments(body)), isRead));
  return mergeIntoFirstRead(dropDead(guardAssignments(shared), isRead));
}
