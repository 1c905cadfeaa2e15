import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { virtualClock } from '../../../workbench/live/clock.ts';
import { readRecording } from '../../../workbench/live/read-recording.ts';
import { createRecorder } from '../../../workbench/live/recorder.ts';
import { createRecordingFile } from '../../../workbench/live/recording-file.ts';
import { allItems, asItems, FACTS, framesOf, plainFrames, recordedText } from './recording-kit.ts';

const folder = mkdtempSync(join(tmpdir(), 'tautline-recording-'));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string) => join(folder, name);

describe('the file of a recording', () => {
  it('holds every line once it is closed, and is read back', async () => {
    const clock = virtualClock();
    const recorder = createRecorder(FACTS, createRecordingFile(at('a.csv')), clock);
    for (const frame of plainFrames(3000)) {
      clock.advance(clock.nowS() + 0.01);
      recorder.frame(frame);
    }
    await recorder.close();
    expect(readFileSync(at('a.csv'), 'utf8')).toBe(await recordedText(asItems(plainFrames(3000))));
    const recording = await readRecording(at('a.csv'));
    expect(recording.facts).toEqual(FACTS);
    expect(framesOf(await allItems(recording))).toEqual(plainFrames(3000));
    // It can be read as often as wanted.
    expect(await allItems(recording)).toHaveLength(3000);
  });

  it('is not replaced by another', () => {
    writeFileSync(at('old.csv'), 'dear');
    expect(() => createRecordingFile(at('old.csv'))).toThrow(
      expect.objectContaining({ code: 'output/exists' }),
    );
    expect(readFileSync(at('old.csv'), 'utf8')).toBe('dear');
  });

  it.each([
    ['in a folder that is not there', 'none/a.csv', 'output/no-folder'],
    ['that is a folder', '.', 'output/directory'],
  ])('%s is refused before anything is recorded', (_what, name, code) => {
    expect(() => createRecordingFile(at(name))).toThrow(expect.objectContaining({ code }));
  });

  it('of a process that is killed has every line up to a second before, and none is torn', async () => {
    const file = at('killed.csv');
    const code = `
      import { createRecorder } from './workbench/live/recorder.ts';
      import { createRecordingFile } from './workbench/live/recording-file.ts';
      import { realClock } from './workbench/live/clock.ts';
      const frame = ${JSON.stringify(plainFrames(1)[0])};
      const recorder = createRecorder(${JSON.stringify(FACTS)}, createRecordingFile(${JSON.stringify(file)}), realClock());
      let n = 0;
      setInterval(() => {
        recorder.frame({ ...frame, sequence: n & 255, deviceS: n / 100, hostS: n / 100 });
        process.stdout.write(n++ + '\\n');
      }, 5);`;
    const child = spawn(process.execPath, ['--import', 'tsx', '--input-type=module', '-e', code]);
    const given: number[] = [];
    let failed = '';
    child.stderr.on('data', (text) => {
      failed += text;
    });
    child.stdout.on('data', (text) => {
      for (const _ of String(text).trim().split('\n')) given.push(performance.now());
    });
    const ended = new Promise((resolve) => child.on('exit', resolve));
    while (given.length < 400 && failed === '') await new Promise((resolve) => setTimeout(resolve, 20));
    child.kill('SIGKILL');
    const killed = performance.now();
    await ended;
    expect(failed).toBe('');
    const recording = await readRecording(file);
    const frames = framesOf(await allItems(recording));
    expect(recording.warnings().listed).toEqual([]);
    expect(frames.map(({ sequence }) => sequence)).toEqual(frames.map((_, n) => n & 255));
    const due = given.filter((ms) => ms < killed - 1000).length;
    expect(due).toBeGreaterThan(0);
    expect(frames.length).toBeGreaterThanOrEqual(due);
  });

  it.each([
    ['not there', 'none.csv', 'recording/not-found'],
    ['a folder', '.', 'recording/directory'],
  ])('that is %s is told when it is to be read', async (_what, name, code) => {
    await expect(readRecording(at(name))).rejects.toMatchObject({ code });
  });

  it('in UTF-16 is told as such', async () => {
    writeFileSync(at('wide.csv'), `\ufeff${await recordedText([])}`, 'utf16le');
    await expect(readRecording(at('wide.csv'))).rejects.toMatchObject({
      code: 'recording/binary',
      problems: [expect.objectContaining({ seen: 'text in UTF-16' })],
    });
  });
});
