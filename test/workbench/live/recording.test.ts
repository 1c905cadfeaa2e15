import { describe, expect, it } from 'vitest';
import { TautlineError } from '../../../sim/errors.ts';
import { virtualClock } from '../../../workbench/live/clock.ts';
import { createRecorder } from '../../../workbench/live/recorder.ts';
import { COLUMN_LINE, FORMAT_LINE, textCell } from '../../../workbench/live/recording-format.ts';
import type { SessionEvent } from '../../../workbench/live/session-types.ts';
import {
  allItems,
  asItems,
  eventsOf,
  FACTS,
  framesOf,
  openText,
  plainFrames,
  recordedText,
} from './recording-kit.ts';

const EVENT: SessionEvent = { hostS: 0.5, kind: 'board-text', seen: 'The board says: "=1+1"', next: '' };

/** Reads a text to its end: frames, warnings as `line:column seen`, or the refusal as `code line:column seen`. */
async function read(text: string | Uint8Array, chunkBytes?: number) {
  try {
    const recording = await openText(text, chunkBytes);
    const items = await allItems(recording);
    const { listed, more } = recording.warnings();
    return {
      frames: framesOf(items),
      events: eventsOf(items),
      warnings: listed.map(({ line, column, seen }) => `${line}:${column} ${seen}`),
      listed,
      more,
      refused: '',
    };
  } catch (error) {
    if (!(error instanceof TautlineError)) throw error;
    const [first] = error.problems;
    return {
      frames: [],
      events: [],
      warnings: [],
      listed: error.problems,
      more: 0,
      refused: `${error.code} ${first!.line}:${first!.column} ${first!.seen}`,
    };
  }
}

