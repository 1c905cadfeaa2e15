import { describe, expect, it } from 'vitest';
import { boardBench, ID } from './load-bench.ts';
import { streamingProgram } from './streaming-program.ts';

describe.concurrent('load, board in memory', () => {
  it('loads, reads back, starts, and sees the program run within 10 s', async () => {
    const bench = boardBench();
    const { plug, board } = bench;
    const stages: string[] = [];
    const result = await bench.load({ onStage: (words) => stages.push(words) });
    expect(result.tookMs).toBeLessThan(10_000);
    expect(result.interpreter).toEqual({ release: '2v29.277', board: 'EMULATED' });
    expect(result.framesSeen).toBeGreaterThanOrEqual(5);
    expect(board.storage.get('taut.a')?.trimEnd()).toBe(streamingProgram(ID, 1500).trimEnd());
    expect(board.storage.get('taut.run')).toBe('a');
    expect(stages.at(-1)).toBe('starting the program');
    expect(plug.isOpen()).toBe(false);
  });

  it('sends none of the bytes that the console acts on, in no length either', async () => {
    const bench = boardBench();
    const { board } = bench;
    await bench.load();
    const sent = new Set(board.bytes());
    expect([0x03, 0x04, 0x11, 0x13].filter((byte) => sent.has(byte))).toEqual([]);
  });

  it('writes the two program files in turn and the start program once', async () => {
    const bench = boardBench();
    expect((await bench.load()).boardFile).toBe('taut.a');
    const first = bench.board.storage.get('taut.a');
    expect((await bench.load({ program: streamingProgram(ID, 700) })).boardFile).toBe('taut.b');
    expect(bench.board.storage.get('taut.a')).toBe(first);
    expect(bench.board.storage.get('taut.run')).toBe('b');
    expect((await bench.load()).boardFile).toBe('taut.a');
  });

  it('stops a running program whose frames hold acknowledge and flow-control bytes', async () => {
    const bench = boardBench();
    // 0x06, 0x13 and 0x15 as values: taken for answers or XOFF if the frames were not taken out first.
    bench.board.run(
      streamingProgram(0x13).replace('w[2]=65535', 'w[2]=0x1306').replace('w[3]=65535', 'w[3]=0x1515'),
    );
    expect((await bench.load()).framesSeen).toBeGreaterThanOrEqual(5);
  });

  it('loads a program shorter than one packet', async () => {
    const result = await boardBench().load({ program: streamingProgram(ID) });
    expect(result.programBytes).toBe(512);
  });

  it('waits for a board that restarts when the port opens', async () => {
    const bench = boardBench({ restartMs: 400 });
    const result = await bench.load({ limits: { probeEveryMs: 150 } });
    expect(result.framesSeen).toBeGreaterThanOrEqual(5);
  });

  it('passes over boot text of another rate', async () => {
    // What 74880 baud text is read as at 115200: see SPEC.md, "Why 0xF5".
    const onOpen = Uint8Array.from({ length: 300 }, (_, i) => [0xfc, 0xfe, 0xff, 0x00][i % 4]!);
    const result = await boardBench({ onOpen }).load();
    expect(result.framesSeen).toBeGreaterThanOrEqual(5);
  });

  it('obeys XOFF until XON comes', async () => {
    const result = await boardBench({ xoffForMs: { afterBytes: 300, ms: 60 } }).load();
    expect(result.framesSeen).toBeGreaterThanOrEqual(5);
  });

  it('is not stopped by a frame that was cut in two when the port opened', async () => {
    // The end of a frame that holds XOFF: no XON will come.
    const onOpen = Uint8Array.of(0x13, 0x00, 0x80, 0x13, 0x35, 0x00, 0xbd, 0x06);
    const result = await boardBench({ onOpen }).load({ limits: { xonMs: 300 } });
    expect(result.framesSeen).toBeGreaterThanOrEqual(5);
  });

  it.each(['clearInterval', 'getFree', 'new Uint8Array', '.length,E.CRC32', 'load()'])(
    'gets over a byte that is lost in "%s"',
    async (words) => {
      // All that is sent is the same every time: a run without losses tells where it is.
      const clean = boardBench();
      const { board: heard } = clean;
      await clean.load();
      const at = Buffer.from(heard.bytes()).toString('latin1').indexOf(words);
      expect(at).toBeGreaterThan(0);
      const bench = boardBench({ losesByte: at + 2 });
      const { board } = bench;
      const result = await bench.load({ limits: { nudgeMs: 300, answerMs: 600 } });
      expect(board.storage.get('taut.a')?.trimEnd()).toBe(streamingProgram(ID, 1500).trimEnd());
      expect(result.framesSeen).toBeGreaterThanOrEqual(5);
    },
  );
});
