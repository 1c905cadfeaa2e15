import pc from 'picocolors';
import type { Settings } from '../../firmware/chain/settings.ts';
import type { TableRow } from '../../sim/study/result.ts';
import { SCORE_NAMES } from '../../sim/study/score-names.ts';
import { plainText } from '../report/escape.ts';
import { formatNumber, formatShare } from '../report/numbers.ts';
import { breakable } from './render-choose.ts';
import { textTable } from './text-table.ts';

const SETTING_COLUMNS = [
  'oversampling',
  'despike',
  'clipLimitPct',
  'lowPass',
  'cutoffHz',
  'restCutoffHz',
  'riseHz',
  'minCutoffHz',
  'beta',
  'speedCutoffHz',
  'hysteresis',
  'bandWidthPct',
] as const;

/** Columns of the sweep's file; units are the ends of the names, shares are 0-1. */
export const SWEEP_COLUMNS: string[] = ['id', ...SETTING_COLUMNS, 'draws', 'metShare', ...SCORE_NAMES];

/**
 * The full table as CSV after RFC 4180: CRLF line ends, one header row, numbers with all their digits and a
 * decimal point. A setting that a stage does not have is an empty field; so is a score that is not a number.
 */
export function sweepCsv(rows: TableRow[]): string {
  const lines = rows.map((row) => [
    row.id,
    ...settingFields(row.settings),
    number(row.draws),
    number(row.metShare),
    ...SCORE_NAMES.map((name) => number(row.scores[name])),
  ]);
  return [SWEEP_COLUMNS, ...lines].map((fields) => `${fields.map(quoted).join(',')}\r\n`).join('');
}

function settingFields(settings: Settings): string[] {
  const { despike, lowPass, hysteresis } = settings;
  const adaptive = lowPass.kind === 'adaptive' ? lowPass : undefined;
  const oneEuro = lowPass.kind === 'oneEuro' ? lowPass : undefined;
  return [
    number(settings.oversampling),
    despike.kind,
    number(despike.kind === 'clip' ? despike.limitPct : undefined),
    lowPass.kind,
    number(lowPass.kind === 'exponential' ? lowPass.cutoffHz : undefined),
    number(adaptive?.restCutoffHz),
    number(adaptive?.riseHz),
    number(oneEuro?.minCutoffHz),
    number(oneEuro?.beta),
    number(oneEuro?.speedCutoffHz),
    hysteresis.kind,
    number(hysteresis.kind === 'none' ? undefined : hysteresis.widthPct),
  ];
}

function number(value: number | undefined): string {
  return value === undefined || !Number.isFinite(value) ? '' : String(value);
}

function quoted(field: string): string {
  return /[",\r\n]/.test(field) ? `"${field.replace(/"/g, '""')}"` : field;
}

/**
 * A few lines about a sweep: how many settings, and those that come out best in a single score.
 * @param options columns: width to keep to; color: whether to write colour codes; file: where the table went
 */
export function renderSweep(
  rows: TableRow[],
  options: { columns: number; color: boolean; file?: string },
): string {
  const colors = pc.createColors(options.color);
  const columns = Math.max(60, options.columns);
  const meeting = rows.filter((row) => row.metShare >= 0.95).length;
  const where = options.file === undefined ? '' : ` Table: ${plainText(options.file)}`;
  const lines = [
    colors.bold(`${rows.length} settings swept; ${meeting} meet every wish in 95 % of their draws.${where}`),
  ];
  const best = (words: string, worth: (row: TableRow) => number): string[] | undefined => {
    let found: TableRow | undefined;
    for (const row of rows)
      if (Number.isFinite(worth(row)) && (found === undefined || worth(row) < worth(found))) found = row;
    if (found === undefined) return undefined;
    return [
      words,
      plainText(found.id),
      formatNumber(found.scores.jitterPct),
      formatNumber(found.scores.lagMs),
      formatShare(found.metShare),
    ];
  };
  const table = [
    best('most draws met', (row) => -row.metShare),
    best('calmest', (row) => row.scores.jitterPct),
    best('quickest', (row) => row.scores.lagMs),
    best('truest', (row) => row.scores.errorPct),
  ].filter((row) => row !== undefined);
  if (table.length > 0) {
    const heads = ['', 'settings', 'jitter %', 'lag ms', 'met in'];
    lines.push(...textTable([heads, ...table], { columns, right: [2, 3, 4], flexible: [1] }));
  }
  return `${breakable(lines.join('\n'))}\n`;
}
