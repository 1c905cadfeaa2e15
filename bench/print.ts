import { median } from './measure.ts';

/** One figure of a bench: one line on stdout, one row of the table on stderr. */
export interface Figure {
  bench: string;
  impl: string;
  /** One number a repetition. */
  values: number[];
  unit: string;
}

const HEADINGS = ['bench', 'what', 'median', 'lowest', 'highest', 'unit', 'runs'];
const WIDTHS = [9, 38, 12, 12, 12, 24, 4];

/** Prints figures: JSON to stdout, for people to stderr. */
export function print(figures: Figure[]): void {
  for (const { bench, impl, values, unit } of figures) {
    const [rate, low, high] = [median(values), Math.min(...values), Math.max(...values)].map(short);
    process.stdout.write(
      `${JSON.stringify({ bench, impl, rate, unit, low, high, repetitions: values.length })}\n`,
    );
    row([bench, impl, grouped(rate), grouped(low), grouped(high), unit, `${values.length}`]);
  }
}

export function printHeadings(): void {
  row(HEADINGS);
}

function row(cells: string[]): void {
  const padded = cells.map((cell, i) =>
    i >= 2 && i <= 4 ? cell.padStart(WIDTHS[i]) : cell.padEnd(WIDTHS[i]),
  );
  process.stderr.write(`${padded.join('  ').trimEnd()}\n`);
}

/** Four digits are more than the spread allows. */
function short(value: number): number {
  return Number(value.toPrecision(4));
}

function grouped(value: number): string {
  return value.toLocaleString('en-US', { maximumFractionDigits: 3 });
}
