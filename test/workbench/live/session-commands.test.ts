import { describe, expect, it } from 'vitest';
import { COMMAND_ZERO } from '../../../protocol/commands.ts';
import { createTestPort, sessionRig, settle } from './session-rig.ts';
import { type BoardOptions, createStreamingBoard, frameBytes } from './streaming-board.ts';

function onBoard(boardOptions: BoardOptions = {}, more: Parameters<typeof sessionRig>[1] = {}) {
  const port = createTestPort('/dev/ttyUSB0', (bytes) => board.receive(bytes));
  const board = createStreamingBoard((bytes) => port.send(bytes), boardOptions);
  const rig = sessionRig(() => port.link, more);
  return { port, board, ...rig, live: (toS: number) => rig.run(toS, (nowS) => board.advance(nowS)) };
}

describe('what runs on the board', () => {
  it.each([
    [{ programId: 9 }, 'The board runs program 7, the rig file makes 9.'],
    [
      { programId: 7, settingsId: 0xfedcba98 },
      /made for the build 4275878551, the rig file describes 4275878552/,
    ],
  ])('is told when it is not the rig’s: %j', async (wanted, seen) => {
    const { session, told, live } = onBoard({ programId: 7, settingsId: 0xfedcba97 }, wanted);
    session.start();
    await live(2);
    expect(told('wrong-program')).toHaveLength(1);
    expect(told('wrong-program')[0]!.seen).toMatch(seen);
  });

  it('is not told when it is the rig’s', async () => {
    const options = { programId: 7, settingsId: 0xfedcba97 };
    const { board, session, told, live } = onBoard(options, options);
    session.start();
    await live(2);
    expect(told('wrong-program')).toEqual([]);
    expect(board.commands).toHaveLength(2);
  });

  it('is told when it does not answer', async () => {
    const { board, session, told, live } = onBoard({ answers: false }, { programId: 7 });
    session.start();
    await live(4);
    expect(told('no-reply')).toHaveLength(1);
    // The same command four times.
    expect(new Set(board.commands).size).toBe(1);
    expect(board.commands).toHaveLength(4);
  });
});

describe('commands', () => {
  it('queue, and each gets its own reply', async () => {
    const { board, session, live } = onBoard();
    session.start();
    await live(1);
    const outcomes = [0, 1, 2].map((finger) => session.command(COMMAND_ZERO, finger, 0, 0));
    await live(2);
    expect((await Promise.all(outcomes)).map(({ tag, result }) => [tag, result])).toEqual([
      [500, 0],
      [501, 0],
      [502, 0],
    ]);
    expect(board.commands).toHaveLength(3);
  });

  it('end as unanswered after the last try', async () => {
    const { session, live } = onBoard({ answers: false });
    session.start();
    await live(1);
    const outcome = session.command(COMMAND_ZERO, 0, 0, 0);
    await live(4);
    expect(await outcome).toMatchObject({ result: -1 });
  });

  it('are refused with a reason while there is no board', async () => {
    const { session } = onBoard();
    await expect(session.command(COMMAND_ZERO, 0, 0, 0)).rejects.toMatchObject({ code: 'live/not-open' });
  });

  it('settle when the port goes, sent ones and waiting ones, and work again afterwards', async () => {
    let port = createTestPort('A');
    const rig = sessionRig(() => port.link);
    const board = createStreamingBoard((bytes) => port.send(bytes));
    rig.session.start();
    await rig.run(1, (nowS) => board.advance(nowS));
    const lost = [0, 1].map((finger) => rig.session.command(COMMAND_ZERO, finger, 0, 0).catch((e) => e.code));
    await rig.run(1.2, (nowS) => board.advance(nowS));
    const old = port;
    port = createTestPort('A', (bytes) => board.receive(bytes));
    old.end('gone');
    expect(await Promise.all(lost)).toEqual(['live/gone', 'live/gone']);
    await rig.run(3, (nowS) => board.advance(nowS));
    const outcome = rig.session.command(COMMAND_ZERO, 0, 0, 0);
    await rig.run(4, (nowS) => board.advance(nowS));
    expect(await outcome).toMatchObject({ result: 0, tag: 501 });
    // The board that came back is not sent what was meant for the time before.
    expect(board.commands.map((text) => text.slice(0, 4))).toEqual(['01f5']);
  });

  it('that no board can have are refused alone', async () => {
    const { session, live } = onBoard();
    session.start();
    await live(1);
    const wrong = session.command(300, 0, 0, 0).catch((error) => error.message);
    const right = session.command(COMMAND_ZERO, 0, 0, 0);
    await live(2);
    expect(await wrong).toMatch(/code of a command is 300/);
    expect(await right).toMatchObject({ result: 0 });
  });
});

describe('two sessions at once', () => {
  it('share nothing: left and right keep their own frames, counts and events', async () => {
    const sides = [false, true].map((rightHand) => onBoard({ rightHand, ppm: rightHand ? 40 : -40 }));
    for (const { session } of sides) session.start();
    for (let tenth = 1; tenth <= 30; tenth++) {
      if (tenth === 20) sides[0]!.board.drop = 7;
      for (const side of sides) await side.live(tenth / 10);
    }
    sides[1]!.port.end('gone');
    const [left, right] = sides.map(({ session }) => session.health());
    expect([left!.lost, right!.lost]).toEqual([7, 0]);
    expect([left!.state, right!.state]).toEqual(['streaming', 'looking']);
    expect(sides.map(({ frames }) => [...new Set(frames.map(({ side }) => side))])).toEqual([
      ['left'],
      ['right'],
    ]);
    expect(sides[0]!.told('port-gone')).toEqual([]);
  });
});

describe('stopping', () => {
  it('in the middle of opening leaves the port free and silent', async () => {
    const port = createTestPort('A');
    let open: () => void = () => {};
    const plain = port.link.open.bind(port.link);
    port.link.open = async (baud, lines) => {
      await new Promise<void>((resolve) => {
        open = resolve;
      });
      await plain(baud, lines);
    };
    const rig = sessionRig(() => port.link);
    rig.session.start();
    await rig.run(0.2);
    let isStopped = false;
    const stopped = rig.session.stop().then(() => {
      isStopped = true;
    });
    await settle();
    expect(isStopped).toBe(false);
    open();
    await stopped;
    expect(port.isOpen()).toBe(false);
    expect(rig.session.state()).toBe('closed');
    port.send(frameBytes(0, 0));
    expect(rig.frames).toEqual([]);
  });

  it('and starting again streams again', async () => {
    const ports = [createTestPort('A'), createTestPort('A')];
    const rig = sessionRig(() => ports.find((port) => port.opened.length === 0)?.link);
    const board = createStreamingBoard((bytes) => ports.find((port) => port.isOpen())?.send(bytes));
    rig.session.start();
    await rig.run(1, (nowS) => board.advance(nowS));
    await rig.session.stop();
    const before = rig.frames.length;
    await rig.run(2, (nowS) => board.advance(nowS));
    expect(rig.frames.length).toBe(before);
    rig.session.start();
    await rig.run(3, (nowS) => board.advance(nowS));
    expect(rig.frames.length).toBeGreaterThan(before + 80);
  });
});
