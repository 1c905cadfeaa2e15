import { describe, expect, it } from 'vitest';
import { CASES, GROUPS } from './cases.ts';
import { faultOf } from './sample.ts';
import { tools } from './tools.ts';

describe.each(Object.entries(GROUPS))('functions and program text do the same: %s', (_, cases) => {
  it.each(Object.entries(cases))('%s', (_name, sample) => {
    expect(faultOf(tools, sample)).toBe('');
  });
});

describe('the cases', () => {
  it('have names of their own', () => {
    const all = Object.values(GROUPS).reduce((sum, group) => sum + Object.keys(group).length, 0);
    expect(Object.keys(CASES)).toHaveLength(all);
  });
});
