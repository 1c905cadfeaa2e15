import type { Assumption, ChooseResult, TableRow } from '../../sim/study/result.ts';
import { SCORE_NAMES } from '../../sim/study/score-names.ts';
import { escapeHtml } from './escape.ts';
import { list, paragraph, scrollBox, section, table } from './html.ts';
import { formatFixed, formatNumber } from './numbers.ts';
import { repeatCommand, scoreHeading, worstMeanRatio } from './wish-rows.ts';

/** The ground under the answer: every row, every assumption, what is left out, how to get it again. */
export function groundSections(result: ChooseResult): string[] {
  return [fullTable(result), assumptions(result), notModelled(result), repeat(result)];
}

function fullTable(result: ChooseResult): string {
  const count = formatFixed(result.table.length, 0);
  return section(
    'table',
    'All settings tried',
    paragraph(
      `${formatFixed(result.settingsTried, 0)} settings were simulated; ${formatFixed(result.settingsTooSlow, 0)} more would not fit the frame time of the board and were left out. Those that fell behind early were given up after fewer draws.`,
    ),
    `<details><summary>Show the table (${count} rows)</summary>`,
    `<p class="finder" id="finder" hidden><label>Find settings <input type="search" autocomplete="off" placeholder="os8 adaptive"></label> <span id="finder-count" class="small" role="status"></span></p>`,
    scrollBox('All settings tried', rowsTable(result), 'scroll tall'),
    '</details>',
  );
}

/** Written by hand rather than by the general table: end tags that HTML lets one omit are a third of 1500 rows. */
function rowsTable(result: ChooseResult): string {
  const ratios = new Map(result.table.map((row) => [row, worstMeanRatio(row.scores, result.wishes)]));
  const sorted = [...result.table].sort(
    (a, b) =>
      Number(b.id === result.pick.id) - Number(a.id === result.pick.id) ||
      b.metShare - a.metShare ||
      ratios.get(a)! - ratios.get(b)!,
  );
  const heads = ['settings', 'draws', 'wishes met in, % of draws', ...SCORE_NAMES.map(scoreHeading)];
  const head = heads.map((words) => `<th scope="col">${escapeHtml(words)}</th>`).join('');
  const body = sorted.map((row) => bodyRow(row, row.id === result.pick.id)).join('\n');
  return `<table id="all-settings"><thead><tr>${head}</tr></thead><tbody>\n${body}\n</tbody></table>`;
}

function bodyRow(row: TableRow, picked: boolean): string {
  const cells = [
    formatFixed(row.draws, 0),
    formatFixed(row.metShare * 100, 0),
    ...SCORE_NAMES.map((name) => formatNumber(row.scores[name])),
  ];
  const open = picked ? '<tr class="picked">' : '<tr>';
  const id = escapeHtml(picked ? `${row.id} ◉ pick` : row.id);
  return `${open}<td class="id">${id}${cells.map((cell) => `<td>${escapeHtml(cell)}`).join('')}`;
}

const KIND_ORDER = ['assumed', 'computed', 'datasheet', 'measured', 'rig file'];
const KIND_WORDS: Record<string, string> = {
  assumed: 'Assumed – replace these by measurements first',
  computed: 'Computed',
  datasheet: 'From datasheets and standards',
  measured: 'Measured',
  'rig file': 'From the rig file',
};

function assumptions(result: ChooseResult): string {
  const kinds = [...new Set([...KIND_ORDER, ...result.assumptions.map((assumption) => assumption.kind)])];
  const groups = kinds
    .map((kind) => ({ kind, items: result.assumptions.filter((assumption) => assumption.kind === kind) }))
    .filter((group) => group.items.length > 0);
  return section(
    'assumptions',
    'What was taken as given',
    paragraph('Every number that went in, and where it comes from.'),
    ...groups.map(
      (group) =>
        `<h3>${escapeHtml(`${KIND_WORDS[group.kind] ?? group.kind} (${group.items.length})`)}</h3>${assumptionTable(group.items)}`,
    ),
  );
}

function assumptionTable(items: Assumption[]): string {
  return table(
    [{ text: 'What' }, { text: 'Value' }, { text: 'Source' }, { text: 'Place in the rig file' }],
    items.map((item) => [
      { text: item.label },
      { text: item.value },
      { text: item.source },
      { text: item.path, kind: 'id small' },
    ]),
    { class: 'stack given' },
  );
}

function notModelled(result: ChooseResult): string {
  return section(
    'not-modelled',
    'What is not modelled',
    paragraph('Effects that this answer knows nothing about:'),
    list(result.notModelled),
  );
}

function repeat(result: ChooseResult): string {
  const count = (value: number): string => formatFixed(value, 0);
  return section(
    'repeat',
    'To get this answer again',
    `<pre class="wrap">${escapeHtml(repeatCommand(result))}</pre>`,
    paragraph(
      `tautline ${result.version}, seed ${result.seed}, ${count(result.draws)} draws (${count(result.screeningDraws)} for screening), ${count(result.evaluations)} simulated runs. The same seed and rig file give the same answer, on any number of processor cores.`,
    ),
  );
}
