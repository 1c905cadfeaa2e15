import { describe, expect, it } from 'vitest';
import { RUN_LINES } from '../../../workbench/serial/link.ts';
import { type BoardConsole, createBoardConsole } from '../../../workbench/serial/load/board-console.ts';
import { USUAL_PACE } from '../../../workbench/serial/load/gate.ts';
import { createMemoryLink, type Plug } from '../../../workbench/serial/memory-link.ts';

// The worked example of SPEC.md, kind "hand": made with Python's struct and zlib.
const HAND = 'f52aa00f9919cc4c008066e6ffff807f350 0bd06'.replace(/ /g, '');
const FRAME = Uint8Array.from(Buffer.from(HAND, 'hex'));

async function made(
  xonLimitMs = 100,
): Promise<{ board: BoardConsole; plug: Plug; heard: number[]; sent: number[] }> {
  let plug: Plug | undefined;
  const sent: number[] = [];
  const link = createMemoryLink('MEM', (given) => {
    plug = given;
    return { receive: (bytes) => void sent.push(...bytes) };
  });
  const board = createBoardConsole(link, USUAL_PACE, xonLimitMs);
  const heard: number[] = [];
  board.onConsole((bytes) => heard.push(...bytes));
  await link.open(115_200, RUN_LINES);
  board.obeyFlowControl();
  return { board, plug: plug!, heard, sent };
}

const turn = (ms = 5) => new Promise((resolve) => setTimeout(resolve, ms));

describe('the board’s console', () => {
  it('hands on what lies between frames, and nothing of the frames', async () => {
    const { board, plug, heard } = await made();
    let frames = 0;
    board.onFrame(() => frames++);
    plug.send(Uint8Array.of(0x06));
    plug.send(Uint8Array.from([...FRAME, 0x41, ...FRAME.subarray(0, 7)]));
    plug.send(Uint8Array.from([...FRAME.subarray(7), 0x15]));
    await turn();
    expect(heard).toEqual([0x06, 0x41, 0x15]);
    expect(frames).toBe(2);
    expect(board.text()).toBe('A');
  });

  it('takes lengths of 17 and 19 in packets for lengths, not for XON and XOFF', async () => {
    const { board, plug, heard, sent } = await made();
    const packet = [0x10, 0x01, 0x00, 0x13, ...Buffer.from('[1822,12345678901] ')];
    plug.send(Uint8Array.from(packet));
    await turn();
    expect(heard).toEqual(packet);
    await board.write(Uint8Array.of(0x41));
    expect(sent).toEqual([0x41]);
  });

  it('stops at XOFF, goes on at XON, and keeps both from its listener', async () => {
    const { board, plug, heard, sent } = await made(5000);
    plug.send(Uint8Array.of(0x13));
    await turn();
    const writing = board.write(Uint8Array.of(1, 2));
    await turn(30);
    expect(sent).toEqual([]);
    plug.send(Uint8Array.of(0x11));
    await writing;
    expect(sent).toEqual([1, 2]);
    expect(heard).toEqual([]);
  });

  it('gives up when XON does not come', async () => {
    const { board, plug } = await made(40);
    plug.send(Uint8Array.of(0x13));
    await turn();
    await expect(board.write(Uint8Array.of(1))).rejects.toMatchObject({ code: 'load/flow-stuck' });
  });

  it('hands on a lone sync byte after a short silence', async () => {
    const { plug, heard } = await made();
    plug.send(Uint8Array.of(0xf5, 0x06));
    await turn(5);
    expect(heard).toEqual([]);
    await turn(120);
    expect(heard).toEqual([0xf5, 0x06]);
  });

  it('writes in portions of 20 bytes with pauses, in order', async () => {
    const { board, sent } = await made();
    const startMs = performance.now();
    await Promise.all([board.write(new Uint8Array(50).fill(1)), board.write(new Uint8Array(10).fill(2))]);
    // Four portions; timers may be 1 ms early.
    expect(performance.now() - startMs).toBeGreaterThanOrEqual(4 * 4);
    expect(sent).toEqual([...new Array(50).fill(1), ...new Array(10).fill(2)]);
  });
});
