import { type ChildProcess, spawn } from 'node:child_process';

/**
 * A pseudo-terminal for tests: real drivers open `path`, the test holds the other end.
 * Made by a few lines of Python, because Node has no call for it; without python3 such tests are skipped.
 */
export interface Pty {
  path: string;
  send(bytes: Uint8Array): void;
  onData(listener: (bytes: Uint8Array) => void): void;
  /** Pulls the cable: the device disappears. */
  destroy(): Promise<void>;
}

const HELPER = `
import os, pty, sys, tty, select
master, slave = pty.openpty()
tty.setraw(slave)
os.write(1, (os.ttyname(slave) + "\\n").encode())
while True:
    ready, _, _ = select.select([0, master], [], [])
    if 0 in ready:
        data = os.read(0, 65536)
        if not data: break
        while data:
            data = data[os.write(master, data):]
    if master in ready:
        data = os.read(master, 65536)
        while data:
            data = data[os.write(1, data):]
`;

/** @returns undefined where pseudo-terminals cannot be made */
export async function openPty(): Promise<Pty | undefined> {
  if (process.platform === 'win32') return undefined;
  const helper = spawn('python3', ['-u', '-c', HELPER], { stdio: ['pipe', 'pipe', 'inherit'] });
  helper.stdin.on('error', () => {});
  const path = await firstLine(helper);
  if (path === undefined) return undefined;
  let listen: (bytes: Uint8Array) => void = () => {};
  helper.stdout.on('data', (bytes: Uint8Array) => listen(bytes));
  return {
    path,
    send: (bytes) => void helper.stdin.write(bytes),
    onData(listener) {
      listen = listener;
    },
    async destroy() {
      if (helper.exitCode !== null || helper.signalCode !== null) return;
      const gone = new Promise((resolve) => helper.once('exit', resolve));
      helper.kill('SIGKILL');
      await gone;
    },
  };
}

function firstLine(helper: ChildProcess): Promise<string | undefined> {
  return new Promise((resolve) => {
    helper.once('error', () => resolve(undefined));
    helper.once('exit', () => resolve(undefined));
    helper.stdout?.once('data', (bytes: Buffer) => resolve(bytes.toString().trim()));
  });
}

/** Title of a test that needs a pseudo-terminal, with the reason if it has to be skipped. */
export const HAS_PTY = await openPty().then(async (pty) => {
  await pty?.destroy();
  return pty !== undefined;
});
export const PTY_NOTE = HAS_PTY ? '' : ' (skipped: no python3 to make a pseudo-terminal)';
