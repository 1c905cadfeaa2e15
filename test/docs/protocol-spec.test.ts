import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { crc32 } from '../../protocol/crc32.ts';
import { decodeFrame, isFrameAt } from '../../protocol/decode.ts';
import { createFrameViews, encodeFrame } from '../../protocol/encode.ts';
import * as layout from '../../protocol/frame.ts';

const spec = readFileSync(new URL('../../protocol/SPEC.md', import.meta.url), 'utf8');

function cells(line: string): string[] {
  return line
    .split('|')
    .slice(1, -1)
    .map((cell) => cell.trim());
}

/** Cells of all rows of the table whose header starts with these two cells. */
function table(first: string, second: string): string[][] {
  const lines = spec.split('\n');
  const start = lines.findIndex((line) => cells(line)[0] === first && cells(line)[1] === second);
  if (start < 0) throw new Error(`no table "${first} | ${second}" in SPEC.md`);
  const rows: string[][] = [];
  for (let i = start + 2; lines[i].startsWith('|'); i++) rows.push(cells(lines[i]));
  return rows;
}

interface Example {
  name: string;
  bytes: Uint8Array;
  fields: Record<string, string>;
}

function examples(): Example[] {
  const found = [...spec.matchAll(/^(\w+) +((?:[0-9a-f]{2} ?){20})\n +(sequence=.*)$/gm)];
  return found.map(([, name, hex, fields]) => ({
    name,
    bytes: new Uint8Array(Buffer.from(hex.replaceAll(' ', ''), 'hex')),
    fields: Object.fromEntries(fields.split(' ').map((field) => field.split('='))),
  }));
}

function numbers(list: string): number[] {
  return list.split(',').map(Number);
}

function frameOf(fields: Record<string, string>): layout.Frame {
  const [joystickX, joystickY] = numbers(fields.bytes);
  return {
    sequence: Number(fields.sequence),
    timeSteps: Number(fields.time),
    values: Uint16Array.from(numbers(fields.values)),
    joystickX,
    joystickY,
    buttons: Number(fields.buttons),
    rightHand: fields.hand === 'right',
    kind: Number(fields.kind),
    status: Number(fields.status),
  };
}

describe('protocol/SPEC.md', () => {
  it('has one worked example of each kind', () => {
    expect(examples().map(({ name }) => name)).toEqual(['hand', 'raw', 'health', 'reply']);
  });

  it.each(examples())(
    'shows the bytes that the encoder makes and the decoder reads: $name',
    ({ bytes, fields }) => {
      const views = createFrameViews();
      encodeFrame(frameOf(fields), views, crc32);
      expect(views.bytes).toEqual(bytes);
      expect(isFrameAt(bytes, 0)).toBe(true);
      const seen = layout.createFrame();
      decodeFrame(bytes, 0, seen);
      expect(seen).toEqual(frameOf(fields));
      const crc = crc32(bytes.subarray(0, 18));
      expect(crc.toString(16).toUpperCase().padStart(8, '0')).toBe(fields.crc);
      expect((bytes[18] + 256 * bytes[19]).toString(16).toUpperCase().padStart(4, '0')).toBe(fields.check);
    },
  );

  it('has the offsets of the code in its byte table, without gap or overlap', () => {
    const rows = table('bytes', 'field');
    const starts = Object.fromEntries(rows.map(([bytes, field]) => [field, Number(bytes.split('-')[0])]));
    expect(starts).toEqual({
      sync: layout.SYNC_AT,
      sequence: layout.SEQUENCE_AT,
      time: layout.TIME_AT,
      'value 0': layout.VALUES_AT,
      'value 1': layout.VALUES_AT + 2,
      'value 2': layout.VALUES_AT + 4,
      'value 3': layout.VALUES_AT + 6,
      'value 4': layout.VALUES_AT + 8,
      'joystick x': layout.JOYSTICK_X_AT,
      'joystick y': layout.JOYSTICK_Y_AT,
      flags: layout.FLAGS_AT,
      status: layout.STATUS_AT,
      check: layout.CHECK_AT,
    });
    let next = 0;
    for (const [bytes] of rows) {
      expect(Number(bytes.split('-')[0])).toBe(next);
      next = Number(bytes.split('-').at(-1)) + 1;
    }
    expect(next).toBe(layout.FRAME_BYTES);
    expect(rows[0][2]).toContain(`\`0x${layout.SYNC_BYTE.toString(16).toUpperCase()}\``);
  });

  it('has the codes of the code for kinds, status bits, results, travel and version', () => {
    expect(table('code', 'kind').map(([code, kind]) => [Number(code), kind])).toEqual([
      [layout.KIND_HAND, 'hand'],
      [layout.KIND_RAW, 'raw'],
      [layout.KIND_HEALTH, 'health'],
      [layout.KIND_REPLY, 'reply'],
    ]);
    expect(table('bit', 'name').map(([bit, name]) => [1 << Number(bit), name])).toEqual([
      [layout.STATUS_ERRORS, 'errors'],
      [layout.STATUS_DROPPED, 'dropped'],
      [layout.STATUS_LATE, 'late'],
      [layout.STATUS_UNCALIBRATED, 'uncalibrated'],
    ]);
    const { RESULT_DONE, RESULT_UNKNOWN_COMMAND, RESULT_BAD_ARGUMENT, RESULT_NOT_NOW, RESULT_FAILED } =
      layout;
    expect(spec).toContain(
      `result: ${RESULT_DONE} done, ${RESULT_UNKNOWN_COMMAND} unknown command, ${RESULT_BAD_ARGUMENT} bad argument, ${RESULT_NOT_NOW} not now, ${RESULT_FAILED} failed`,
    );
    expect(spec).toContain(
      `from ${layout.TRAVEL_OPEN_WORD} (captured open end) to ${layout.TRAVEL_CLOSED_WORD} (captured closed end)`,
    );
    expect(spec).toContain(`/\n${layout.TRAVEL_CLOSED_WORD - layout.TRAVEL_OPEN_WORD}`);
    expect(spec.startsWith(`# Wire format, version ${layout.PROTOCOL_VERSION}\n`)).toBe(true);
  });
});
