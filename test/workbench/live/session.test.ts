import { describe, expect, it } from 'vitest';
import { RUN_LINES } from '../../../workbench/serial/link.ts';
import { openError } from '../../../workbench/serial/port-errors.ts';
import { ascii, createTestPort, sessionRig } from './session-rig.ts';
import { type BoardOptions, createStreamingBoard, frameBytes } from './streaming-board.ts';

/** What an ESP32 prints at a reset; form from espressif's documentation of its boot messages. */
const ROM = (reason: string) =>
  `ets Jul 29 2019 12:21:46\r\n\r\nrst:${reason},boot:0x13 (SPI_FAST_FLASH_BOOT)\r\nconfigsip: 0, SPIWP:0xee\r\n`;

/** A board on a port, and the session on it. */
function onBoard(boardOptions: BoardOptions = {}, more: Parameters<typeof sessionRig>[1] = {}) {
  const port = createTestPort('/dev/ttyUSB0', (bytes) => board.receive(bytes));
  const board = createStreamingBoard((bytes) => port.send(bytes), boardOptions);
  const rig = sessionRig(() => port.link, more);
  return { port, board, ...rig, live: (toS: number) => rig.run(toS, (nowS) => board.advance(nowS)) };
}

describe('a session that opens a port', () => {
  it('opens it at the rate with both lines asserted, and goes from looking to streaming', async () => {
    const { port, session, events, live } = onBoard();
    expect(session.state()).toBe('closed');
    session.start();
    await live(1);
    expect(port.opened).toEqual([{ baud: 115_200, lines: RUN_LINES }]);
    expect(events.map((event) => event.seen)).toEqual(['looking', 'opening', 'listening', 'streaming']);
    await session.stop();
    expect(session.state()).toBe('closed');
    expect(port.isOpen()).toBe(false);
  });

  it('takes a board that resets on opening: text is told, frames follow, nothing is lost', async () => {
    const { port, session, frames, told, run } = onBoard();
    session.start();
    await run(0.1);
    port.send(ascii(`${ROM('0x1 (POWERON_RESET)')} 2v29 (c) 2026\r\n>`));
    const board = createStreamingBoard((bytes) => port.send(bytes));
    board.restart(0.1, 0.8);
    await run(2, (nowS) => board.advance(nowS));
    expect(frames.length).toBe(board.sent());
    expect(session.health()).toMatchObject({ lost: 0, starts: 1, brownOuts: 0, state: 'streaming' });
    expect(told('board-started')).toHaveLength(1);
    expect(told('board-text').map((event) => event.seen)).toContain('The board says: "2v29 (c) 2026"');
    expect(told('wrong-baud')).toEqual([]);
  });

  it('does not take the ROM’s words at a lower rate for a wrong rate', async () => {
    const { port, session, told, run, clock } = onBoard();
    session.start();
    await run(0.1);
    // 2572 bytes at 74880 baud read at 115200 look like this for the most part (SPEC.md), over in 0.35 s
    await run(0.45, () => port.send(Uint8Array.of(0xfc, 0xfe, 0xff, 0x1c, 0xe0, 0x00, 0xfe)), 0.005);
    const board = createStreamingBoard((bytes) => port.send(bytes));
    board.restart(clock.nowS(), 2.5);
    await run(5, (nowS) => board.advance(nowS));
    expect(told('wrong-baud')).toEqual([]);
    expect(told('board-text')).toEqual([]);
    expect(session.state()).toBe('streaming');
  });
});

describe('a session whose board breaks down', () => {
  it('counts and tells a brown-out once for each start, whichever words come', async () => {
    const { port, board, session, told, run, live } = onBoard();
    session.start();
    await live(1);
    for (const atS of [1, 1.6, 2.2]) {
      port.send(ascii('\r\nBrownout detector was triggered\r\n\r\n'));
      port.send(ascii(ROM(atS > 2 ? '0xf (RTCWDT_BROWN_OUT_RESET)' : '0xc (SW_CPU_RESET)')));
      board.restart(atS, 0.35);
      await run(atS + 0.6, (nowS) => board.advance(nowS));
    }
    expect(session.health()).toMatchObject({ starts: 3, brownOuts: 3, lost: 0 });
    expect(told('brown-out')).toHaveLength(3);
    expect(told('board-started')).toHaveLength(3);
    expect(told('brown-out')[0]!.seen).toContain('"Brownout detector was triggered"');
    expect(told('brown-out')[0]!.next).toMatch(/100 µF/);
  });

  it('sees a brown-out that only the ROM names, as newer chips do', async () => {
    const { port, session, told, live } = onBoard();
    session.start();
    await live(0.5);
    port.send(
      ascii('ESP-ROM:esp32c3-api1-20210207\r\nrst:0xf (BROWNOUT_RST),boot:0xc (SPI_FAST_FLASH_BOOT)\r\n'),
    );
    expect(session.health()).toMatchObject({ starts: 1, brownOuts: 1 });
    expect(told('brown-out')).toHaveLength(1);
  });

  it.each([
    ['back', 20, 0.4],
    // The clock of a frame lies in a round of 16.384 s: 15 s + boot + 1.9 s is ahead of 0 by less than 4.096 s.
    ['ahead', 14, 0.5],
  ])('sees a start without a word by a clock that goes %s', async (_how, atS, bootS) => {
    const { board, session, told, run, live } = onBoard();
    session.start();
    await live(atS);
    board.restart(atS, bootS);
    const before = board.sent();
    await run(atS + 5, (nowS) => board.advance(nowS));
    expect(board.sent()).toBeGreaterThan(before + 400);
    expect(session.health()).toMatchObject({ starts: 1, lost: 0, state: 'streaming' });
    expect(told('board-started')[0]!.seen).toMatch(/clock/);
  });
});

