import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import * as record from '../../protocol/calibration-record.ts';
import { commandPacket, commandText, textCrc32 } from '../../protocol/command-packet.ts';
import * as commands from '../../protocol/commands.ts';
import { crc32 } from '../../protocol/crc32.ts';

const spec = readFileSync(new URL('../../protocol/SPEC.md', import.meta.url), 'utf8');

/** Cells of all rows of the table whose header starts with these two cells. */
function table(first: string, second: string): string[][] {
  const cells = (line: string) =>
    line
      .split('|')
      .slice(1, -1)
      .map((cell) => cell.trim());
  const lines = spec.split('\n');
  const start = lines.findIndex((line) => cells(line)[0] === first && cells(line)[1] === second);
  const rows: string[][] = [];
  for (let i = start + 2; start >= 0 && lines[i].startsWith('|'); i++) rows.push(cells(lines[i]));
  return rows;
}

const examples = [
  ...spec.matchAll(/^(\w+) +tag=(\d+) code=(\d+) subject=(\d+) index=(\d+) value=(\S+)\n +(\S+)\n +(\S+)$/gm),
].map(([, name, tag, code, subject, index, value, text, packet]) => ({
  name: name!,
  command: {
    tag: Number(tag),
    code: Number(code),
    subject: Number(subject),
    index: Number(index),
    value: Number(value),
  },
  text: text!,
  packet: packet!,
}));

describe('protocol/SPEC.md on commands', () => {
  it('has three worked examples', () => {
    expect(examples.map(({ name }) => name)).toEqual(['set', 'store', 'raw']);
  });

  it.each(examples)('shows the text and the packet that the encoder makes: $name', (example) => {
    expect(commandText(example.command)).toBe(example.text);
    expect(Buffer.from(commandPacket(example.command)).toString('hex')).toBe(example.packet);
    const read = commands.createCommand();
    expect(commands.readCommand(example.text, textCrc32, read, commands.createNumberViews())).toBe(true);
    expect(read).toEqual(example.command);
  });

  it('has the codes of the code', () => {
    const names = table('command', 'name').map(([code, name]) => [Number(code), name]);
    expect(names).toEqual([
      [commands.COMMAND_VERSION, 'version'],
      [commands.COMMAND_COUNTER, 'counter'],
      [commands.COMMAND_SET, 'set'],
      [commands.COMMAND_GET, 'get'],
      [commands.COMMAND_RAW, 'raw'],
      [commands.COMMAND_CAPTURE_BEGIN, 'capture begin'],
      [commands.COMMAND_CAPTURE_END, 'capture end'],
      [commands.COMMAND_STORE, 'store'],
      [commands.COMMAND_STORED, 'stored'],
      [commands.COMMAND_ZERO, 'zero'],
      [commands.COMMAND_IDENTIFY, 'identify'],
      [commands.COMMAND_STOP, 'stop'],
      [commands.COMMAND_START, 'start'],
      [commands.COMMAND_RESTART, 'restart'],
    ]);
    const numbers = /Live numbers: (.*)\./.exec(spec)![1]!.split(', ');
    expect(numbers).toEqual([
      `${commands.NUMBER_LIMIT} limit`,
      `${commands.NUMBER_BAND_SQUARED} band squared`,
      `${commands.NUMBER_GAIN} gain`,
      `${commands.NUMBER_BASE} base`,
      `${commands.NUMBER_RISE} rise`,
      `${commands.NUMBER_SPEED_GAIN} speed gain`,
      `${commands.NUMBER_HALF} half band`,
      `${commands.NUMBER_WORD_GAIN} word gain`,
      `${commands.NUMBER_WORD_OFFSET} word offset`,
    ]);
  });

  it('has fields without gap up to the length of a command', () => {
    let next = 0;
    for (const [range] of table('characters', 'field')) {
      const [from, to] = range!.split('-').map(Number);
      expect(from).toBe(next);
      next = to! + 1;
    }
    expect(next).toBe(commands.COMMAND_CHARS);
  });
});

describe('protocol/SPEC.md on stored calibrations', () => {
  const hex = (name: string) => new RegExp(`^${name} (\\S+)$`, 'm').exec(spec)![1]!;
  const read = (name: string) => {
    const into = record.createRecord();
    const state = record.decodeRecord(
      Buffer.from(hex(name), 'hex'),
      0x89abcdef,
      true,
      record.createRecordViews(),
      into,
      crc32,
    );
    return { state, into };
  };

  it('shows records that are read, the older one migrated', () => {
    const [now, before] = [read('record2'), read('record1')];
    expect([now.state, before.state]).toEqual([record.RECORD_VALID, record.RECORD_VALID]);
    expect([now.into.sequence, before.into.sequence]).toEqual([7, 6]);
    expect(now.into.captured).toBe(before.into.captured);
    for (let i = 0; i < 10; i++) expect(before.into.ends[i]).toBeCloseTo(now.into.ends[i]!, 4);
    const views = record.createRecordViews();
    record.encodeRecord(now.into, views, crc32);
    expect(Buffer.from(views.bytes).toString('hex')).toBe(hex('record2'));
  });

  it('has fields without gap up to the length of a record', () => {
    let next = 0;
    for (const [range] of table('bytes', 'record field')) {
      const parts = range!.split('-').map(Number);
      expect(parts[0]).toBe(next);
      next = parts.at(-1)! + 1;
    }
    expect(next).toBe(record.RECORD_BYTES);
    const states = [
      `${record.RECORD_VALID} valid`,
      `${record.RECORD_ABSENT} absent`,
      `${record.RECORD_DAMAGED} damaged`,
      `${record.RECORD_UNKNOWN_VERSION} unknown version`,
      `${record.RECORD_OTHER_SETTINGS} other settings`,
      `${record.RECORD_OTHER_HAND} other hand`,
    ];
    expect(spec).toContain(`States of a slot: ${states.join(', ')}.`);
  });
});
