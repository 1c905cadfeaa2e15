import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createCommandState, receiveCommand } from '../../../firmware/main/commands.ts';
import { writeReplyValues } from '../../../firmware/main/reply.ts';
import { commandText, textCrc32 } from '../../../protocol/command-packet.ts';
import { createCommandSender } from '../../../protocol/command-sender.ts';
import * as code from '../../../protocol/commands.ts';
import { crc32 } from '../../../protocol/crc32.ts';
import { decodeFrame, isFrameAt } from '../../../protocol/decode.ts';
import {
  createFrameViews,
  packFlags,
  writeCheck,
  writeFlags,
  writeHeader,
} from '../../../protocol/encode.ts';
import {
  createFrame,
  KIND_REPLY,
  RESULT_BAD_ARGUMENT,
  RESULT_DAMAGED,
  RESULT_DONE,
  RESULT_FAILED,
  RESULT_NOT_NOW,
  RESULT_UNKNOWN_COMMAND,
} from '../../../protocol/frame.ts';
import { fakeBoard } from './fake-board.ts';

function text(command: number, subject = 0, index = 0, value = 0, tag = 1): string {
  return commandText({ tag, code: command, subject, index, value });
}

describe('a command on the board', () => {
  // title, text, what the board did, result, answer
  const TABLE: [string, string, string[], number, number][] = [
    ['version', text(code.COMMAND_VERSION), [], RESULT_DONE, 0x0103],
    ['settings id', text(code.COMMAND_VERSION, 1), [], RESULT_DONE, 0xdeadbeef],
    ['version of nothing', text(code.COMMAND_VERSION, 2), [], RESULT_BAD_ARGUMENT, 0],
    ['damaged commands', text(code.COMMAND_COUNTER, 2), [], RESULT_DONE, 7],
    ['a counter that is not', text(code.COMMAND_COUNTER, 9), [], RESULT_BAD_ARGUMENT, 0],
    ['set', text(code.COMMAND_SET, 4, 8, -0.1), ['set 4 8 -0.1'], RESULT_DONE, 0],
    ['set a sixth finger', text(code.COMMAND_SET, 5, 0, 1), [], RESULT_BAD_ARGUMENT, 0],
    ['set an unknown number', text(code.COMMAND_SET, 0, 9, 1), ['set 0 9 1'], RESULT_BAD_ARGUMENT, 0],
    ['set NaN', text(code.COMMAND_SET, 0, 0, Number.NaN), [], RESULT_BAD_ARGUMENT, 0],
    ['set infinity', text(code.COMMAND_SET, 0, 0, Number.NEGATIVE_INFINITY), [], RESULT_BAD_ARGUMENT, 0],
    ['raw', text(code.COMMAND_RAW, 3), ['raw 3'], RESULT_DONE, 0],
    ['raw off', text(code.COMMAND_RAW, 255), ['raw 255'], RESULT_DONE, 0],
    ['raw of an unwired channel', text(code.COMMAND_RAW, 4), ['raw 4'], RESULT_BAD_ARGUMENT, 0],
    ['raw of a sixth channel', text(code.COMMAND_RAW, 5), [], RESULT_BAD_ARGUMENT, 0],
    ['begin', text(code.COMMAND_CAPTURE_BEGIN), ['begin'], RESULT_DONE, 0],
    ['end', text(code.COMMAND_CAPTURE_END), ['end'], RESULT_DONE, 0b10101],
    ['store', text(code.COMMAND_STORE), ['store false'], RESULT_DONE, 0],
    ['store over others', text(code.COMMAND_STORE, 0, 0, 1), ['store true'], RESULT_DONE, 0],
    ['store with half a wish', text(code.COMMAND_STORE, 0, 0, 0.5), [], RESULT_BAD_ARGUMENT, 0],
    ['stored sequence', text(code.COMMAND_STORED), [], RESULT_DONE, 4294967295],
    ['zero', text(code.COMMAND_ZERO, 255), ['zero 255'], RESULT_DONE, 0],
    ['zero of a sixth finger', text(code.COMMAND_ZERO, 5), [], RESULT_BAD_ARGUMENT, 0],
    ['identify', text(code.COMMAND_IDENTIFY), [], RESULT_DONE, 0xcbf43926],
    ['stop', text(code.COMMAND_STOP), ['stream false'], RESULT_DONE, 0],
    ['start', text(code.COMMAND_START), ['stream true'], RESULT_DONE, 0],
    ['restart', text(code.COMMAND_RESTART), ['restart'], RESULT_DONE, 0],
    ['nothing', text(0), [], RESULT_UNKNOWN_COMMAND, 0],
    ['of the future', text(15), [], RESULT_UNKNOWN_COMMAND, 0],
  ];
  it.each(TABLE)('is done and answered: %s', (_title, command, did, result, answer) => {
    const { actions, done } = fakeBoard();
    const reply = receiveCommand(createCommandState(), command, textCrc32, actions);
    expect(done).toEqual(did);
    expect(reply).toEqual({ command: Number.parseInt(command.slice(4, 6), 16), result, answer, tag: 1 });
  });

  it.each([
    [1, RESULT_DONE],
    [2, RESULT_NOT_NOW],
    [3, RESULT_FAILED],
    [4, RESULT_NOT_NOW],
    [5, RESULT_FAILED],
  ])('tells why a calibration was not stored: %d is result %d', (saved, result) => {
    const { actions } = fakeBoard();
    actions.store = () => saved;
    const reply = receiveCommand(createCommandState(), text(code.COMMAND_STORE), textCrc32, actions);
    expect([reply.result, reply.answer]).toEqual([result, saved]);
  });

  it('is not now where the board says so', () => {
    const { actions } = fakeBoard();
    actions.beginCapture = () => false;
    actions.endCapture = () => Number.NaN;
    actions.zero = () => false;
    const state = createCommandState();
    for (const [tag, command] of [
      code.COMMAND_CAPTURE_BEGIN,
      code.COMMAND_CAPTURE_END,
      code.COMMAND_ZERO,
    ].entries())
      expect(receiveCommand(state, text(command, 0, 0, 0, tag), textCrc32, actions).result).toBe(
        RESULT_NOT_NOW,
      );
  });

  it('that throws has failed and is counted; the next one is done', () => {
    const { actions, done } = fakeBoard();
    actions.identify = () => {
      throw new Error('no such file');
    };
    const state = createCommandState();
    expect(receiveCommand(state, text(code.COMMAND_IDENTIFY), textCrc32, actions).result).toBe(RESULT_FAILED);
    receiveCommand(state, text(code.COMMAND_STOP), textCrc32, actions);
    expect(done).toEqual(['failed', 'stream false']);
  });

  it('is done once however often it comes, and answered each time', () => {
    const { actions, done } = fakeBoard();
    const state = createCommandState();
    for (let i = 0; i < 3; i++)
      expect(receiveCommand(state, text(code.COMMAND_ZERO, 2, 0, 0, 9), textCrc32, actions)).toEqual({
        command: code.COMMAND_ZERO,
        result: RESULT_DONE,
        answer: 0,
        tag: 9,
      });
    expect(done).toEqual(['zero 2']);
    expect(state.done).toBe(1);
    // the same tag with another content is a new host's command
    receiveCommand(state, text(code.COMMAND_ZERO, 3, 0, 0, 9), textCrc32, actions);
    expect(done).toEqual(['zero 2', 'zero 3']);
  });

  it('that is damaged changes nothing, is counted and reported, and does not hide the last one', () => {
    const { actions, done } = fakeBoard();
    const state = createCommandState();
    const good = text(code.COMMAND_ZERO, 2);
    receiveCommand(state, good, textCrc32, actions);
    for (let i = 1; i <= 3; i++)
      expect(receiveCommand(state, `${good.slice(0, 33)}!`, textCrc32, actions)).toEqual({
        command: 65535,
        result: RESULT_DAMAGED,
        answer: i,
        tag: 65535,
      });
    expect(receiveCommand(state, undefined, textCrc32, actions).answer).toBe(4);
    expect(receiveCommand(state, good, textCrc32, actions).tag).toBe(1);
    expect(done).toEqual(['zero 2']);
  });

  it('stops counting damage at 65534', () => {
    const state = createCommandState();
    state.damaged = 65533;
    for (let i = 0; i < 3; i++) receiveCommand(state, '', textCrc32, fakeBoard().actions);
    expect(state.damaged).toBe(65534);
  });

  it('sets and reads back any finite number exactly', () => {
    const { actions } = fakeBoard();
    const state = createCommandState();
    const views = code.createNumberViews();
    let tag = 0;
    const send = (command: number, value: number) =>
      receiveCommand(state, text(command, 3, 7, value, tag++ % 65535), textCrc32, actions);
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        expect(send(code.COMMAND_SET, value).result).toBe(RESULT_DONE);
        for (const high of [0, 1]) {
          const { answer } = send(code.COMMAND_GET, high);
          views.quarters[2 * high] = answer % 65536;
          views.quarters[2 * high + 1] = Math.floor(answer / 65536);
        }
        expect(Object.is(views.number[0], value)).toBe(true);
      }),
    );
  });
});