describe('a session whose cable comes off', () => {
  it('tells it once, finds the board under another name, and tells that too', async () => {
    const first = createTestPort('/dev/ttyUSB0');
    const second = createTestPort('/dev/ttyUSB1');
    let now: typeof first | undefined = first;
    const rig = sessionRig(() => now?.link);
    const board = createStreamingBoard((bytes) => now?.send(bytes));
    rig.session.start();
    await rig.run(2, (nowS) => board.advance(nowS));
    now = undefined;
    first.end('gone', 'EIO');
    await rig.run(5, (nowS) => board.advance(nowS));
    expect(rig.session.state()).toBe('looking');
    expect(rig.told('port-gone').map((event) => event.seen)).toEqual(['/dev/ttyUSB0 went away (EIO).']);
    now = second;
    await rig.run(8, (nowS) => board.advance(nowS));
    expect(rig.session.health()).toMatchObject({ state: 'streaming', portName: '/dev/ttyUSB1', lost: 0 });
    expect(rig.told('port-back').map((event) => event.seen)).toEqual(['The board is back as /dev/ttyUSB1.']);
  });

  it('is stale within 1 s when no close event comes, and looks for the port again', async () => {
    const first = createTestPort('/dev/ttyUSB0');
    const second = createTestPort('/dev/ttyUSB3');
    let now: typeof first | undefined = first;
    const rig = sessionRig(() => now?.link);
    const board = createStreamingBoard((bytes) => now?.send(bytes));
    rig.session.start();
    await rig.run(3, (nowS) => board.advance(nowS));
    expect(rig.session.health().isStale).toBe(false);
    now = undefined;
    await rig.run(4);
    expect(rig.session.health()).toMatchObject({ isStale: true, state: 'silent', rateHz: 0 });
    await rig.run(6);
    expect(rig.session.state()).toBe('looking');
    expect(rig.told('port-gone').map((event) => event.seen)).toEqual([
      '/dev/ttyUSB0 is silent and no longer listed.',
    ]);
    expect(first.isOpen()).toBe(false);
    now = second;
    await rig.run(9, (nowS) => board.advance(nowS));
    expect(rig.session.health()).toMatchObject({
      isStale: false,
      state: 'streaming',
      portName: '/dev/ttyUSB3',
    });
    expect(rig.session.health().lost).toBe(0);
  });

  it('waits for a board that is silent but still there, opening its port anew now and then', async () => {
    const ports = Array.from({ length: 4 }, () => createTestPort('/dev/ttyUSB0'));
    const rig = sessionRig(() => ports.find((port) => port.opened.length === 0 || port.isOpen())?.link);
    const board = createStreamingBoard((bytes) => ports.find((port) => port.isOpen())?.send(bytes));
    rig.session.start();
    await rig.run(2, (nowS) => board.advance(nowS));
    await rig.run(9);
    expect(rig.session.state()).toBe('silent');
    await rig.run(16);
    expect(ports.filter((port) => port.opened.length > 0)).toHaveLength(2);
    expect(rig.told('port-gone')).toEqual([]);
    board.restart(16, 0.1);
    await rig.run(18, (nowS) => board.advance(nowS));
    expect(rig.session.state()).toBe('streaming');
  });
});

