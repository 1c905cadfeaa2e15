import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { TautlineError } from '../../../sim/errors.ts';
import { newRigText } from '../../../workbench/rig/new-rig.ts';
import { parseRest } from '../../../workbench/rig/read-rest.ts';
import { parseRig } from '../../../workbench/rig/read-rig.ts';
import { withSettings } from '../../../workbench/rig/settings-yaml.ts';

const LONG = process.env.TAUTLINE_VERIFY === '1';
const TIMEOUT_MS = LONG ? 300_000 : 10_000;
const RIG = readFileSync('examples/marionette-right.yaml', 'utf8');
const REST = readFileSync('examples/rest-puppet-right.csv', 'utf8').split('\n').slice(0, 80).join('\n');

/** A text with one stretch of it replaced by other characters. */
function damaged(text: string): fc.Arbitrary<string> {
  const junk = fc.oneof(
    fc.constantFrom(
      '',
      ':',
      '-',
      '{',
      '}',
      '[',
      ']',
      '"',
      "'",
      '#',
      '\t',
      '\n',
      '\u0000',
      '&a ',
      '*a',
      '|',
      '? ',
      '%',
      '!x ',
      '-1',
      '1e400',
    ),
    fc.string({ maxLength: 12, unit: 'binary' }),
  );
  return fc
    .tuple(fc.nat(text.length), fc.nat(30), junk)
    .map(([start, length, extra]) => text.slice(0, start) + extra + text.slice(start + length));
}

/** Every problem must lie inside the text and say all three things. */
function expectLocated(text: string, action: () => void): void {
  try {
    action();
  } catch (error) {
    if (!(error instanceof TautlineError)) throw error;
    const lines = text.split('\n');
    expect(error.problems.length).toBeGreaterThan(0);
    for (const { line, column, seen, expected, next } of error.problems) {
      expect(line).toBeGreaterThanOrEqual(1);
      expect(line).toBeLessThanOrEqual(lines.length);
      expect(column).toBeGreaterThanOrEqual(1);
      expect(column).toBeLessThanOrEqual((lines[line - 1] ?? '').length + 1);
      expect(Math.min(seen.length, expected.length, next.length)).toBeGreaterThan(0);
    }
  }
}

describe('damaged files', () => {
  it('have their places inside them behind a stray bracket, too', () => {
    const text = RIG.replace(/^(fingers:)/m, '}\n$1');
    expect(text).not.toBe(RIG);
    expectLocated(text, () => parseRig(text, 'rig.yaml'));
    expect(() => parseRig(text, 'rig.yaml')).toThrow(TautlineError);
  });

  it(
    'are read, or refused at places inside them: rigs',
    () => {
      fc.assert(
        fc.property(damaged(RIG), (text) => expectLocated(text, () => parseRig(text, 'rig.yaml'))),
        { numRuns: LONG ? 5000 : 60 },
      );
    },
    TIMEOUT_MS,
  );

  it(
    'are read, or refused at places inside them: recordings',
    () => {
      fc.assert(
        fc.property(damaged(REST), (text) => expectLocated(text, () => parseRest(text, 'rest.csv'))),
        { numRuns: LONG ? 5000 : 60 },
      );
    },
    TIMEOUT_MS,
  );

  it(
    'take settings without any other change, if they are still rigs',
    () => {
      const settings = parseRig(RIG, 'rig.yaml').rig.settings!;
      const plain = newRigText();
      fc.assert(
        fc.property(damaged(plain), (text) => {
          let before: ReturnType<typeof parseRig>;
          try {
            before = parseRig(text, 'rig.yaml');
          } catch {
            return;
          }
          const after = parseRig(withSettings(before.source, settings), 'rig.yaml');
          expect(after.rig).toEqual({ ...before.rig, settings });
        }),
        { numRuns: LONG ? 3000 : 25 },
      );
    },
    TIMEOUT_MS,
  );
});
