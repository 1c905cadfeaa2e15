import { z } from 'zod';
import { frictionOfWeights } from '../../sim/string/capstan.ts';
import { mapping, quantity } from './field.ts';

const BOTH_WAYS = 'either "friction", or "weights" hung on both ends of the string';

/** One guide: its friction is stated, or follows from two weights that just move over it. */
const guide = mapping({
  wrap: quantity('angle', 0, 360),
  friction: quantity('plain', 0, 1).optional(),
  weights: z
    .array(quantity('force', 0, 100, true))
    .length(2)
    .optional(),
}).transform(({ wrap, friction, weights }, ctx): { wrap: number; friction: number } => {
  const issue = (path: string[], params: { seen?: string; expected: string; next: string }) => {
    ctx.issues.push({ code: 'custom', input: undefined, path, message: params.expected, params });
    return z.NEVER;
  };
  if (friction !== undefined && weights === undefined) return { wrap, friction };
  if (friction !== undefined) {
    return issue(['weights'], {
      seen: 'there beside a friction',
      expected: BOTH_WAYS,
      next: 'remove one of the two',
    });
  }
  if (weights === undefined) {
    return issue(['friction'], { expected: BOTH_WAYS, next: 'add "friction", such as 0.08' });
  }
  const [first, second] = [weights[0]!, weights[1]!];
  if (first === second) {
    return issue(['weights'], {
      seen: 'two equal weights',
      expected: 'a heavier weight that just pulls the lighter one over the guide',
      next: 'add to one side until it sinks slowly, and weigh both',
    });
  }
  if (wrap === 0) {
    return issue(['wrap'], {
      seen: '0 deg, beside weights',
      expected: 'the angle over which the string touched the guide',
      next: 'half a turn, 180 deg, when both weights hung straight down',
    });
  }
  const measured = frictionOfWeights(first, second, (wrap * Math.PI) / 180);
  if (measured > 1) {
    return issue(['weights'], {
      seen: `two that ask for a friction of ${Number(measured.toPrecision(3))}`,
      expected: 'a friction of at most 1',
      next: 'weigh both again, and look for a knot or a sharp edge on the guide',
    });
  }
  return { wrap, friction: measured };
});

/** The guides of one string, from the fingertip to the spool. */
export const guidesSchema = z.array(guide).max(12);
