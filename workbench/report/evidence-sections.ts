import type { ChooseResult } from '../../sim/study/result.ts';
import { figure, paragraph, scrollBox, section, table } from './html.ts';
import { lagPlot } from './lag-plot.ts';
import { formatChange, formatNumber, withUnit } from './numbers.ts';
import { restPlot } from './rest-plot.ts';
import { tracePlot } from './trace-plot.ts';
import { tradeOffPlot } from './trade-off-plot.ts';
import { effectWord, sortedWhatIf, whatIfPlot } from './what-if-plot.ts';
import { fingerWords } from './words.ts';

const WIDE = 880;
const SLIM = 350;

/** What the answer rests on: the drawings. */
export function evidenceSections(result: ChooseResult): string[] {
  return [tradeOff(result), grasp(result), rest(result), lag(result), whatIf(result)];
}

function tradeOff(result: ChooseResult): string {
  const { table: rows, pareto, pick, wishes } = result;
  return section(
    'trade-off',
    'Jitter against lag',
    figure(
      'trade-off',
      (size, id) => tradeOffPlot({ table: rows, pareto, pick, wishes }, size, id),
      { wide: { width: WIDE, height: 520 }, slim: { width: SLIM, height: 440 } },
      'Calmer costs time. In the shaded corner both wishes are met. Dots and diamonds are means over the draws that each was run on; the pick was run on all draws, its cross shows the 95 % intervals, so it may lie off the line. Both scales are logarithmic.',
    ),
  );
}

function grasp(result: ChooseResult): string {
  const { example } = result;
  return section(
    'grasp',
    `Hardest grasp: ${fingerWords(example.finger)}`,
    figure(
      'trace',
      (size, id) => tracePlot(example, size, id),
      { wide: { width: WIDE, height: 360 }, slim: { width: SLIM, height: 300 } },
      `The fastest grasp of the worst finger with the chosen settings, in draw ${example.draw} (the median one of ${result.draws}).`,
    ),
  );
}

function rest(result: ChooseResult): string {
  const { rest: histogram } = result;
  const calmer = histogram.smoothedSdPct > 0 ? histogram.rawSdPct / histogram.smoothedSdPct : 0;
  const gain = calmer > 1 ? ` Smoothing makes the hand ${formatNumber(calmer, 2)} times calmer.` : '';
  return section(
    'rest',
    `At rest: ${fingerWords(histogram.finger)}`,
    figure(
      'rest',
      (size, id) => restPlot(histogram, size, id),
      { wide: { width: WIDE, height: 420 }, slim: { width: SLIM, height: 400 } },
      `How far closure strays from its mean while the finger rests; the outermost bars hold everything beyond. The bar spans one standard deviation (sd) to either side. The two heights have scales of their own.${gain}`,
    ),
  );
}

function lag(result: ChooseResult): string {
  const data = { parts: result.lagParts, wishMs: result.wishes.lagMs };
  return section(
    'lag',
    'Where the lag comes from',
    figure(
      'lag',
      (size, id) => lagPlot(data, size.width, id),
      { wide: { width: WIDE, height: 0 }, slim: { width: SLIM, height: 0 } },
      'Each part begins where the one before it ends. The link to the computer and the screen come on top and are not in here.',
    ),
  );
}

function whatIf(result: ChooseResult): string {
  if (result.whatIf.length === 0)
    return section('what-if', 'What if', paragraph('No changes of the build were tried.'));
  const heads = [
    { text: 'Change' },
    { text: 'Effect' },
    { text: 'Worst ratio' },
    { text: 'Jitter, % of closure' },
    { text: 'Lag, ms' },
    { text: 'False gestures an hour' },
    { text: 'Best settings then' },
    { text: 'Place in the rig file' },
  ];
  const rows = sortedWhatIf(result.whatIf).map((change) => [
    { text: change.change, kind: 'words' },
    { text: effectWord(change) },
    { text: formatChange(change.ratioChange), kind: 'n' },
    { text: formatChange(change.jitterChangePct), kind: 'n' },
    { text: formatChange(change.lagChangeMs), kind: 'n' },
    {
      text: `${formatNumber(change.falsePerHour.before, 2)} → ${formatNumber(change.falsePerHour.after, 2)}`,
      kind: 'n',
    },
    { text: change.settingsId, kind: 'id' },
    { text: `${change.path}: ${change.from} → ${change.to}`, kind: 'id' },
  ]);
  return section(
    'what-if',
    'What if the build were changed',
    paragraph(
      `One change at a time, simulated with the same draws, each with the settings that suit it best; what helps most comes first. The ratio is score divided by wish, for the wish that is hardest to meet (now ${formatNumber(result.pick.worstRatio)}; 1 or less meets): −0.1 means a tenth of the wish gained.`,
    ),
    figure(
      'what-if',
      (size, id) => whatIfPlot(result.whatIf, size.width, id),
      { wide: { width: WIDE, height: 0 }, slim: { width: SLIM, height: 0 } },
      `Full bars help, hollow bars harm. Dashed grey bars: the interval (${withUnit('95', '%')}) holds zero, so no clear difference.`,
    ),
    `<details><summary>The same in numbers</summary>${scrollBox('What-if changes in numbers', table(heads, rows))}</details>`,
  );
}
