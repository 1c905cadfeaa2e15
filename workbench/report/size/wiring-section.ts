import { ohmWords } from '../../../sim/sizing/value-words.ts';
import type { WiringSize } from '../../../sim/sizing/wiring/wiring-size.ts';
import {
  ABOUT_SUPPLY,
  aboutLoading,
  aboutSettling,
  alike,
  hoursWords,
  resistorHeading,
  resistorRows,
} from '../../cli/size/wiring-lines.ts';
import { type Cell, paragraph, section, table } from '../html.ts';

/** Potentiometers and their wiring, for the report. */
export function wiringSection(size: WiringSize): string {
  const loading = [...new Set(size.fingers.map(aboutLoading))].filter((text) => text !== '');
  return section(
    'wiring',
    'Potentiometers and wiring',
    stacked(
      ['finger', 'pin, all tolerances', 'behind the pin', 'settles in', 'cut-off', 'open wiper told in'],
      alike(
        size.fingers.map((f) => [
          f.name,
          `${f.cornersV[0].toFixed(3)}–${f.cornersV[1].toFixed(3)} V`,
          `${ohmWords(f.settling.sourceOhm)} at ${(100 * f.settling.sourceAt).toFixed(0)} % of the travel`,
          `${f.settling.settlingMs.toFixed(2)} ms`,
          f.settling.cutoffHz === null ? 'none' : `${f.settling.cutoffHz.toFixed(0)} Hz`,
          f.openWiper.flaggedMs === null ? 'never' : `${f.openWiper.flaggedMs.toFixed(0)} ms`,
        ]),
      ),
    ),
    paragraph(aboutSettling(size)),
    ...loading.map((text) => paragraph(text)),
    ...size.resistors.flatMap((proposals) => [
      paragraph(resistorHeading(proposals, size.resistors.length)),
      stacked(['resistors', 'top', 'bottom', 'pin, all tolerances', 'span'], resistorRows(proposals)),
    ]),
    '<h3>Supply, pick-up and life</h3>',
    stacked(
      ['finger', 'lowest supply', 'sag alone', 'with rail', 'pick-up', 'dead end', 'life'],
      alike(
        size.fingers.map((f) => [
          f.name,
          `${f.supply.readingPct.toFixed(1)} %, ${f.supply.counts.toFixed(0)} counts`,
          `${f.supply.sagPct.toFixed(2)} %`,
          `${f.supply.withRailPct.toFixed(2)} %`,
          `${f.pickUp.wanderPct.toFixed(2)} %`,
          `${f.ends.deadPct.toFixed(1)} %`,
          `${hoursWords(f.life, '–')} h`,
        ]),
      ),
    ),
    paragraph(ABOUT_SUPPLY, 'small'),
  );
}

/** A table whose rows become blocks on narrow screens, each value behind its column's name. */
function stacked(heads: string[], rows: string[][]): string {
  const cells = rows.map((row) =>
    row.map((text, i): Cell => (i === 0 ? { text } : { text, name: heads[i]! })),
  );
  return table(
    heads.map((text) => ({ text })),
    cells,
    { class: 'stack' },
  );
}
