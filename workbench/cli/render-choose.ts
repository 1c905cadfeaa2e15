import pc from 'picocolors';
import type { ChooseResult, TradeOffPoint, WhatIf } from '../../sim/study/result.ts';
import { plainText } from '../report/escape.ts';
import {
  formatChange,
  formatChangeOf,
  formatInterval,
  formatNumber,
  formatSetting,
  formatShare,
  formatValueOf,
} from '../report/numbers.ts';
import { effectWord, sortedWhatIf } from '../report/what-if-plot.ts';
import {
  certaintySentences,
  repeatCommand,
  STANDING_WORDS,
  wishRows,
  writeCommand,
} from '../report/wish-rows.ts';
import { settingsSentences } from '../report/words.ts';
import { wrapWords } from '../report/wrap.ts';
import { textTable } from './text-table.ts';

const MOST_PARETO_ROWS = 8;
const MOST_RUNNERS_UP = 4;
const MOST_WHAT_IF = 5;

type Colors = ReturnType<typeof pc.createColors>;

/**
 * The answer of `choose` for a terminal: verdict first, then numbers, settings, alternatives, how to repeat.
 * @param options columns: width to keep to (at least 60 is used); color: whether to write colour codes
 * @returns lines that end with \n; without colour plain UTF-8, fit for a file
 */
export function renderChoose(result: ChooseResult, options: { columns: number; color: boolean }): string {
  const colors = pc.createColors(options.color);
  const columns = Math.max(60, options.columns);
  const blocks = [
    verdictBlock(result, columns, colors),
    wishBlock(result, columns, colors),
    pickBlock(result, columns, colors),
    runnersUpBlock(result, columns, colors),
    paretoBlock(result, columns, colors),
    whatIfBlock(result, columns, colors),
    repeatBlock(result, columns, colors),
  ];
  const text = blocks
    .filter((block) => block.length > 0)
    .map((block) => block.join('\n'))
    .join('\n\n');
  return `${breakable(text)}\n`;
}

function verdictBlock(result: ChooseResult, columns: number, colors: Colors): string[] {
  const { meets, headline, details, obstacles } = result.verdict;
  const stamp = meets ? colors.green('✓ Wishes met') : colors.red('✗ Wishes not met');
  const lines = [
    ...wrapped(`${result.rig.name} · ${result.rig.board} · ${result.rig.frameRateHz} frames/s`, columns).map(
      colors.dim,
    ),
    colors.bold(stamp),
    ...wrapped(headline, columns).map(colors.bold),
    ...details.flatMap((detail) => wrapped(detail, columns)),
  ];
  if (obstacles.length > 0)
    lines.push(
      '',
      colors.bold('What stands in the way'),
      ...obstacles.flatMap((text) => bullet(text, columns)),
    );
  for (const warning of result.warnings) {
    const [first, ...rest] = bullet(warning, columns, '! ');
    lines.push(colors.yellow(first), ...rest.map(colors.yellow));
  }
  return lines;
}

function wishBlock(result: ChooseResult, columns: number, colors: Colors): string[] {
  const rows = wishRows(result.pick, result.wishes);
  const [head, ...lines] = textTable(
    [
      ['Score', 'expected (95 % interval)', 'wish', 'unit', 'met'],
      ...rows.map((row) => [
        row.label,
        formatInterval(row.value),
        `≤ ${formatSetting(row.wish)}`,
        row.score === 'loadPct' ? '%' : row.unit,
        STANDING_WORDS[row.standing],
      ]),
    ],
    { columns, right: [1, 2], flexible: [3, 0] },
  );
  return [
    colors.bold(head),
    ...lines,
    ...certaintySentences(result.pick, result.draws).flatMap((sentence) => wrapped(sentence, columns)),
  ];
}

function pickBlock(result: ChooseResult, columns: number, colors: Colors): string[] {
  const title = result.verdict.meets ? 'Pick' : 'Closest';
  return [
    `${colors.bold(title)}  ${colors.cyan(plainText(result.pick.id))}`,
    ...settingsSentences(result.pick.settings).flatMap((sentence) => bullet(sentence, columns)),
    // Settings that miss the wishes are not written into a rig file, so nothing is offered.
    ...(result.verdict.meets ? command('Into the rig file:', writeCommand(result), columns) : []),
  ];
}

