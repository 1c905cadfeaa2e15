import { describe, expect, it } from 'vitest';
import { parseRig } from '../../../workbench/rig/read-rig.ts';
import { errorOf } from './files.ts';

const REST = 'fingers:\n  index: {pin: 33}\n';

describe('the budget of a rig file', () => {
  it.each([
    ['60', 60],
    ['59.90', 59.9],
    ['"60"', 60],
  ])('may be %s', (text, budget) => {
    expect(parseRig(`budget: ${text}\n${REST}`, 'rig.yaml').rig.budget).toBe(budget);
  });

  it('may be left out', () => {
    expect(parseRig(REST, 'rig.yaml').rig).not.toHaveProperty('budget');
  });

  it.each([
    ['0', /budget is "0"/, /more than 0/, /check the value/],
    ['-5', /budget is "-5"/, /more than 0/, /check the value/],
    ['60 EUR', /unknown unit "EUR"/, /amount of money/, /write the number alone/],
    ['59,90', /with a comma/, /amount of money/, /decimal point: 59\.90/],
    ['much', /"much"/, /amount of money, such as 12\.50/, /12\.50/],
  ])('is refused as %s', (text, seen, expected, next) => {
    const [problem] = errorOf(() => parseRig(`name: A\nbudget: ${text}\n${REST}`, 'rig.yaml')).problems;
    expect([problem!.line, problem!.column]).toEqual([2, 9]);
    expect(problem!.seen).toMatch(seen);
    expect(problem!.expected).toMatch(expected);
    expect(problem!.next).toMatch(next);
  });
});
