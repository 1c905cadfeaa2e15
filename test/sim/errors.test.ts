import { describe, expect, it } from 'vitest';
import { formatProblems, TautlineError } from '../../sim/errors.ts';

const problem = (line: number, column: number) => ({
  file: 'a.yaml',
  line,
  column,
  seen: `seen ${line}`,
  expected: 'x',
  next: 'y',
});

describe('an error for users', () => {
  it('lists its problems in the order of the file', () => {
    const error = TautlineError.fromProblems('rig/invalid', [problem(7, 2), problem(3, 9), problem(3, 1)]);
    expect(error.message).toBe('a.yaml:3:1: seen 3 (and 2 more)');
    expect(error.places).toEqual([
      { file: 'a.yaml', line: 3, column: 1 },
      { file: 'a.yaml', line: 3, column: 9 },
      { file: 'a.yaml', line: 7, column: 2 },
    ]);
    expect(formatProblems(error)).toBe(
      [
        'a.yaml:3:1: seen 3\n    expected: x\n    next:     y',
        'a.yaml:3:9: seen 3\n    expected: x\n    next:     y',
        'a.yaml:7:2: seen 7\n    expected: x\n    next:     y',
        '(rig/invalid)',
      ].join('\n'),
    );
  });

  it('shows no stack trace, with or without problems', () => {
    const error = new TautlineError('rig/changed', 'changed', {
      detail: 'again',
      places: [problem(0, 0)],
      cause: new Error('io'),
    });
    expect(formatProblems(error)).toBe('changed\n    in a.yaml\nagain\n(rig/changed)');
    expect(formatProblems(new Error('plain'))).toBe('plain');
    expect(formatProblems('text')).toBe('text');
    expect((error.cause as Error).message).toBe('io');
  });
});