describe('a session that may not open its port', () => {
  it.each([
    [
      'port-busy',
      'Error Resource temporarily unavailable Cannot lock port',
      /Another program/,
      /serial monitors/,
    ],
    ['port-refused', 'Error: Permission denied, cannot open /dev/ttyUSB0', /may not open/, /dialout/],
  ] as const)('tells %s once, with its own cure, and goes on trying', async (kind, said, seen, next) => {
    const { port, session, told, events, run } = onBoard();
    port.refuses = openError('/dev/ttyUSB0', new Error(said), 'linux');
    session.start();
    await run(10);
    expect(told(kind)).toHaveLength(1);
    expect(told(kind)[0]!.seen).toMatch(seen);
    expect(told(kind)[0]!.next).toMatch(next);
    // Not a line for every try.
    expect(events.length).toBeLessThanOrEqual(5);
    expect(session.state()).toBe('looking');
    port.refuses = undefined;
    await run(12);
    expect(session.state()).toBe('listening');
  });

  it('tells a look for ports that fails, and looks again', async () => {
    const port = createTestPort('COM3');
    let fails = true;
    const rig = sessionRig(() => {
      if (fails) throw new Error('udevadm is not there');
      return port.link;
    });
    rig.session.start();
    await rig.run(5);
    expect(rig.told('port-refused')).toHaveLength(1);
    fails = false;
    await rig.run(8);
    expect(rig.session.state()).toBe('listening');
  });
});

describe('a session on a line that is not as it should be', () => {
  it('tells bursts of a 16 ms latency timer once, with the cure for each system', async () => {
    const { port, session, told, frames, run } = onBoard();
    let held: Uint8Array[] = [];
    const board = createStreamingBoard((bytes) => held.push(bytes));
    session.start();
    let nextS = 0.016;
    await run(
      30,
      (nowS) => {
        board.advance(nowS);
        if (nowS < nextS - 1e-9) return;
        nextS += 0.016;
        // A burst reaches the program as one piece or as several.
        for (const bytes of held) port.send(bytes);
        held = [];
      },
      0.002,
    );
    expect(told('bursts')).toHaveLength(1);
    expect(told('bursts')[0]!.hostS).toBeLessThan(5);
    for (const system of ['Linux', 'Windows', 'macOS']) expect(told('bursts')[0]!.next).toContain(system);
    expect(session.health().burstMs).toBeCloseTo(16, 0);
    // By the board's clock the frames are even: 250 us steps at 10 ms.
    expect(session.health().jitterMs).toBeLessThan(0.1);
    expect(frames.length).toBeGreaterThan(2900);
    expect(session.health().lost).toBe(0);
  });

  it('says nothing of bursts on a line that has none', async () => {
    const { session, told, live } = onBoard();
    session.start();
    await live(10);
    expect(told('bursts')).toEqual([]);
  });

  it('keeps its counters exact over loss, repetition and a late frame', async () => {
    const { port, session, frames, run } = onBoard();
    session.start();
    await run(0.1);
    const send = (n: number) => port.send(frameBytes(n, n * 40));
    for (let n = 0; n < 1000; n++) {
      const [from, to] = [300, 600];
      if (n >= from && n < to) continue;
      if (n === 650) send(649);
      if (n === 700) {
        send(701);
        send(700);
      } else if (n !== 701) send(n);
      await run(0.1 + (n + 1) * 0.01);
    }
    expect(session.health()).toMatchObject({ lost: 300, duplicates: 1, reordered: 1, restarts: 0 });
    expect(frames.filter(({ step }) => step > 1).map(({ step }) => step)).toEqual([301, 2]);
    expect(frames.filter(({ step }) => step < 1).map(({ step }) => step)).toEqual([0, -1]);
  });

  it('goes silent and back without a word too many', async () => {
    const { board, session, events, live } = onBoard();
    session.start();
    await live(2);
    board.isOn = false;
    await live(3.2);
    expect(session.health().isStale).toBe(true);
    board.isOn = true;
    await live(4);
    expect(session.health().isStale).toBe(false);
    expect(events.map((event) => event.seen)).toEqual([
      'looking',
      'opening',
      'listening',
      'streaming',
      'silent',
      'streaming',
    ]);
  });

  it('tells an open port that says nothing', async () => {
    const { session, told, run } = onBoard();
    session.start();
    await run(30);
    expect(told('no-reply').map((event) => event.seen)).toEqual(['/dev/ttyUSB0 is open, but nothing comes.']);
    expect(told('no-reply')[0]!.hostS).toBeLessThan(4);
  });

  it('does not show a line of senseless bytes, nor more than a dozen lines a minute', async () => {
    const { port, session, told, run } = onBoard();
    session.start();
    await run(0.1);
    port.send(ascii('ab\x80\x81\x82\x83\ncould be anything\n'));
    for (let i = 0; i < 1000; i++) port.send(ascii(`line ${i}\x1b[31m red\n`));
    port.send(ascii(`${'x'.repeat(10_000)}\n`));
    expect(told('board-text')[0]!.seen).toBe('The board says: "could be anything"');
    expect(told('board-text')).toHaveLength(12);
    expect(told('board-text')[1]!.seen).toBe('The board says: "line 0 red"');
  });
});
