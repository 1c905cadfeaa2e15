import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openPty } from './pty.ts';

/** The interpreter's Linux build with its console on a pseudo-terminal, as a board is on a port. */
export async function interpreterOnPty(
  interpreter: string,
): Promise<{ path: string; stop(): Promise<void> } | undefined> {
  const pty = await openPty();
  if (!pty) return undefined;
  const folder = mkdtempSync(join(tmpdir(), 'tautline-board-'));
  const board = spawn(interpreter, [], { cwd: folder, stdio: ['pipe', 'pipe', 'ignore'] });
  board.stdin.on('error', () => {});
  board.stdout.on('data', (bytes: Uint8Array) => pty.send(bytes));
  pty.onData((bytes) => void board.stdin.write(bytes));
  return {
    path: pty.path,
    async stop() {
      board.kill('SIGKILL');
      await pty.destroy();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
