import { describe, expect, it } from 'vitest';
import { formatProblems } from '../../../sim/errors.ts';
import { parseRest, readRest } from '../../../workbench/rig/read-rest.ts';
import { BROKEN_RESTS, GOOD, HEADER, rows } from './broken-rests.ts';
import { errorOf, testFolder } from './files.ts';

const folder = testFolder();

describe('a recording at rest', () => {
  it('is read by channel', () => {
    const { recording, warnings } = parseRest(GOOD, 'rest.csv');
    expect(warnings).toEqual([]);
    expect(recording.file).toBe('rest.csv');
    expect(recording.channelNames).toEqual(['thumb', 'index']);
    expect(recording.periodS).toBeCloseTo(0.01, 12);
    expect(recording.counts.map((channel) => channel.length)).toEqual([60, 60]);
    expect([...recording.counts[0]!.slice(0, 4)]).toEqual([500, 501, 502, 500]);
    expect([...recording.counts[1]!.slice(0, 3)]).toEqual([600, 599, 600]);
  });

  it.each<[string, string, number]>([
    ['time_s', '0.5', 0.5],
    ['time_ms', '500', 0.5],
    ['time_us', '500000', 0.5],
    ['t_s', '0.5', 0.5],
    ['t_ms', '500', 0.5],
    ['Time (s)', '0.5', 0.5],
    ['"time [ms]"', '500', 0.5],
  ])('takes the unit of the time from the name %s', (name, step, expected) => {
    const body = Array.from({ length: 50 }, (_, row) => `${row * Number(step)},1\n`).join('');
    expect(parseRest(`${name},a\n${body}`, 'r').recording.periodS).toBeCloseTo(expected, 12);
  });

  it.each<[string, string]>([
    ['comments and blank lines', GOOD.replace(HEADER, `# rest\n\n${HEADER}# noon\n`)],
    ['Windows line ends', GOOD.replace(/\n/g, '\r\n')],
    ['a byte order mark', `\ufeff${GOOD}`],
    ['tabs', GOOD.replace(/,/g, '\t')],
    ['spaces round the cells', GOOD.replace(/,/g, ' , ')],
    ['semicolons and decimal commas', GOOD.replace(/,/g, ';').replace(/;(\d+);/g, ';$1,0;')],
    ['no line end after the last row', GOOD.trimEnd()],
  ])('may have %s', (_title, text) => {
    const { recording, warnings } = parseRest(text, 'rest.csv');
    expect(warnings).toEqual([]);
    expect(recording.counts).toEqual(parseRest(GOOD, 'rest.csv').recording.counts);
  });

  it.each<[string, string]>([
    ['after a cell', '600,5'],
    ['after a comma', '600,500,'],
    ['in the time', '6'],
  ])('loses a last line that was cut off %s, with a warning', (_title, tail) => {
    const { recording, warnings } = parseRest(GOOD + tail, 'rest.csv');
    expect(recording.counts[0]).toHaveLength(60);
    expect(warnings).toHaveLength(1);
    // header + 60 rows, so the tail is line 62
    expect(warnings[0]).toMatchObject({
      file: 'rest.csv',
      line: 62,
      column: 1,
      seen: 'a last line that was cut off',
    });
  });

  it('with a pause is read with a warning at the row after it', () => {
    const { warnings } = parseRest(HEADER + rows(50) + rows(20, 90), 'rest.csv');
    // rows 0-490 ms are lines 2-51, then 900 ms on line 52; 69 steps in 1090 ms
    expect(warnings).toHaveLength(1);
    expect(warnings[0]).toMatchObject({ line: 52, column: 1 });
    expect(warnings[0]!.seen).toMatch(/a gap of 0\.410 s/);
  });

  it('comes with the examples', () => {
    const { recording, warnings } = readRest('examples/rest-puppet-right.csv');
    expect(warnings).toEqual([]);
    expect(recording.channelNames).toEqual(['thumb', 'index', 'middle', 'ring', 'little']);
    expect(recording.counts.map((channel) => channel.length)).toEqual([1000, 1000, 1000, 1000, 1000]);
    expect(recording.periodS).toBeCloseTo(0.01, 12);
  });
});

describe('a broken recording', () => {
  it.each(BROKEN_RESTS)('is refused for %s', (_title, text, place, seen, expected) => {
    const error = errorOf(() => parseRest(text, 'rest.csv'));
    expect(error.code).toBe('rest/invalid');
    expect(error.problems.map(({ line, column }) => `${line}:${column}`)).toEqual([place]);
    expect(error.problems[0]!.seen).toMatch(seen);
    expect(error.problems[0]!.expected).toMatch(expected);
    expect(error.problems[0]!.next).not.toBe('');
    expect(formatProblems(error)).toContain(`rest.csv:${place}: `);
    expect(formatProblems(error)).not.toMatch(/\n\s+at /);
  });

  it('is told about decimal commas between commas', () => {
    const error = errorOf(() => parseRest(GOOD.replace('\n20,502,600', '\n20,502,0,600,0'), 'rest.csv'));
    expect(error.problems[0]!.next).toMatch(/decimal commas.*semicolons/);
  });

  it('lists the problems of all rows, twenty at most', () => {
    const text = GOOD.replace('\n20,502,600', '\n20,x,600').replace('\n40,501,600', '\n40,501,y');
    expect(errorOf(() => parseRest(text, 'r')).problems.map(({ line, column }) => [line, column])).toEqual([
      [4, 4],
      [6, 8],
    ]);
    expect(errorOf(() => parseRest(HEADER + 'x,y,z\n'.repeat(5000), 'r')).problems).toHaveLength(20);
  });

  it('is named with the path it was given', () => {
    const path = folder.put('rest.csv', 'time_ms,a\n0,x\n');
    expect(errorOf(() => readRest(path)).message).toBe(`${path}:2:3: "x"`);
  });
});
