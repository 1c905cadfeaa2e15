/** What measure:board prints. */
import type { Interpreter } from './about.ts';
import type { Memory } from './memory.ts';
import { cpuMs, frameShare } from './share.ts';

export interface Row extends Memory {
  name: string;
  /** Instructions a frame. */
  rest: number;
  moving: number;
  textBytes: number;
  /** Calls of analogRead a frame. */
  reads: number;
}

const FRAME_RATE_HZ = 100;

/** One line. Figures of the default chain and of the whole program stand at the top, where they were measured. */
export function jsonLine(about: Interpreter, rows: Row[]): string {
  const row = (name: string) => rows.find((one) => one.name === name);
  const main = row('default');
  const program = row('program');
  return JSON.stringify({
    ...about,
    ...(main && { rest: main.rest / 1e6, moving: main.moving / 1e6 }),
    unit: 'million instructions a frame, five fingers of eight readings unless named otherwise',
    ...(program && { variables: program.variables, textVariables: program.textVariables }),
    variants: Object.fromEntries(
      rows.map(({ name, rest, moving, ...others }) => [
        name,
        { rest: rest / 1e6, moving: moving / 1e6, ...others },
      ]),
    ),
  });
}

export function table(about: Interpreter, rows: Row[]): string {
  const millions = (n: number) => (n / 1e6).toFixed(3);
  const percent = (n: number, reads: number, board: 'esp32' | 'esp32-c3') =>
    `${Math.round(frameShare(n, reads, board, FRAME_RATE_HZ) * 100)} %`;
  const cells = [
    [
      'M instructions a frame',
      'rest',
      'moving',
      'ESP32 ms',
      'ESP32',
      'ESP32-C3',
      'variables',
      'text',
      'bytes',
    ],
    ...rows.map((one) => [
      one.name,
      millions(one.rest),
      millions(one.moving),
      cpuMs(one.moving, 'esp32').toFixed(1),
      percent(one.moving, one.reads, 'esp32'),
      percent(one.moving, one.reads, 'esp32-c3'),
      `${one.variables}`,
      `${one.textVariables}`,
      `${one.textBytes}`,
    ]),
  ];
  const widths = cells[0]!.map((_, i) => Math.max(...cells.map((row) => row[i]!.length)));
  const lines = cells.map((row) =>
    row.map((cell, i) => (i === 0 ? cell.padEnd(widths[i]!) : cell.padStart(widths[i]!))).join('  '),
  );
  return `${lines.join('\n')}
ESP32, ESP32-C3: share of the 10 ms of a frame at 100 Hz, all fingers moving, with the converter's time; good to a
factor of 2. variables: with the functions' text in flash, as on a board; text: what it takes on top in memory.
Interpreter ${about.interpreter}, SHA-256 ${about.sha256.slice(0, 12)}
`;
}
