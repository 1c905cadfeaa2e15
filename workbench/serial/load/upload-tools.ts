import { fork } from 'node:child_process';
import { TautlineError } from '../../../sim/errors.ts';
import type { FromUpload, ToUpload } from './upload-messages.ts';

/** The interpreter's own upload tools, at work in a process of their own. */
export interface UploadTools {
  /** Bytes that the board sent, frames already taken out. */
  received(bytes: Uint8Array): void;
  /**
   * Evaluates one expression on the board.
   * @returns its value; strings, numbers, booleans, null
   * @throws UploadFailure when the board refused or did not answer
   */
  evaluate(text: string, limitMs: number): Promise<unknown>;
  /** Writes a file into the board's storage by acknowledged packets. @throws UploadFailure */
  sendFile(
    name: string,
    data: string,
    packetBytes: number,
    onProgress: (doneBytes: number) => void,
  ): Promise<void>;
  /** Ends the process. */
  close(): void;
}

/** The tools' own words for what went wrong on the wire. */
export class UploadFailure extends Error {}

/** How long the tools may take to start, ms; measured 0.4 s. */
const START_LIMIT_MS = 15_000;

/**
 * Starts the tools.
 * @param write takes bytes for the board; the tools go on when it resolves
 * @throws TautlineError `load/tools` when they do not start
 */
export async function startUploadTools(write: (bytes: Uint8Array) => Promise<void>): Promise<UploadTools> {
  const source = import.meta.url.endsWith('.ts');
  const child = fork(new URL(source ? './upload-child.ts' : './upload-child.js', import.meta.url), {
    execArgv: source ? ['--import', 'tsx'] : [],
    serialization: 'advanced',
    stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
  });
  let said = '';
  child.stderr?.on('data', (bytes: Buffer) => {
    said = (said + bytes.toString()).slice(-2000);
  });
  const jobs = new Map<number, { resolve(value: unknown): void; reject(error: Error): void }>();
  let count = 0;
  let hearProgress: (doneBytes: number) => void = () => {};
  let ready: { resolve(): void; reject(error: Error): void };

  const tell = (message: ToUpload): void => {
    if (child.connected) child.send(message);
  };

  function ask(make: (number: number) => ToUpload): Promise<unknown> {
    count++;
    const number = count;
    return new Promise((resolve, reject) => {
      jobs.set(number, { resolve, reject });
      tell(make(number));
    });
  }

  child.on('message', (message: FromUpload) => {
    if (message.kind === 'ready') ready.resolve();
    else if (message.kind === 'progress') hearProgress(message.doneBytes);
    else if (message.kind === 'write') {
      // A write that fails is reported by the console itself; the tools then wait until they are ended.
      write(message.bytes).then(
        () => tell({ kind: 'written', number: message.number }),
        () => {},
      );
    } else {
      const job = jobs.get(message.number);
      jobs.delete(message.number);
      if (message.kind === 'done') job?.resolve(JSON.parse(message.value));
      else job?.reject(new UploadFailure(message.reason));
    }
  });
  child.on('exit', (code) => {
    const error = toolsError(`they ended with code ${code}. ${said}`);
    ready.reject(error);
    for (const job of jobs.values()) job.reject(error);
  });

  await new Promise<void>((resolve, reject) => {
    ready = { resolve, reject };
    child.once('error', (error) => reject(toolsError(error.message)));
    const timer = setTimeout(() => {
      child.kill('SIGKILL');
      reject(toolsError(`they did not start within ${START_LIMIT_MS / 1000} s. ${said}`));
    }, START_LIMIT_MS);
    timer.unref();
  });

  return {
    received: (bytes) => tell({ kind: 'received', bytes }),
    evaluate: (text, limitMs) => ask((number) => ({ kind: 'evaluate', number, text, limitMs })),
    async sendFile(name, data, packetBytes, onProgress) {
      hearProgress = onProgress;
      await ask((number) => ({ kind: 'sendFile', number, name, data, packetBytes }));
    },
    close() {
      child.removeAllListeners('exit');
      child.kill('SIGKILL');
    },
  };
}

function toolsError(what: string): TautlineError {
  return new TautlineError('load/tools', `The upload tools did not work: ${what.trim()}`, {
    detail: 'Install the packages anew (npm ci) and try again.',
  });
}