describe('commands over a link that loses and damages', () => {
  it('are each done at most once and in order; those with a reply exactly once', () => {
    // one fate for each packet and each reply: 0 = arrives, 1 = lost, 2 = damaged, 3 = arrives twice
    const fates = fc.array(fc.nat(3), { minLength: 60, maxLength: 60 });
    fc.assert(
      fc.property(fates, fc.nat(65534), (plan, firstTag) => {
        const { actions, done } = fakeBoard();
        const state = createCommandState();
        const views = createFrameViews();
        const frame = createFrame();
        const outcomes = new Map<number, number>();
        let turn = 0;
        let order = -1;
        const sender = createCommandSender(
          firstTag,
          0.1,
          4,
          (packet) => {
            const fate = plan[turn++ % plan.length]!;
            if (fate === 1) return;
            let json = Buffer.from(packet.subarray(4)).toString('latin1');
            if (fate === 2) json = json.replace(/[0-9](?=[^0-9]*$)/, '~');
            for (let i = 0; i < (fate === 3 ? 2 : 1); i++) {
              const reply = receiveCommand(state, JSON.parse(json).t, textCrc32, actions);
              if (plan[turn++ % plan.length] === 1) continue;
              writeHeader(views.bytes, views.words, i, 0);
              writeReplyValues(views.words, reply.command, reply.result, reply.answer, reply.tag);
              writeFlags(views.bytes, packFlags(0, true, KIND_REPLY));
              writeCheck(views.words, views.checked, crc32);
              expect(isFrameAt(views.bytes, 0)).toBe(true);
              decodeFrame(views.bytes, 0, frame);
              replies.push(structuredClone(frame));
            }
          },
          ({ result }) => outcomes.set(order, result),
        );
        const replies: ReturnType<typeof createFrame>[] = [];
        let nowS = 0;
        for (order = 0; order < 8; order++) {
          sender.send(code.COMMAND_SET, order % 5, order, order, nowS);
          while (sender.isWaiting()) {
            for (const reply of replies.splice(0)) sender.frame(reply);
            nowS += 0.05;
            sender.tick(nowS);
          }
        }
        const orders = done.map((line) => Number(line.split(' ')[2]));
        expect(orders).toEqual([...new Set(orders)].sort((a, b) => a - b));
        for (const [sent, result] of outcomes) {
          if (result === RESULT_DONE) expect(orders).toContain(sent);
          else expect(result).toBe(-1);
        }
        expect(outcomes.size).toBe(8);
      }),
    );
  });
});
