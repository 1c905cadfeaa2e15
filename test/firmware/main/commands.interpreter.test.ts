import { describe, expect, it } from 'vitest';
import { commandText } from '../../../protocol/command-packet.ts';
import { rnd } from '../../../sim/seed/mix.ts';
import { boardText, noInterpreter, runOnInterpreter } from '../../interpreter.ts';

/** The board's end of the commands, with a program that keeps what it is told and prints the bytes. */
const PROGRAM = `
import { createCommandState, receiveCommand } from 'firmware/main/commands.ts';
declare const E: any;
declare const print: any;
const kept = new Float64Array(1);
const bytes = new Uint8Array(kept.buffer);
const nothing = function () { return NaN; };
const state = createCommandState();
const actions: any = {
  setNumber: function (finger: number, index: number, value: number) { kept[0] = value; return true; },
  getNumber: function () { return kept[0]; },
  version: nothing, counter: nothing, identify: nothing, stored: nothing,
};
(globalThis as any).take = function (text: string) {
  const r = receiveCommand(state, text, E.CRC32, actions);
  print([r.command, r.result, r.answer, r.tag, state.damaged, bytes].join(' '));
};
`;

function doubles(count: number): number[] {
  const list = [
    0,
    -0,
    0.1,
    0.3,
    0.15,
    0.85,
    0.95,
    31.4159,
    1 / 3,
    5e-324,
    1.7976931348623157e308,
    -2.5,
    8191,
  ];
  const views = new DataView(new ArrayBuffer(8));
  for (let i = 0; list.length < count; i++) {
    views.setUint32(0, rnd(2 * i, 7, 7));
    views.setUint32(4, rnd(2 * i + 1, 7, 7));
    const value = views.getFloat64(0);
    if (Number.isFinite(value)) list.push(value);
  }
  return list;
}

describe.skipIf(noInterpreter)('commands on the interpreter', () => {
  it('bring numbers across exactly, and back', async () => {
    const numbers = doubles(process.env.TAUTLINE_VERIFY === '1' ? 400 : 60);
    const calls: string[] = [];
    const expected: string[] = [];
    let tag = 0;
    const call = (code: number, value: number, answer: number, kept: number) => {
      calls.push(`take("${commandText({ tag, code, subject: 2, index: 4, value })}")`);
      const bytes = new Uint8Array(Float64Array.of(kept).buffer).join(',');
      expected.push(`${code} 0 ${answer} ${tag++} 0 ${bytes}`);
    };
    for (const number of numbers) {
      const halves = new Uint32Array(Float64Array.of(number).buffer);
      call(3, number, 0, number);
      call(4, 0, halves[0]!, number);
      call(4, 1, halves[1]!, number);
    }
    const text = await boardText(PROGRAM);
    const { lines } = runOnInterpreter(`${text.replace('globalThis', 'global')}\n${calls.join('\n')}`);
    expect(lines).toEqual(expected);
  });

  it('that are damaged are refused, and repeated ones answered', async () => {
    const good = commandText({ tag: 5, code: 3, subject: 0, index: 0, value: 1 });
    const texts = [
      good,
      `${good.slice(0, 20)}1${good.slice(21)}`,
      good.toUpperCase(),
      good.slice(1),
      `${good}0`,
      good,
    ];
    const text = await boardText(PROGRAM);
    const calls = texts.map((one) => `take(${JSON.stringify(one)})`);
    const { lines } = runOnInterpreter(
      `${text.replace('globalThis', 'global')}\n${calls.join('\n')}\ntake(undefined)`,
    );
    const one = '0,0,0,0,0,0,240,63';
    expect(lines).toEqual([
      `3 0 0 5 0 ${one}`,
      `65535 5 1 65535 1 ${one}`,
      `65535 5 2 65535 2 ${one}`,
      `65535 5 3 65535 3 ${one}`,
      `65535 5 4 65535 4 ${one}`,
      `3 0 0 5 4 ${one}`,
      `65535 5 5 65535 5 ${one}`,
    ]);
  });
});
