import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { whatIsMissing } from '../../bench/board/about.ts';
import { ALL_RAN, runnable, slopeOf, totalOf, unusedName } from '../../bench/board/callgrind.ts';
import { complaintOf, isAbort } from '../../bench/board/complaint.ts';
import { pickNames } from '../../bench/board/pick.ts';
import { frameShare } from '../../bench/board/share.ts';
import { jsonLine, type Row } from '../../bench/board/table.ts';

describe('counting instructions of a frame', () => {
  it('takes the slope between 30 and 70 frames, so that start-up falls out', () => {
    // 5 million of start-up and 200 thousand a frame: 5 + 6 = 11 and 5 + 14 = 19 million
    expect(slopeOf(11e6, 19e6)).toBe(200_000);
  });

  it('reads the total of a callgrind file, not one of its cost lines', () => {
    const file =
      'version: 1\ncreator: callgrind-3.19.0\npositions: line\nevents: Ir\n\nfn=(1) main\n12 400\n\ntotals: 8012345\n';
    expect(totalOf(file)).toBe(8_012_345);
    expect(() => totalOf(file.replace(/totals.*/, ''))).toThrow('callgrind wrote no total');
  });

  it('puts a stand-in for the reads and sends frames to the standard output, whole names only', () => {
    const program = { text: 'var a=analogRead,b=analogReads,z=Serial1.write,y=Serial12;', call: 'F()' };
    const line = 'var a=Math.random,b=analogReads,z=USB.write,y=Serial12;';
    expect(runnable(program, 'moving', 30).split('\n')[0]).toBe(line);
    expect(runnable(program, 'rest', 30).split('\n')[0]).toBe(line.replace('random', 'sqrt'));
  });

  it('declares the counter behind all names of the program, and tells that all frames ran', () => {
    expect(runnable({ text: 'var x;', call: 'F()' }, 'rest', 70)).toBe(
      `var x;\nvar _n=70;while(_n--)F();\nprint("${ALL_RAN}");\n`,
    );
  });

  it('takes a counter that the program does not use', () => {
    expect(unusedName('var _nn,a_n,$_n;')).toBe('_n');
    expect(unusedName('var _n=1,_a;')).toBe('_b');
    expect(runnable({ text: 'var x;', call: '_n()' }, 'rest', 30)).toContain('while(_a--)_n()');
  });
});

describe('what a run says', () => {
  // as the interpreter printed them, frames' bytes in between
  const FRAME = '\xf5\x01\x00\x00e\x02';

  it('is in order if all frames ran, whatever the frames hold', () => {
    expect(complaintOf(`${FRAME}\n${ALL_RAN}\n`, ALL_RAN)).toBeUndefined();
  });

  it.each([
    'Uncaught ReferenceError: "q" is not defined\n at line 1 col 14',
    'New interpreter error: LOW_MEMORY,MEMORY',
    'ASSERT(len<=64) FAILED AT src/jsvar.c:1',
  ])('is a complaint: %s', (words) => {
    const complaint = complaintOf(`${FRAME}${words}\n${ALL_RAN}\n`, ALL_RAN);
    expect(complaint).toContain(words);
    expect(complaint).not.toContain('\xf5');
  });

  it('is a complaint if the program ended before its last frame', () => {
    expect(complaintOf(`${FRAME}${FRAME}`, ALL_RAN)).toContain(`without printing "${ALL_RAN}"`);
  });

  it('is worth a second run only after an assertion of the interpreter itself', () => {
    expect(isAbort('ASSERT(len<=64) FAILED AT src/jsvar.c:1')).toBe(true);
    expect(isAbort('Uncaught ReferenceError: "q" is not defined')).toBe(false);
  });
});

describe('names of variants', () => {
  const KNOWN = ['default', 'default, 4 readings', 'program'];

  it('may hold commas', () => {
    expect(pickNames('default', KNOWN)).toEqual(['default']);
    expect(pickNames('default,program', KNOWN)).toEqual(['default', 'program']);
    expect(pickNames('program, default, 4 readings,default', KNOWN)).toEqual([
      'program',
      'default, 4 readings',
      'default',
    ]);
  });

  it('that do not exist are named, with those that do', () => {
    expect(() => pickNames('default,quick', KNOWN)).toThrow(/no variant "quick".*"program"/);
    expect(() => pickNames('defaults', KNOWN)).toThrow('no variant "defaults"');
    expect(() => pickNames('', KNOWN)).toThrow('no variant ""');
  });
});

describe('share of the frame time', () => {
  it('holds the interpreter and the converter of the board', () => {
    // 1e6 · 0.77 / 240 MHz = 3.2083 ms and 40 · 36.8 µs = 1.472 ms, of 10 ms
    expect(frameShare(1e6, 40, 'esp32', 100)).toBeCloseTo(0.46803, 5);
    // 1e6 · 0.77 / 160 MHz = 4.8125 ms and 40 reads, each of which reads twice: 40 · 2 · 1.5 · 36.8 µs = 4.416 ms
    expect(frameShare(1e6, 40, 'esp32-c3', 100)).toBeCloseTo(0.92285, 5);
  });
});

describe('measure:board', () => {
  const ROW: Row = {
    name: 'default',
    rest: 476_000,
    moving: 761_000,
    variables: 205,
    textVariables: 21,
    textBytes: 1985,
    reads: 40,
  };
  const ABOUT = { interpreter: '2v29.277 c5ff787b1', sha256: '36bf' };

  it('prints one line of JSON with the default chain and the whole program at the top', () => {
    const line = jsonLine(ABOUT, [ROW, { ...ROW, name: 'program', rest: 683_000, variables: 322 }]);
    expect(line).not.toContain('\n');
    const { name: _, ...figures } = ROW;
    expect(JSON.parse(line)).toMatchObject({
      ...ABOUT,
      rest: 0.476,
      moving: 0.761,
      variables: 322,
      variants: { default: { ...figures, rest: 0.476, moving: 0.761 }, program: { rest: 0.683 } },
    });
  });

  it('gives no figure at the top for what was not measured', () => {
    const printed = JSON.parse(jsonLine(ABOUT, [{ ...ROW, name: 'one euro' }]));
    expect(printed).not.toHaveProperty('rest');
    expect(printed).not.toHaveProperty('variables');
  });

  it('says what is missing and what to do', () => {
    expect(whatIsMissing('')).toMatch(/TAUTLINE_INTERPRETER is not set.*clone espruino/);
    expect(whatIsMissing('/not/there')).toContain('TAUTLINE_INTERPRETER is /not/there, which is not there');
  });

  it('ends with exit code 2 and an empty standard output if the interpreter is missing', () => {
    const { TAUTLINE_INTERPRETER: _, ...env } = process.env;
    const run = spawnSync(process.execPath, ['--import', 'tsx', 'bench/board/main.ts', '--json'], {
      env,
      encoding: 'utf8',
    });
    expect(run).toMatchObject({ status: 2, stdout: '' });
    expect(run.stderr).toContain('TAUTLINE_INTERPRETER is not set');
  });
});
