import type { ChooseResult, RatedSettings } from '../../sim/study/result.ts';
import { SCORES } from '../../sim/study/score-names.ts';
import { escapeHtml } from './escape.ts';
import { type Cell, list, paragraph, scrollBox, section, table } from './html.ts';
import { formatRange, formatSetting, formatShare, formatValueOf, formatWithUnit } from './numbers.ts';
import {
  certaintySentences,
  otherScores,
  STANDING_WORDS,
  scoreHeading,
  WISHED_SCORES,
  wishRows,
  writeCommand,
} from './wish-rows.ts';
import { settingsLine, settingsSentences, settingsYaml } from './words.ts';

/** The answer itself: verdict, chosen settings, runners-up. */
export function answerSections(result: ChooseResult): string[] {
  return [verdict(result), settings(result), runnersUp(result)];
}

function verdict(result: ChooseResult): string {
  const { meets, headline, details, obstacles } = result.verdict;
  const parts = [
    `<section id="verdict" class="verdict${meets ? '' : ' no'}" aria-labelledby="verdict-heading">`,
    `<h2 id="verdict-heading" class="stamp">${meets ? '✓ Wishes met' : '✗ Wishes not met'}</h2>`,
    paragraph(headline, 'headline'),
    ...details.map((detail) => paragraph(detail)),
    ...(obstacles.length > 0 ? ['<h3>What stands in the way</h3>', list(obstacles)] : []),
    ...(result.warnings.length > 0
      ? [`<div class="notice" role="note"><strong>Mind this</strong>${list(result.warnings)}</div>`]
      : []),
    wishTable(result),
    ...certaintySentences(result.pick, result.draws).map((sentence) => paragraph(sentence)),
    paragraph(
      'Expected values are means over the draws, with the interval that holds the mean with 95 % confidence. “Not always” means that the mean meets the wish, but not 95 % of the builds do.',
      'small',
    ),
    '</section>',
  ];
  return parts.join('\n');
}

function wishTable(result: ChooseResult): string {
  const heads: Cell[] = [
    { text: 'Score' },
    { text: 'Expected', kind: 'n' },
    { text: '95 % interval', kind: 'n' },
    { text: 'Wished at most', kind: 'n' },
    { text: 'Unit' },
    { text: 'Met?' },
  ];
  const rows = wishRows(result.pick, result.wishes).map((row): Cell[] => [
    { text: row.label },
    { text: formatValueOf(row.value), kind: 'n' },
    formatRange(row.value) === ''
      ? { text: '–', kind: 'n none' }
      : { text: formatRange(row.value), kind: 'n range' },
    { text: formatSetting(row.wish), kind: 'n wish', name: 'wished at most' },
    { text: row.unit, kind: 'unit' },
    { text: STANDING_WORDS[row.standing], kind: STANDING_WORDS[row.standing] },
  ]);
  return table(heads, rows, { class: 'stack wishes' });
}

function settings(result: ChooseResult): string {
  const { pick, rig } = result;
  const others = otherScores().map((name): Cell[] => [
    { text: SCORES[name].label },
    { text: formatWithUnit(pick.scores[name], SCORES[name].unit) },
    { text: SCORES[name].meaning, kind: 'small' },
  ]);
  return section(
    'settings',
    result.verdict.meets ? 'The chosen settings' : 'The settings that come closest',
    list(settingsSentences(pick.settings)),
    `<p>Short name: <code>${escapeHtml(pick.id)}</code></p>`,
    // Settings that miss the wishes are not written into a rig file by command, only by hand.
    ...(result.verdict.meets
      ? [
          paragraph(`To put them into ${rig.file}, type`),
          `<pre class="wrap">${escapeHtml(writeCommand(result))}</pre>`,
          paragraph('or write this block into the file yourself, in place of any settings there:'),
        ]
      : [paragraph(`If you want to try them all the same, write this block into ${rig.file}:`)]),
    `<pre>${escapeHtml(settingsYaml(pick.settings))}</pre>`,
    '<h3>What else to expect from them</h3>',
    table(
      [{ text: 'Score' }, { text: 'Expected (95 % interval)' }, { text: 'What it says', kind: 'meaning' }],
      others,
      { class: 'stack' },
    ),
  );
}

function runnersUp(result: ChooseResult): string {
  if (result.runnersUp.length === 0)
    return section(
      'runners-up',
      'Runners-up',
      paragraph('No other settings came close enough to be listed.'),
    );
  const heads: Cell[] = [
    { text: 'Settings' },
    { text: 'In words' },
    ...WISHED_SCORES.map(({ score }): Cell => ({ text: scoreHeading(score), kind: 'n' })),
    { text: 'All wishes met in', kind: 'n' },
  ];
  const row = (rated: RatedSettings, mark: string): Cell[] => [
    { text: mark + rated.id, kind: 'id' },
    { text: settingsLine(rated.settings), kind: 'words' },
    ...WISHED_SCORES.map(({ score }): Cell => ({ text: formatValueOf(rated.scores[score]), kind: 'n' })),
    { text: formatShare(rated.metShare), kind: 'n' },
  ];
  const rows = [row(result.pick, '◉ '), ...result.runnersUp.map((rated) => row(rated, ''))];
  return section(
    'runners-up',
    'Runners-up',
    paragraph('The pick (◉) and the next best, best first.'),
    scrollBox('Runners-up', table(heads, rows)),
  );
}