describe('a recording', () => {
  it('is what its page says: comments, a line of columns, a line for each frame and event', async () => {
    const [frame] = plainFrames(1);
    const text = await recordedText([
      { frame: { ...frame!, deviceS: 12.34525, hostS: 1.5 } },
      { event: EVENT },
    ]);
    expect(text.split('\n')).toEqual([
      '# tautline recording 1',
      '# tautline,"0.1.0"',
      '# rig,"Puppet, right hand"',
      '# rig file,"hands/puppet \\u0022right\\u0022.yaml"',
      '# settings id,4275878552',
      '# program id,36',
      '# frame period s,0.01',
      '# started,"2026-11-25T10:00:00.000Z"',
      '# source,board',
      expect.stringMatching(/^# units,"device_s .* in s; .*65535 means not measured.*"$/),
      'device_s,host_s,kind,side,sequence,step,value_0,value_1,value_2,value_3,value_4,joystick_x,joystick_y,buttons,status',
      '12.34525,1.500000,hand,right,0,1,6553,0,30000,65535,0,128,0,0,8',
      '#event,0.500000,board-text,"The board says: \\u0022=1+1\\u0022",""',
      '',
    ]);
  });

  it('gives back what was put in: facts, every field of a frame, every event', async () => {
    const frames = plainFrames(600);
    frames[3] = { ...frames[3]!, kind: 'raw', joystick: [2, 40], side: 'left' };
    frames.splice(10, 0, { ...frames[9]!, step: 0 });
    frames.splice(20, 0, { ...frames[18]!, step: -1 });
    frames[30] = { ...frames[30]!, step: 3, sequence: frames[29]!.sequence + 3 };
    const odd: SessionEvent = {
      hostS: 1,
      kind: 'brown-out',
      seen: 'a\r\n;=b\u0000"\\u003d"\ud800é漢😀\u2028',
      next: '@x,"y"',
    };
    const kept = [...asItems(frames.slice(0, 31)), { event: odd }];
    const recording = await openText(
      await recordedText(kept, { ...FACTS, programId: undefined, isSimulated: true }),
    );
    expect(recording.facts).toEqual({ ...FACTS, programId: undefined, isSimulated: true });
    const items = await allItems(recording);
    expect(framesOf(items)).toEqual(frames.slice(0, 31));
    expect(eventsOf(items)).toEqual([odd]);
    expect(recording.warnings()).toEqual({ listed: [], more: 0 });
  });

  it('keeps the board’s time exactly for every 250 us of four days', async () => {
    const frames = Array.from({ length: 2000 }, (_, n) => ({
      ...plainFrames(1)[0]!,
      sequence: n & 255,
      deviceS: (n * 691_213 + n) / 4000,
    }));
    const { frames: back } = await read(await recordedText(asItems(frames)));
    expect(back.map(({ deviceS }) => deviceS)).toEqual(frames.map(({ deviceS }) => deviceS));
  });

  it.each([
    '=1+1',
    '+1',
    '-1',
    '@SUM(1)',
    'a,=1+1',
    'a;=1',
    'a\t=1',
    'a\r=1',
    'a\n=1',
    '"=1',
    ' =1',
    "'=1",
    'x|=1',
  ])(
    'no spreadsheet finds a formula in a text such as %j, whatever it takes for a separator',
    async (text) => {
      const whole = await recordedText([{ event: { ...EVENT, seen: text, next: text } }], {
        ...FACTS,
        rigName: text,
        rigFile: text,
        version: text,
      });
      for (const separator of [',', ';', '\t', '|', ' ']) {
        for (const cell of whole.split(/[\r\n]+/).flatMap((line) => line.split(separator))) {
          // A number may begin with a minus.
          expect(cell.replace(/^["'\s]+/, '')).not.toMatch(/^[=+@]|^-(?!\d+(\.\d+)?$)/);
        }
      }
      expect((await read(whole)).events[0]).toMatchObject({ seen: text, next: text });
    },
  );

  it('is the same however its bytes are cut', async () => {
    const text = await recordedText([...asItems(plainFrames(50)), { event: { ...EVENT, seen: 'é漢😀' } }]);
    const whole = await read(text, 1_000_000);
    expect(whole.frames).toHaveLength(50);
    for (const size of [1, 2, 3, 7, 64]) expect(await read(text, size)).toEqual(whole);
  });
});

describe('the recorder', () => {
  function recording(append: (lines: string) => void, clock = virtualClock()) {
    const troubles: string[] = [];
    const recorder = createRecorder(FACTS, { append, async close() {} }, clock, ({ code }) =>
      troubles.push(code),
    );
    return { clock, recorder, troubles };
  }

  it('hands on whole lines, each within a second', () => {
    const blocks: { atS: number; lines: string }[] = [];
    const clock = virtualClock();
    const { recorder } = recording((lines) => blocks.push({ atS: clock.nowS(), lines }), clock);
    const put: number[] = [];
    for (const frame of plainFrames(1000)) {
      clock.advance(clock.nowS() + 0.01);
      put.push(clock.nowS());
      recorder.frame(frame);
    }
    clock.advance(clock.nowS() + 1);
    expect(blocks[0]!.atS).toBe(0);
    expect(blocks.length).toBeLessThan(30);
    let line = 0;
    for (const { atS, lines } of blocks.slice(1)) {
      expect(lines.endsWith('\n')).toBe(true);
      for (const _ of lines.trimEnd().split('\n')) {
        expect(atS - put[line]!).toBeLessThanOrEqual(1);
        line++;
      }
    }
    expect(line).toBe(1000);
  });

  it('tells once that the disk is full, and keeps nothing from then on', async () => {
    let room = 5000;
    const { clock, recorder, troubles } = recording((lines) => {
      room -= lines.length;
      if (room < 0) throw new Error('ENOSPC: no space left on device');
    });
    for (const frame of plainFrames(5000)) {
      recorder.frame(frame);
      clock.advance(clock.nowS() + 0.01);
    }
    await recorder.close();
    expect(troubles).toEqual(['output/not-written']);
    expect(recorder.trouble()?.detail).toMatch(/no space left/);
    expect(recorder.counts().frames).toBeLessThan(500);
  });
});

describe('a recording that is not as it was written', () => {
  const whole = () => recordedText(asItems(plainFrames(60)));
  const HEADER = 11;

  it('is read up to the cut, wherever it is cut', async () => {
    const text = await whole();
    const bodyAt = text.indexOf(COLUMN_LINE) + COLUMN_LINE.length + 1;
    for (let cut = bodyAt; cut < text.length; cut += 37) {
      const part = text.slice(0, cut);
      const lines = part.slice(bodyAt).split('\n').length - 1;
      const { frames, warnings } = await read(part);
      expect(frames).toHaveLength(lines);
      expect(warnings).toEqual(
        part.endsWith('\n') ? [] : [`${HEADER + lines + 1}:1 a last line that was cut off`],
      );
    }
  });

  it('is refused when it was cut before its first frame', async () => {
    const text = await whole();
    expect((await read(text.slice(0, 40))).refused).toBe('recording/foreign 2:1 the end of the file');
    expect((await read('')).refused).toBe('recording/foreign 1:1 a file without rows');
  });

  it.each([
    ['a byte order mark', (text: string) => `\ufeff${text}`, ['1:1 a byte order mark']],
    ['line ends of another system', (text: string) => text.replaceAll('\n', '\r\n'), []],
    ['line ends of an old system', (text: string) => text.replaceAll('\n', '\r'), []],
    [
      'mixed line ends',
      (text: string) => text.replace('\n', '\r\n'),
      ['2:1 line ends of more than one kind'],
    ],
    ['blank lines and comments', (text: string) => text.replace(/\n(0\.1)/g, '\n\n# mine\n$1'), []],
    [
      'a tail of zeros, as a power cut leaves it',
      (text: string) => text + '\0'.repeat(70_000),
      [`${HEADER + 61}:1 zeros at the end, as a power cut leaves them`],
    ],
  ])('is read in spite of %s', async (_what, change, warnings) => {
    const result = await read(change(await whole()));
    expect(result.refused).toBe('');
    expect(result.frames).toEqual(plainFrames(60));
    expect(result.warnings).toEqual(warnings);
  });

  it.each([
    ['zeros in a line', 'hand', 'ha\0nd', '17:20 a character that is no text (U+0000)'],
    ['a word for a number', ',6553,5,', ',6553,five,', '17:38 "five"'],
    ['a value too large', ',6553,5,', ',65536,5,', '17:33 "65536"'],
    ['another kind', ',hand,', ',foot,', '17:18 "foot"'],
    ['a time between two steps', /^0\.052/, '0.05213', '17:1 "0.0521300"'],
    ['a cell missing', ',right,', ',', '17:56 14 cells'],
    ['a line without end', 'right', 'r'.repeat(100_000), '17:1 a line without end'],
  ])('leaves out a line with %s and names its place', async (_what, from, to, warning) => {
    const lines = (await whole()).split('\n');
    lines[16] = lines[16]!.replace(from, to);
    const { frames, warnings, listed } = await read(lines.join('\n'));
    expect(frames).toHaveLength(59);
    expect(warnings[0]).toBe(warning);
    expect(listed[0]).toMatchObject({ file: 'R.csv', line: 17, next: expect.stringMatching(/left out/) });
    // The next frame does not follow the one before.
    expect(warnings[1]).toMatch(/^18:1 sequence 6 with a step of 1 after sequence 4/);
  });

  it('tells lines that were put into another order, and keeps their order', async () => {
    const lines = (await whole()).split('\n');
    [lines[20], lines[21]] = [lines[21]!, lines[20]!];
    const { frames, warnings } = await read(lines.join('\n'));
    expect(frames).toHaveLength(60);
    expect(warnings[0]).toBe('21:1 sequence 10 with a step of 1 after sequence 8');
  });

  it('is refused when it was sorted by something else', async () => {
    const text = await recordedText(asItems(plainFrames(400)));
    const lines = text.trimEnd().split('\n');
    const sorted = [...lines.slice(0, HEADER), ...lines.slice(HEADER).reverse()];
    const { refused, listed } = await read(`${sorted.join('\n')}\n`);
    expect(refused).toMatch(/^recording\/invalid 1\d\d:1 the host time/);
    expect(listed).toHaveLength(20);
  });

  it.each([
    ['a recording at rest', 'time_s,thumb\n0,1\n', 'recording/foreign 1:1 "time_s,thumb"'],
    [
      'no text',
      new Uint8Array(3000).map((_, i) => (i * 7) & 255),
      /^recording\/foreign 1:1 bytes that are no text/,
    ],
    ['a newer format', `${FORMAT_LINE.replace('1', '2')}\n`, 'recording/version 1:1 a recording of format 2'],
    ['other columns', `${FORMAT_LINE}\na,b\n`, 'recording/foreign 2:1 the columns "a,b"'],
    [
      'a spreadsheet’s separators',
      `${FORMAT_LINE};;\n${COLUMN_LINE.replaceAll(',', ';')}\n`,
      /^recording\/foreign 1:1|^recording\/resaved 2:1/,
    ],
    [
      'comments without end',
      `${FORMAT_LINE}\n${'# x\n'.repeat(500)}`,
      'recording/foreign 201:1 a header without end',
    ],
  ])('is refused with its place when it is %s', async (_what, text, refused) => {
    const result = await read(text);
    expect(result.refused).toMatch(refused);
    expect(result.listed[0]!.next).not.toBe('');
  });

  it('is refused where a second recording begins', async () => {
    const text = await whole();
    const result = await read(text + text);
    expect(result.refused).toBe(`recording/second ${HEADER + 61}:1 the start of a second recording`);
  });

  it('is refused after twenty damaged lines', async () => {
    const text = await recordedText(asItems(plainFrames(400)));
    const { refused, listed } = await read(text.replaceAll(',hand,', ',hnad,'));
    expect(refused).toMatch(/^recording\/invalid 12:\d+ "hnad"/);
    expect(listed).toHaveLength(20);
  });

  it('a cell of a text is one cell', () => {
    expect(textCell('a"b\nc')).toBe('"a\\u0022b\\u000ac"');
  });
});
