import { describe, expect, it } from 'vitest';
import { failingLoad } from './load-bench.ts';
import { streamingProgram } from './streaming-program.ts';

const QUICK = { probeMs: 700, probeEveryMs: 200 };

describe.concurrent('load, boards that do not do as they should', () => {
  it('swallows what comes after 255 bytes: bytes are lost', async () => {
    const end = await failingLoad({ bytesTaken: 255 }, { stallMs: 600, answerMs: 600 });
    expect(end).toMatchObject({ exitCode: 1, code: 'load/bytes-lost', released: true });
    expect(end.next).toContain('--slow');
  });

  it('swallows in the middle of the program: tells how much came through', async () => {
    const end = await failingLoad({ bytesTaken: 1200 }, { stallMs: 600 });
    expect(end).toMatchObject({ exitCode: 1, code: 'load/bytes-lost', released: true });
    expect(end.message).toMatch(/512 of \d+ bytes came through/);
  });

  it('sends XOFF and never XON: flow control is stuck', async () => {
    const end = await failingLoad({ xoffAfterBytes: 700 }, { xonMs: 300 });
    expect(end).toMatchObject({ exitCode: 1, code: 'load/flow-stuck', released: true });
    expect(end.message).toContain('XOFF');
    // One portion of 20 bytes may be on its way.
    expect(end.heard).toBeLessThanOrEqual(720);
  });

  it('sends XOFF before its first answer: flow control is stuck', async () => {
    const end = await failingLoad({ xoffAfterBytes: 10, bytesTaken: 10 }, QUICK);
    expect(end).toMatchObject({ exitCode: 1, code: 'load/flow-stuck', released: true });
  });

  it('accepts everything and runs nothing: uploaded but not running', async () => {
    const end = await failingLoad({ startsNothing: true }, { runMs: 400 });
    expect(end).toMatchObject({ exitCode: 1, code: 'load/not-running', released: true });
    expect(end.message).toContain('no frame came');
  });

  it('restarts for ever on opening: tells so', async () => {
    const end = await failingLoad({ restartMs: 120, restartsForever: true }, QUICK);
    expect(end).toMatchObject({ exitCode: 1, code: 'load/restarts', released: true });
    expect(end.message).toMatch(/restarted [3-9] times/);
  });

  it('talks at another rate: tells so', async () => {
    const end = await failingLoad({ foreignBaud: true }, QUICK);
    expect(end).toMatchObject({ exitCode: 1, code: 'load/baud', released: true });
    expect(end.message).toContain('115200');
  });

  it('says nothing: no interpreter', async () => {
    const end = await failingLoad({ silent: true }, QUICK);
    expect(end).toMatchObject({ exitCode: 1, code: 'load/no-interpreter', released: true });
    expect(end.next).toContain('tautline flash');
  });

  it('waits for an image: tells to let go of BOOT, at once', async () => {
    const onOpen = Buffer.from(
      'rst:0x1 (POWERON_RESET),boot:0x3 (DOWNLOAD_BOOT)\r\nwaiting for download\r\n',
    );
    const startMs = performance.now();
    const end = await failingLoad({ silent: true, onOpen }, { probeMs: 8000 });
    expect(end).toMatchObject({ exitCode: 1, code: 'load/flash-mode', released: true });
    expect(performance.now() - startMs).toBeLessThan(4000);
  });

  it('is unplugged in the middle: the port is gone', async () => {
    const end = await failingLoad({ pullAfterBytes: 900 });
    expect(end).toMatchObject({ exitCode: 1, code: 'port/gone', released: true });
    expect(end.message).toContain('sending the program');
  });

  it.each(['1v99', '2v24.1'])('has release %s: too old', async (release) => {
    const end = await failingLoad({ release });
    expect(end).toMatchObject({ exitCode: 1, code: 'load/too-old', released: true });
    expect(end.message).toContain(release);
    expect(end.message).toContain('2v25');
  });

  it('has hardly a variable free: out of memory', async () => {
    const end = await failingLoad({ freeVariables: 60 });
    expect(end).toMatchObject({ exitCode: 1, code: 'load/memory', released: true });
  });

  it('reads back something else: damaged, and the old program stays chosen', async () => {
    const end = await failingLoad({ damagesFiles: true });
    expect(end).toMatchObject({ exitCode: 1, code: 'load/damaged', released: true });
    expect(end.bench.board.storage.has('taut.run')).toBe(false);
  });

  it('takes too long: ends at the limit and tells during what', async () => {
    const end = await failingLoad({ silent: true }, { totalMs: 500 });
    expect(end).toMatchObject({ exitCode: 1, code: 'port/too-long', released: true });
    expect(end.message).toContain('asking the interpreter');
  });
});

describe.concurrent('load, programs that do not do as they should', () => {
  it('fails at its start: tells the board’s own words', async () => {
    const end = await failingLoad({}, { runMs: 400 }, { program: 'throw new Error("no such pin")\n' });
    expect(end).toMatchObject({ exitCode: 1, code: 'load/not-running', released: true });
    expect(end.message).toContain('no such pin');
  });

  it('runs out of memory: tells so', async () => {
    // The interpreter's own words: jsinteractive.c of espruino/Espruino c5ff787.
    const program = 'print("New interpreter error: LOW_MEMORY,MEMORY")\n';
    const end = await failingLoad({}, { runMs: 400 }, { program });
    expect(end).toMatchObject({ exitCode: 1, code: 'load/memory', released: true });
  });

  it('is another version: tells both', async () => {
    const end = await failingLoad({}, { runMs: 400 }, { program: streamingProgram(12, 600) });
    expect(end).toMatchObject({ exitCode: 1, code: 'load/wrong-program', released: true });
    expect(end.message).toContain('version 12');
    expect(end.message).toContain('57');
  });
});
