import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readRecording } from '../../../workbench/live/read-recording.ts';
import { HAS_PTY, openPty, PTY_NOTE } from '../serial/pty.ts';
import { allItems, framesOf } from './recording-kit.ts';
import { createStreamingBoard } from './streaming-board.ts';

const root = mkdtempSync(join(tmpdir(), 'tautline-record-'));
afterAll(() => rmSync(root, { recursive: true }));
const RIG = 'examples/puppet-right.yaml';

interface Run {
  child: ChildProcess;
  ended: Promise<{ exitCode: number | null; out: string; told: string }>;
}

/** Runs the command line as a program of its own. */
function start(args: string[]): Run {
  const code = `import('./workbench/cli/main.ts').then((m) => m.main(${JSON.stringify(args)}))`;
  const child = spawn(process.execPath, ['--import', 'tsx', '-e', code]);
  let out = '';
  let told = '';
  child.stdout.on('data', (bytes) => {
    out += bytes;
  });
  child.stderr.on('data', (bytes) => {
    told += bytes;
  });
  return {
    child,
    ended: new Promise((resolve) => child.on('close', (exitCode) => resolve({ exitCode, out, told }))),
  };
}

/** A board on a pseudo-terminal that streams at the example's rate. */
async function streaming(isOn = true) {
  const pty = await openPty();
  if (!pty) throw new Error('no pseudo-terminal');
  const board = createStreamingBoard((bytes) => pty.send(bytes));
  board.isOn = isOn;
  pty.onData((bytes) => board.receive(bytes));
  const began = performance.now();
  const timer = setInterval(() => board.advance((performance.now() - began) / 1000), 5);
  return {
    path: pty.path,
    async tidy() {
      clearInterval(timer);
      await pty.destroy();
    },
  };
}

const until = async (what: () => boolean) => {
  for (let i = 0; i < 600 && !what(); i++) await new Promise((resolve) => setTimeout(resolve, 50));
};

(HAS_PTY ? describe.concurrent : describe.skip)(`tautline record${PTY_NOTE}`, () => {
  it('records for so many seconds: exit code 0, result on stdout, progress on stderr', async () => {
    const board = await streaming();
    const file = join(root, 'timed.csv');
    const { exitCode, out, told } = await start([
      'record',
      RIG,
      '--port',
      board.path,
      '--out',
      file,
      '--seconds',
      '2',
      '--json',
    ]).ended;
    await board.tidy();
    expect(exitCode).toBe(0);
    const answer = JSON.parse(out);
    expect(answer).toMatchObject({ command: 'record', ok: true, out: file });
    expect(told).toContain('Frames come.');
    const recording = await readRecording(file);
    expect(recording.facts).toMatchObject({
      rigName: 'Puppet, right hand',
      rigFile: RIG,
      isSimulated: false,
    });
    expect(framesOf(await allItems(recording))).toHaveLength(answer.frames);
    expect(answer.frames).toBeGreaterThan(100);
  });

  it('closes the file in order at Ctrl-C: exit code 0', async () => {
    const board = await streaming();
    const file = join(root, 'stopped.csv');
    const run = start(['record', RIG, '--port', board.path, '--out', file]);
    await until(() => existsSync(file) && readFileSync(file, 'utf8').split('\n').length > 100);
    run.child.kill('SIGINT');
    const { exitCode, out } = await run.ended;
    await board.tidy();
    expect(exitCode).toBe(0);
    expect(out).toMatch(/^\d+ frames in \d+\.\d s, \d+ lost, written to /);
    expect(readFileSync(file, 'utf8').endsWith('\n')).toBe(true);
    const recording = await readRecording(file);
    expect(framesOf(await allItems(recording))).toHaveLength(Number.parseInt(out, 10));
    expect(recording.warnings().listed).toEqual([]);
  });

  it('says no when no frame comes, exit code 1, and leaves no file behind', async () => {
    const board = await streaming(false);
    const file = join(root, 'none.csv');
    const run = start(['record', RIG, '--port', board.path, '--out', file, '--json']);
    await until(() => existsSync(file));
    await new Promise((resolve) => setTimeout(resolve, 500));
    run.child.kill('SIGINT');
    const { exitCode, out, told } = await run.ended;
    await board.tidy();
    expect(exitCode).toBe(1);
    expect(JSON.parse(out)).toMatchObject({ ok: false, code: 'live/no-frames' });
    expect(told).toContain('not a byte');
    expect(existsSync(file)).toBe(false);
  });

  it('says no when there is no such port, exit code 1', async () => {
    const file = join(root, 'port.csv');
    const { exitCode, told } = await start(['record', RIG, '--port', '/dev/tautline-none', '--out', file])
      .ended;
    expect(exitCode).toBe(1);
    expect(told).toContain('(port/missing)');
    expect(existsSync(file)).toBe(false);
  });

  it('refuses a file that is there already, exit code 2', async () => {
    const board = await streaming();
    const { exitCode, told } = await start(['record', RIG, '--port', board.path, '--out', 'README.md']).ended;
    await board.tidy();
    expect(exitCode).toBe(2);
    expect(told).toContain('(output/exists)');
  });
});
