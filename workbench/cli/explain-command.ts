import { Command, Option } from 'commander';
import { BOARD_IDS, type BoardId } from '../../firmware/boards/board.ts';
import { boardFacts } from '../../firmware/boards/boards.ts';
import { adcCurve, adcCurveSource } from '../../sim/adc/explain.ts';
import { TautlineError } from '../../sim/errors.ts';
import type { DefaultEntry } from '../../sim/rig/default-entry.ts';
import { DEFAULTS, defaultPaths, explainDefault } from '../../sim/rig/defaults.ts';
import { SCORE_NAMES, SCORES } from '../../sim/study/score-names.ts';
import { suggest } from '../rig/suggest.ts';
import { valueRange } from './option-values.ts';
import { textTable } from './text-table.ts';

interface ExplainOptions {
  board: BoardId;
  volts: number[];
  json?: true;
}

export function explainCommand(): Command {
  return new Command('explain')
    .summary('a model’s curve, a score, or a default with its source')
    .argument(
      '[topic]',
      'adc, scores, defaults, or the path of a default such as finger.spool.radius',
      'defaults',
    )
    .addOption(new Option('--board <board>', 'board, for adc').choices(BOARD_IDS).default('esp32'))
    .addOption(
      new Option('--volts <from:to:step>', 'voltages, for adc')
        .argParser(valueRange)
        .default(valueRange('0:3.3:0.1'), '0:3.3:0.1'),
    )
    .option('--json', 'print JSON')
    .action(run);
}

function run(topic: string, options: ExplainOptions): void {
  if (topic === 'adc') explainAdc(options);
  else if (topic === 'scores') explainScores(options);
  else if (topic === 'defaults') explainPaths(defaultPaths(), options);
  else explainPath(topic, options);
}

function print(text: string): void {
  process.stdout.write(`${text}\n`);
}

function table(rows: string[][], right: number[], flexible: number[]): string {
  return textTable(rows, { columns: process.stdout.columns ?? 80, right, flexible }).join('\n');
}

function explainAdc({ board, volts, json }: ExplainOptions): void {
  const points = adcCurve(board, volts);
  if (json) {
    print(JSON.stringify({ volts: points.map((p) => p.volts), counts: points.map((p) => p.counts) }));
    return;
  }
  const [low, high] = boardFacts(board).adcRangeMv;
  print(`${boardFacts(board).label}: expected reading of an average chip, 12 bit, no noise`);
  print(
    table([['volts', 'counts'], ...points.map((p) => [p.volts.toString(), p.counts.toFixed(0)])], [0, 1], []),
  );
  print(`Range that the chip’s maker vouches for: ${low}-${high} mV.`);
  print(`Curve: ${adcCurveSource(board)}.`);
}

function explainScores({ json }: ExplainOptions): void {
  if (json) {
    print(JSON.stringify(SCORES));
    return;
  }
  for (const name of SCORE_NAMES) {
    const { label, unit, meaning } = SCORES[name];
    print(`${name} (${label}, ${unit})\n  ${meaning}`);
  }
}

function row(path: string, entry: DefaultEntry): string[] {
  const value = Array.isArray(entry.value) ? entry.value.join(' / ') : `${entry.value}`;
  return [path, `${value} ${entry.unit}`.trim(), `${entry.label} (${entry.source}: ${entry.text})`];
}

function explainPaths(paths: string[], { json }: ExplainOptions): void {
  const entries = paths.map((path) => [path, explainDefault(path) as DefaultEntry] as const);
  if (json) print(JSON.stringify(Object.fromEntries(entries)));
  else
    print(
      table([['default', 'value', 'what it is, and why'], ...entries.map(([p, e]) => row(p, e))], [], [2]),
    );
}

function explainPath(topic: string, options: ExplainOptions): void {
  const below = explainDefault(topic) ? [topic] : defaultPaths(topic);
  if (below.length > 0) {
    explainPaths(below, options);
    return;
  }
  const near = suggest(topic, ['adc', 'scores', 'defaults', ...Object.keys(DEFAULTS)]);
  throw new TautlineError('explain/unknown', `explain: "${topic}" is not a topic or a default.`, {
    detail: near
      ? `Did you mean "${near}"?`
      : 'Expected adc, scores, defaults or the path of a default; "tautline explain defaults" lists them.',
  });
}
