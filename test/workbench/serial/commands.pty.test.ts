import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { createEmulatedBoard } from './emulated-board.ts';
import { createEmulatedChip } from './emulated-rom.ts';
import { madeImage } from './made-image.ts';
import { onPty } from './on-pty.ts';
import { HAS_PTY, PTY_NOTE } from './pty.ts';
import { streamingProgram } from './streaming-program.ts';

const root = mkdtempSync(join(tmpdir(), 'tautline-commands-'));
afterAll(() => rmSync(root, { recursive: true }));

/** Runs the command line as a program of its own. */
function run(args: string[]): Promise<{ exitCode: number | null; out: string; told: string }> {
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
  return new Promise((resolve) => child.on('exit', (exitCode) => resolve({ exitCode, out, told })));
}

(HAS_PTY ? describe.concurrent : describe.skip)(`the commands on a port${PTY_NOTE}`, () => {
  it('flash: exit code 0, result on stdout, progress on stderr', async () => {
    const { pty, far } = await onPty((plug) => createEmulatedChip(plug, 'esp32-c3', { inLoader: true }));
    const [boot, table, program] = madeImage('esp32-c3', 50_000).parts;
    writeFileSync(join(root, 'bootloader.bin'), boot!.bytes);
    writeFileSync(join(root, 'partition-table.bin'), table!.bytes);
    writeFileSync(join(root, 'espruino-esp32c3.bin'), program!.bytes);
    const { exitCode, out, told } = await run(['flash', '--port', pty.path, '--image-dir', root, '--json']);
    expect(exitCode).toBe(0);
    expect(JSON.parse(out)).toMatchObject({
      command: 'flash',
      ok: true,
      chip: 'ESP32-C3',
      board: 'esp32-c3',
    });
    expect(told).toContain('writing');
    expect(far.flash.subarray(0x10000, 0x10000 + 50_000)).toEqual(program!.bytes);
    await pty.destroy();
  });

  it('load: exit code 0 and a sentence', async () => {
    const { pty, far } = await onPty((plug) => createEmulatedBoard(plug));
    const file = join(root, 'good.js');
    writeFileSync(file, streamingProgram(9));
    writeFileSync(join(root, 'good.json'), '{"expectedId": 9}');
    const { exitCode, out } = await run(['load', file, '--port', pty.path]);
    expect(out).toMatch(/^Program version 9 runs on .*EMULATED, interpreter 2v29\.277/);
    expect(exitCode).toBe(0);
    far.stop();
    await pty.destroy();
  });

  it('load: exit code 1, message on stderr and as JSON, when the board is the trouble', async () => {
    const { pty } = await onPty((plug) => createEmulatedBoard(plug, { release: '2v10' }));
    const file = join(root, 'old.js');
    writeFileSync(file, streamingProgram(9));
    const { exitCode, out, told } = await run([
      'load',
      file,
      '--port',
      pty.path,
      '--expect-id',
      '9',
      '--json',
    ]);
    expect(exitCode).toBe(1);
    expect(JSON.parse(out)).toMatchObject({ command: 'load', ok: false, code: 'load/too-old' });
    expect(told).toContain('(load/too-old)');
    await pty.destroy();
  });

  it('exit code 2 when the input is the trouble, before the port is touched', async () => {
    const ends = await Promise.all([
      run(['load', join(root, 'none.js'), '--port', '/dev/none']),
      run(['flash', '--port', '/dev/none', '--image-dir', join(root, 'none')]),
    ]);
    expect(ends.map((end) => end.exitCode)).toEqual([2, 2]);
    expect(ends[0]!.told).toContain('(program/missing)');
    expect(ends[1]!.told).toContain('(image/no-folder)');
  });
});
