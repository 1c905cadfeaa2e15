import { describe, expect, it } from 'vitest';
import { formatProblems, TautlineError } from '../../../sim/errors.ts';
import { parseRig } from '../../../workbench/rig/read-rig.ts';
import { BROKEN_RIGS, REST } from './broken-rigs.ts';

function problemsOf(text: string): { error: TautlineError; at: string[] } {
  try {
    parseRig(text, 'rig.yaml');
  } catch (error) {
    if (!(error instanceof TautlineError)) throw error;
    return { error, at: error.problems.map(({ line, column }) => `${line}:${column}`) };
  }
  throw new Error('was accepted');
}

describe('a broken rig file', () => {
  it.each(BROKEN_RIGS)('is refused for %s', (_title, text, place, seen, expected) => {
    const { error, at } = problemsOf(text);
    expect(at).toEqual([place]);
    const problem = error.problems[0]!;
    expect(problem.file).toBe('rig.yaml');
    expect(problem.seen).toMatch(seen);
    expect(problem.expected).toMatch(expected);
    expect(problem.next).not.toBe('');
    expect(error.code).toBe('rig/invalid');
    const shown = formatProblems(error);
    expect(shown).toContain(`rig.yaml:${place}: `);
    expect(shown).not.toMatch(/\n\s+at |node_modules|\.ts:/);
  });

  it('has all its problems listed at once, in the order of the file', () => {
    const text = [
      'nmae: two typos', //                    1:1 unknown key
      'board: esp23', //                       2:8 unknown board
      'eachFinger:',
      '  play: 3 kg', //                       4:9 wrong dimension
      'fingers:',
      '  thumb: {pin: 32}',
      '  index: {pin: 32}', //                 7:16 pin used twice
      '  ring: {}', //                         8:3 no pin
      'gesture: {on: 40 %, off: 60 %}', //     9:26 off above on
      'gesture: {}', //                        10:1 key twice
    ].join('\n');
    // The later "gesture" wins in YAML, so its thresholds are the defaults.
    expect(problemsOf(text).at).toEqual(['1:1', '2:8', '4:9', '7:16', '8:3', '10:1']);
  });

  it('does not blame a value for another one that could not be read', () => {
    const text = `eachFinger:\n  potentiometer: {electricalTravel: 27 mm, mechanicalTravel: 200 deg}\n${REST}`;
    expect(problemsOf(text).at).toEqual(['2:37']);
  });

  it('lists twenty problems and counts the others', () => {
    const text = Array.from({ length: 33 }, (_, row) => `key${row}: 1\n`).join('') + REST;
    const { error } = problemsOf(text);
    expect(error.problems).toHaveLength(20);
    expect(error.problems[19]!.line).toBe(20);
    expect(formatProblems(error)).toContain('13 more problems not shown');
  });

  it.each([
    ['sied', 'hand:\n  sied: left\n', 'did you mean "side"?'],
    ['frame_rate', 'frame_rate: 100 Hz\n', 'did you mean "frameRate"?'],
    ['eachfinger', 'eachfinger: {}\n', 'did you mean "eachFinger"?'],
    ['esp32s3', 'board: esp32s3\n', 'did you mean "esp32-s3"?'],
    ['zzz', 'zzz: 1\n', 'remove it or use one of these'],
  ])('is answered with a suggestion where one is near: %s', (_word, text, next) => {
    expect(problemsOf(text + REST).error.problems[0]!.next).toBe(next);
  });

  it('cannot swell by aliases', () => {
    let text = 'a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n';
    for (let i = 1; i < 12; i++)
      text += `a${i}: &a${i} [${Array(10)
        .fill(`*a${i - 1}`)
        .join(', ')}]\n`;
    const { error } = problemsOf(text);
    expect(error.problems[0]!.seen).toBe('an alias (*a0)');
  });

  it('cannot exhaust the stack by nesting', () => {
    expect(problemsOf(`name: ${'['.repeat(100_000)}`).error.code).toBe('rig/invalid');
  });

  it('may be no larger than 1 MB', () => {
    const { error, at } = problemsOf(`${REST}#${'x'.repeat(1_000_000)}`);
    expect(at).toEqual(['0:0']);
    expect(formatProblems(error)).toContain('rig.yaml: ');
  });
});
