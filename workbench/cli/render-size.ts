import type { Rig } from '../../sim/rig/rig.ts';
import { type Margin, verdictOf } from '../../sim/sizing/margin.ts';
import type { ResistorPair } from '../../sim/sizing/resistors.ts';
import type { RigSize } from '../../sim/sizing/size-rig.ts';
import { wrapWords } from '../report/wrap.ts';
import { textTable } from './text-table.ts';

const VERDICTS = { no: 'does not work', tight: 'only just', ok: 'fine' } as const;

/** The answer as lines for the terminal. */
export function renderSize(rig: Rig, size: RigSize, columns: number): string {
  const lines: string[] = [];
  const say = (text: string) => lines.push(...wrapWords(text, columns));
  const failing = size.margins.filter((margin) => verdictOf(margin) === 'no');
  const soft = size.margins.filter((margin) => margin.isSoft && margin.ratio < 1);
  say(
    failing.length === 0
      ? `Yes: on paper this build works for hands of ${size.hands.join(' to ')} times the mean.`
      : `No: ${failing.length} thing${failing.length === 1 ? '' : 's'} will not work for hands of ${size.hands.join(' to ')} times the mean.`,
  );
  lines.push('', 'What breaks first');
  for (const margin of size.breaksFirst) lines.push(...marginLines(margin, columns));
  const others = [...failing, ...soft].filter((margin) => !size.breaksFirst.includes(margin));
  if (others.length > 0) {
    lines.push('', 'Also');
    for (const margin of others) lines.push(...marginLines(margin, columns));
  }
  lines.push('', 'String and spool');
  lines.push(
    ...textTable(
      [
        ['finger', 'string drawn', 'of the travel', 'spool', 'proposed', 'one count'],
        ...size.fingers.map((f, i) => [
          f.name,
          `${f.strokesMm[0].toFixed(1)}-${f.strokesMm[1].toFixed(1)} mm`,
          `${(100 * f.travelShare).toFixed(0)} %`,
          `${rig.fingers[i]!.spoolRadiusMm} mm`,
          `${f.proposedRadiusMm} mm`,
          `${f.mmPerCount.toFixed(3)} mm`,
        ]),
      ],
      { columns, right: [1, 2, 3, 4, 5], indent: 2 },
    ),
  );
  lines.push('', 'Spring and pull');
  lines.push(
    ...textTable(
      [
        ['finger', 'torque open-closed', 'comes back by', 'pull open-closed', 'lost motion'],
        ...size.fingers.map((f) => [
          f.name,
          `${f.torquesMNm[0].toFixed(2)}-${f.torquesMNm[1].toFixed(2)} mN·m`,
          `${f.returnFactor.toFixed(2)} x`,
          `${f.pullsN[0].toFixed(2)}-${f.pullsN[1].toFixed(2)} N`,
          `${f.lostMm.toFixed(2)} mm`,
        ]),
      ],
      { columns, right: [1, 2, 3, 4], indent: 2 },
    ),
  );
  lines.push('', 'Wiring');
  const [first] = size.fingers;
  say(
    `  Pin between ${first!.cornersV[0].toFixed(3)} and ${first!.cornersV[1].toFixed(3)} V over all tolerances; ${kiloOhm(first!.sourceOhm)} behind the pin, settled in ${first!.settlingMs.toFixed(1)} ms.`,
  );
  say(`  Widest pair of E12: ${pairWords(size.resistors.e12)}`);
  say(`  Widest pair of E24: ${pairWords(size.resistors.e24)}`);
  lines.push('', 'Power');
  say(
    `  About ${size.currentMA.toFixed(0)} mA with the radio off: ${size.hoursOn500MAh.toFixed(1)} h on a cell of 500 mAh. Use protected cells and a certified charger, never charge while worn; local rules come first.`,
  );
  return `${lines.join('\n')}\n`;
}

function marginLines(margin: Margin, columns: number): string[] {
  const verdict = margin.ratio < 1 && margin.isSoft ? 'uncomfortable' : VERDICTS[verdictOf(margin)];
  const who = margin.fingers.length > 4 ? 'all fingers' : margin.fingers.join(', ');
  const cure = verdictOf(margin) === 'ok' ? '' : ` Cure: ${margin.cure}.`;
  const text = `${margin.group}, ${verdict}, ${who}: ${margin.what} is ${margin.seen}; ${margin.allowed}.${cure}`;
  return wrapWords(text, columns - 4).map((line, i) => (i > 0 ? `    ${line}` : `  ${line}`));
}

function pairWords(pair: ResistorPair | undefined): string {
  if (!pair) return 'none keeps every corner inside the range.';
  return `${kiloOhm(pair.topOhm)} top, ${kiloOhm(pair.bottomOhm)} bottom: ${pair.lowestV.toFixed(3)}-${pair.highestV.toFixed(3)} V, ${pair.spanV.toFixed(3)} V of span.`;
}

function kiloOhm(ohm: number): string {
  return ohm < 1000 ? `${Math.round(ohm)} Ω` : `${Number((ohm / 1000).toFixed(2))} kΩ`;
}