function runnersUpBlock(result: ChooseResult, columns: number, colors: Colors): string[] {
  if (result.runnersUp.length === 0) return [];
  const [head, ...lines] = textTable(
    [
      ['Runners-up', 'jitter %', 'lag ms', 'jumps %', 'false/h', 'met in'],
      ...result.runnersUp
        .slice(0, MOST_RUNNERS_UP)
        .map((rated) => [
          plainText(rated.id),
          formatValueOf(rated.scores.jitterPct),
          formatValueOf(rated.scores.lagMs),
          formatValueOf(rated.scores.stepPct),
          formatValueOf(rated.scores.falsePerHour),
          formatShare(rated.metShare),
        ]),
    ],
    { columns, right: [1, 2, 3, 4, 5] },
  );
  return [colors.bold(head), ...lines];
}

function paretoBlock(result: ChooseResult, columns: number, colors: Colors): string[] {
  if (result.pareto.length === 0) return [];
  const shown = thinned(
    [...result.pareto].sort((a, b) => a.lagMs - b.lagMs),
    MOST_PARETO_ROWS,
  );
  const [head, ...lines] = textTable(
    [
      ['Best compromises', 'lag ms', 'jitter %'],
      ...shown.map((point) => [
        plainText(point.id),
        formatNumber(point.lagMs),
        formatNumber(point.jitterPct),
      ]),
    ],
    { columns, right: [1, 2] },
  );
  const left = result.pareto.length - shown.length;
  const more = left > 0 ? [colors.dim(`(${left} more between these)`)] : [];
  return [colors.bold(head), ...lines, ...more];
}

/** Keeps both ends and evenly spaced points between them. */
export function thinned(points: TradeOffPoint[], most: number): TradeOffPoint[] {
  if (points.length <= most) return points;
  return Array.from(
    { length: most },
    (_, index) => points[Math.round((index * (points.length - 1)) / (most - 1))],
  );
}

function whatIfBlock(result: ChooseResult, columns: number, colors: Colors): string[] {
  if (result.whatIf.length === 0) return [];
  const sorted = sortedWhatIf(result.whatIf);
  const helping = sorted.filter((change) => effectWord(change) === 'helps').slice(0, MOST_WHAT_IF);
  const lines = [
    colors.bold('What if the build were changed (best first)'),
    ...helping.flatMap((change) => whatIfLines(change, columns)),
  ];
  if (helping.length === 0) lines.push('  No single change that was tried helps clearly.');
  const count = (word: string): number => sorted.filter((change) => effectWord(change) === word).length;
  const rest = [
    [count('helps') - helping.length, 'more help'],
    [count('no clear difference'), 'make no clear difference'],
    [count('harms'), 'harm'],
  ] as const;
  const words = rest.filter(([number]) => number > 0).map(([number, word]) => `${number} ${word}`);
  if (words.length > 0) lines.push(colors.dim(`  Of the others: ${words.join(', ')}.`));
  return lines;
}

function whatIfLines(change: WhatIf, columns: number): string[] {
  const { before, after } = change.falsePerHour;
  const brings = [
    `worst ratio ${formatChange(change.ratioChange)}`,
    `jitter ${formatChangeOf(change.jitterChangePct)} %`,
    `lag ${formatChangeOf(change.lagChangeMs)} ms`,
    `false/h ${formatNumber(before, 2)} → ${formatNumber(after, 2)}`,
  ].join('; ');
  return [...bullet(change.change, columns), ...wrapped(brings, columns - 4).map((text) => `    ${text}`)];
}

function repeatBlock(result: ChooseResult, columns: number, colors: Colors): string[] {
  const counts = `${result.settingsTried} settings, ${result.settingsTooSlow} too slow for the board, ${result.draws} draws, ${result.evaluations} runs; seed ${result.seed}, tautline ${result.version}.`;
  return [
    ...wrapped(counts, columns).map(colors.dim),
    ...command('The same again:', repeatCommand(result), columns),
  ];
}

/** Spaces that must not break have done their work once lines are made; plain ones are easier to search for. */
export function breakable(text: string): string {
  return text.replace(/[\u00a0\u202f]/g, ' ');
}

/** A command is never broken, so that it can be copied: it gets a line of its own where it does not fit. */
function command(words: string, text: string, columns: number): string[] {
  const line = `${words} ${plainText(text)}`;
  return line.length <= columns ? [line] : [words, `  ${plainText(text)}`];
}

function wrapped(text: string, columns: number): string[] {
  return wrapWords(plainText(text), columns);
}

function bullet(text: string, columns: number, mark = '- '): string[] {
  return wrapped(text, columns - 4).map((part, index) => `  ${index === 0 ? mark : '  '}${part}`);
}
