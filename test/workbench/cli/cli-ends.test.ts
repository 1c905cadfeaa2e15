import { once } from 'node:events';
import { describe, expect, it } from 'vitest';
import { testFolder } from '../rig/files.ts';
import { stateAround } from './folder-state.ts';
import { endOf, startCli } from './run-cli.ts';
import { SMALL_HAND } from './small-hand.ts';

const folder = testFolder();
const rig = folder.put('rig.yaml', SMALL_HAND);

describe('a reader that goes away', () => {
  it.each([
    ['explain', ['explain', 'defaults', '--json']],
    ['a long table', ['sweep', rig, '--draws', '1', '--threads', '1', '--csv', '-']],
    ['threads', ['sweep', rig, '--draws', '1', '--threads', '2', '--csv', '-']],
  ])('ends the program quietly: %s', async (_title, args) => {
    const child = startCli(args);
    child.stdout?.destroy();
    const { code, stderr } = await endOf(child);
    expect(stderr.replace(/^(settings on drawn builds .*)?\r?\n/gm, '')).toBe('');
    expect(code).toBe(0);
  });

  it('of stderr alone does not keep the answer from coming', async () => {
    const child = startCli(['sweep', rig, '--draws', '1', '--threads', '1', '--json']);
    child.stderr?.destroy();
    const { code, stdout } = await endOf(child);
    expect(code).toBe(0);
    expect(JSON.parse(stdout).command).toBe('sweep');
  });
});

describe('a full disk behind stdout', () => {
  it.skipIf(process.platform !== 'linux')('is told in one sentence', async () => {
    const { spawnSync } = await import('node:child_process');
    const { openSync, closeSync } = await import('node:fs');
    const full = openSync('/dev/full', 'w');
    const done = spawnSync(process.execPath, ['bin/tautline.mjs', 'explain', 'scores'], {
      stdio: ['ignore', full, 'pipe'],
      encoding: 'utf8',
    });
    closeSync(full);
    expect(done.status).toBe(2);
    expect(done.stderr).toMatch(
      /^Standard output could not be written: ENOSPC.*Check that the disk has room\.\n/,
    );
    expect(done.stderr).not.toMatch(/^\s+at /m);
  });
});

// Windows knows no signals between processes: Node ends the other one at once there.
describe.skipIf(process.platform === 'win32')('Ctrl-C', () => {
  it.each(['1', '2'])('stops choose promptly on %s threads and leaves no file behind', async (threads) => {
    const before = stateAround(rig);
    const child = startCli([
      ...[
        'choose',
        rig,
        '--draws',
        '5000',
        '--threads',
        threads,
        '--write',
        '--report',
        folder.path('r.html'),
      ],
    ]);
    const end = endOf(child);
    // The first progress: the work is under way, and would take minutes.
    if (child.stderr) await once(child.stderr, 'data');
    const from = performance.now();
    child.kill('SIGINT');
    const { code, stdout, stderr } = await end;
    expect(performance.now() - from).toBeLessThan(3000);
    expect(code).toBe(130);
    expect(stdout).toBe('');
    expect(stderr).toMatch(/\nStopped\.\n$/);
    expect(stateAround(rig)).toEqual(before);
  });

  it('is heard in the middle of work on a single thread', async () => {
    // One round of the example takes several seconds on one thread: long past start-up, long before its end.
    const child = startCli(['choose', 'examples/puppet-right.yaml', '--threads', '1']);
    const end = endOf(child);
    await new Promise((resolve) => setTimeout(resolve, 2000));
    const from = performance.now();
    child.kill('SIGINT');
    expect((await end).code).toBe(130);
    expect(performance.now() - from).toBeLessThan(3000);
  });
});
