import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { crc32 } from '../../../protocol/crc32.ts';
import { readProgram } from '../../../workbench/serial/load/program-file.ts';
import { runHere } from './run-here.ts';

const RIG = `name: Puppet
board: esp32
hand: {side: right}
frameRate: 100 Hz
fingers:
  thumb: {pin: 32}
  index: {pin: 33}
settings:
  oversampling: 4
  despike: none
  lowPass: {kind: adaptive, restCutoff: 1 Hz, rise: 30 Hz}
  hysteresis: {kind: still, width: 0.5 %}
`;

function rigFile(text: string): { rig: string; out: string } {
  const folder = mkdtempSync(join(tmpdir(), 'tautline-bundle-'));
  writeFileSync(join(folder, 'rig.yaml'), text);
  return { rig: join(folder, 'rig.yaml'), out: join(folder, 'out') };
}

describe('tautline bundle', () => {
  it('writes a program that load takes, its map, its facts and a report at 80 columns', async () => {
    const { rig, out } = rigFile(RIG);
    const ended = await runHere('bundle', rig, '--out', out);
    expect(ended.code).toBe(0);
    expect(readdirSync(out).sort()).toEqual(['board.js', 'board.map.json', 'bundle.json', 'report.txt']);
    const program = readProgram(out);
    const about = JSON.parse(readFileSync(join(out, 'bundle.json'), 'utf8')) as { [key: string]: unknown };
    expect(program.expectedId).toBe(about.expectedId);
    expect(about).toMatchObject({
      board: 'esp32',
      hand: 'right',
      frameRateHz: 100,
      bytes: program.text.length,
    });
    // printable ASCII and line ends alone: the boards' builds know no other text
    expect(program.text).toMatch(/^[\x20-\x7e\n]+$/);
    const report = readFileSync(join(out, 'report.txt'), 'utf8');
    expect(ended.stdout).toContain(report);
    for (const line of report.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('maps the program back to the stages and their lines', async () => {
    const { rig, out } = rigFile(RIG);
    await runHere('bundle', rig, '--out', out);
    const text = readFileSync(join(out, 'board.js'), 'utf8');
    const map = JSON.parse(readFileSync(join(out, 'board.map.json'), 'utf8')) as {
      start: number;
      end: number;
      stage: string;
      file: string;
      line: number;
    }[];
    const filter = map.find((entry) => entry.stage === 'putWord');
    expect(filter?.file).toBe('firmware/chain/finger.ts');
    const source = readFileSync('firmware/chain/finger.ts', 'utf8').split('\n');
    expect(source[filter!.line - 1]).toMatch(/word/);
    expect(text.slice(filter!.start, filter!.end)).toMatch(/\[2\]=|>>16/);
    expect(map.every((entry) => entry.end > entry.start && existsSync(entry.file))).toBe(true);
  });

  it('gives the same with --json, and the same bytes each time', async () => {
    const { rig, out } = rigFile(RIG);
    const one = JSON.parse((await runHere('bundle', rig, '--out', out, '--json')).stdout) as {
      sha256: string;
    };
    const first = readFileSync(join(out, 'board.js'));
    const two = JSON.parse((await runHere('bundle', rig, '--out', out, '--json')).stdout) as {
      sha256: string;
    };
    expect(two).toEqual(one);
    expect(crc32(readFileSync(join(out, 'board.js')))).toBe(crc32(first));
  });

  it.each([
    [
      'no settings yet',
      RIG.replace(/settings:[\s\S]*/, ''),
      2,
      /no settings are chosen yet[\s\S]*choose <rig> --write/,
    ],
    [
      'a board that reads nothing',
      RIG.replace('esp32', 'esp32-s3').replace('32}', '1}').replace('33}', '2}'),
      2,
      /esp32-s3/,
    ],
    [
      'more frames than the line carries',
      RIG.replace('100 Hz', '600 Hz'),
      1,
      /No: 600 frames a second take 104 % of the serial line[\s\S]*460 frames/,
    ],
    [
      'more work than the board can do',
      RIG.replace('oversampling: 4', 'oversampling: 32').replace('100 Hz', '400 Hz'),
      1,
      /No: a frame would take \d+ % of its time/,
    ],
  ])('refuses %s, and writes nothing', async (_, text, code, words) => {
    const { rig, out } = rigFile(text);
    const ended = await runHere('bundle', rig, '--out', out);
    expect(ended.stdout + ended.stderr).toMatch(words);
    expect(ended.code).toBe(code);
    expect(existsSync(out)).toBe(false);
  });

  it('gives another program another id', async () => {
    const { rig, out } = rigFile(RIG);
    await runHere('bundle', rig, '--out', out);
    const first = readProgram(out);
    writeFileSync(rig, RIG.replace('0.5 %', '0.6 %'));
    await runHere('bundle', rig, '--out', out);
    expect(readProgram(out).expectedId).not.toBe(first.expectedId);
    // the id is the one that its health frames carry: page 1 in the high byte
    expect(first.text).toContain(String(256 + first.expectedId!));
  });

  it('leaves an older bundle as it is when it refuses', async () => {
    const { rig, out } = rigFile(RIG.replace('100 Hz', '600 Hz'));
    mkdirSync(out);
    for (const name of ['board.js', 'bundle.json']) writeFileSync(join(out, name), 'old');
    expect((await runHere('bundle', rig, '--out', out)).code).toBe(1);
    expect(readdirSync(out).map((name) => [name, readFileSync(join(out, name), 'utf8')])).toEqual([
      ['board.js', 'old'],
      ['bundle.json', 'old'],
    ]);
  });

  it('takes a folder that is there, leaves what else lies in it, and tells the sum of the program', async () => {
    const { rig, out } = rigFile(RIG);
    mkdirSync(out);
    for (const name of ['notes.txt', 'board.js']) writeFileSync(join(out, name), 'old');
    expect((await runHere('bundle', rig, '--out', out)).code).toBe(0);
    expect(readFileSync(join(out, 'notes.txt'), 'utf8')).toBe('old');
    expect(readdirSync(out)).toHaveLength(5);
    const { sha256 } = JSON.parse(readFileSync(join(out, 'bundle.json'), 'utf8')) as { sha256: string };
    expect(
      createHash('sha256')
        .update(readFileSync(join(out, 'board.js')))
        .digest('hex'),
    ).toBe(sha256);
  });

  it('sends more frames on a quicker second port than the console carries', async () => {
    const { rig, out } = rigFile(
      RIG.replace('100 Hz', '600 Hz')
        .replace('oversampling: 4', 'oversampling: 1')
        .replace('adaptive, restCutoff: 1 Hz, rise: 30 Hz', 'exponential, cutoff: 5 Hz')
        .concat('frameLink: {tx: 17, baud: 921600}\n'),
    );
    const ended = await runHere('bundle', rig, '--out', out, '--json');
    expect(ended.code).toBe(0);
    // 20 bytes of 10 bits, 600 times a second
    expect((JSON.parse(ended.stdout) as { lineShare: number }).lineShare).toBeCloseTo(120_000 / 921_600, 6);
  });

  it('tells what else is in the program, and warns of a frame that takes more time than was wished', async () => {
    const { rig, out } = rigFile(
      RIG.replace('thumb: {pin: 32}', 'thumb: {channel: 3}').concat(
        'multiplexer: {select: [18, 19, 21], signal: 32}\nwatchdog: 9 s\nwishes: {frameShare: 5 %}\n',
        'frameLink: {tx: 17, baud: 230400}\n',
      ),
    );
    const ended = await runHere('bundle', rig, '--out', out, '--watchdog', '5');
    expect(ended.code).toBe(0);
    expect(ended.stderr).toMatch(/warning: a frame takes about \d+ % of its time; your wish is at most 5 %/);
    expect(ended.stdout).toMatch(/^ {2}32, input 3 +thumb /m);
    expect(ended.stdout).toMatch(/^ {2}33 +index /m);
    expect(ended.stdout).toMatch(/^ {2}17 +frames out$/m);
    expect(ended.stdout).toMatch(/second serial port, 230400 bits a second/);
    expect(ended.stdout).toMatch(/first reading is thrown away/);
    // the command line's word counts, not the file's
    expect(ended.stdout).toMatch(/hangs for 5 s/);
    const program = readFileSync(join(out, 'board.js'), 'utf8');
    expect(program.match(/enableWatchdog\(\d+\)/g)).toEqual(['enableWatchdog(5)']);
  });

  it('refuses a watchdog that would not let a frame pass', async () => {
    const { rig, out } = rigFile(RIG);
    expect((await runHere('bundle', rig, '--out', out, '--watchdog', '0')).code).toBe(2);
    expect(existsSync(out)).toBe(false);
  });

  it.each([
    ['a folder below a file', (rig: string) => `${rig}/x`, /cannot be made/],
    ['no name', () => '', /--out is empty/],
  ])('refuses %s', async (_, nameOf, words) => {
    const { rig } = rigFile(RIG);
    const ended = await runHere('bundle', rig, '--out', nameOf(rig));
    expect(ended.code).toBe(2);
    expect(ended.stderr).toMatch(words);
  });

  it('refuses a file for the folder', async () => {
    const { rig } = rigFile(RIG);
    const ended = await runHere('bundle', rig, '--out', rig);
    expect(ended.code).toBe(2);
    expect(ended.stderr).toMatch(/is a file; expected a folder/);
  });
});
