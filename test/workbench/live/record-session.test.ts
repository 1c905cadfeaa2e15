import { describe, expect, it } from 'vitest';
import { virtualClock } from '../../../workbench/live/clock.ts';
import { type RecordOrder, recordSession } from '../../../workbench/live/record-session.ts';
import { openError } from '../../../workbench/serial/port-errors.ts';
import { allItems, eventsOf, FACTS, framesOf, openText } from './recording-kit.ts';
import { createTestPort, settle } from './session-rig.ts';
import { createStreamingBoard } from './streaming-board.ts';

/** A recording of a board in memory. */
function rig(more: Partial<RecordOrder> = {}) {
  const clock = virtualClock();
  const port = createTestPort('/dev/ttyUSB0');
  const board = createStreamingBoard((bytes) => port.send(bytes));
  const made = { text: '', closed: false, progress: 0 };
  const begin = () =>
    recordSession({
      find: async () => port.link,
      facts: FACTS,
      sink: {
        append(lines) {
          made.text += lines;
        },
        async close() {
          made.closed = true;
        },
      },
      clock,
      baud: 115_200,
      firstTag: 0,
      seconds: 3,
      patienceS: 15,
      onEvent: () => {},
      onProgress: () => {
        made.progress++;
      },
      ...more,
    });
  async function pass(toS: number): Promise<void> {
    while (clock.nowS() < toS) {
      clock.advance(clock.nowS() + 0.01);
      board.advance(clock.nowS());
      await settle();
    }
  }
  return { clock, port, board, made, begin, pass };
}

describe('recording a session', () => {
  it('ends so long after the first frame, with every frame in the file', async () => {
    const { board, made, begin, pass } = rig();
    const { done } = begin();
    await pass(4);
    const result = await done;
    expect(result.recordedS).toBeCloseTo(3, 0);
    expect(result.frames).toBeGreaterThan(290);
    expect(result.frames).toBeLessThan(320);
    expect(made.closed).toBe(true);
    const items = await allItems(await openText(made.text));
    expect(framesOf(items)).toHaveLength(result.frames);
    expect(eventsOf(items).map(({ seen }) => seen)).toEqual([
      'looking',
      'opening',
      'listening',
      'streaming',
      'closed',
    ]);
    expect(made.progress).toBe(2);
    expect(board.sent()).toBeGreaterThan(result.frames);
  });

  it('ends in order when it is stopped', async () => {
    const { port, made, begin, pass } = rig({ seconds: Number.POSITIVE_INFINITY });
    const { done, stop } = begin();
    await pass(5);
    stop();
    stop();
    const result = await done;
    expect(result.frames).toBeGreaterThan(480);
    expect(made.closed).toBe(true);
    expect(port.isOpen()).toBe(false);
    expect(framesOf(await allItems(await openText(made.text)))).toHaveLength(result.frames);
  });

  it('gives up with what was seen when no frame comes', async () => {
    const { port, board, begin, pass } = rig();
    board.isOn = false;
    const { done } = begin();
    const failed = done.catch((error) => error);
    await pass(2);
    port.send(Uint8Array.from(Buffer.from('>\r\n>')));
    await pass(20);
    expect(await failed).toMatchObject({
      code: 'live/no-frames',
      message: expect.stringContaining(
        'No frame came from /dev/ttyUSB0: 4 bytes (4 of text, 0 without sense).',
      ),
    });
  });

  it.each([
    ['Error Resource temporarily unavailable Cannot lock port', 'port/busy'],
    ['Error: Permission denied, cannot open /dev/ttyUSB0', 'port/denied'],
  ])('does not wait for a port that cannot be opened: %s', async (said, code) => {
    const { port, begin, pass } = rig();
    port.refuses = openError('/dev/ttyUSB0', new Error(said), 'linux');
    const { done } = begin();
    const failed = done.catch((error) => error);
    await pass(1);
    expect(await failed).toMatchObject({ code });
  });

  it('stops when the disk is full, and says so', async () => {
    const { begin, pass } = rig({
      seconds: 1000,
      sink: {
        append(lines) {
          if (lines.includes(',hand,')) throw new Error('ENOSPC');
        },
        async close() {},
      },
    });
    const { done } = begin();
    const failed = done.catch((error) => error);
    await pass(3);
    expect(await failed).toMatchObject({ code: 'output/not-written' });
  });
});
