import { alike, type StringsSize } from '../../../sim/sizing/strings/strings-size.ts';
import { figure, list, section, table } from '../html.ts';
import { lostPlot } from './lost-plot.ts';
import { preloadPlot } from './preload-plot.ts';
import {
  GUIDE_HEADS,
  guideNotes,
  guideRows,
  namesOf,
  PRELOAD_HEADS,
  preloadRows,
  SPOOL_HEADS,
  SPRING_HEADS,
  spoolNotes,
  spoolRows,
  springNotes,
  springRows,
} from './strings-words.ts';
import { torquePlot } from './torque-plot.ts';

const WIDE = 880;
const SLIM = 350;
const TORQUE = { wide: { width: WIDE, height: 280 }, slim: { width: SLIM, height: 300 } };
/** Figures that find their own height. */
const FREE = { wide: { width: WIDE, height: 0 }, slim: { width: SLIM, height: 0 } };

/** String, spool, spring and guides, for the report: three sections with a small plot where it says more. */
export function stringsSection(size: StringsSize): string {
  const groups = alike(size).map(({ names, finger }) => ({ who: namesOf(names, size), finger }));
  const hardest = groups.reduce((a, b) =>
    b.finger.spring.returnFactor < a.finger.spring.returnFactor ? b : a,
  );
  const { spring } = hardest.finger;
  return [
    section('spool', 'String and spool', stack(SPOOL_HEADS, spoolRows(size)), list(spoolNotes(size))),
    section(
      'spring',
      'Spring',
      stack(SPRING_HEADS, springRows(size)),
      figure(
        'torque',
        (frame, id) => torquePlot(spring, hardest.who, frame, id),
        TORQUE,
        `Spring of ${hardest.who}, over the stroke of the largest hand. Between the two full lines lies its friction; winding in it must stay above the drag, better by half.`,
      ),
      '<h3>Turns of preload</h3>',
      stack(PRELOAD_HEADS, preloadRows(size)),
      figure(
        'preload',
        ({ width }, id) =>
          preloadPlot(
            groups.map(({ who, finger }) => ({ who, preload: finger.spring.preload })),
            width,
            id,
          ),
        FREE,
        'For the largest hand. Short of the outer bar the string does not come back in time, beyond it the pull is too strong; steady when open: a pull of 0.2 N is left.',
      ),
      list(springNotes(size)),
    ),
    section(
      'guides',
      'Guides and lost motion',
      stack(GUIDE_HEADS, guideRows(size)),
      figure(
        'lost',
        ({ width }, id) =>
          lostPlot(
            groups.map(({ who, finger }) => ({ who, guides: finger.guides })),
            width,
            id,
          ),
        FREE,
        'What the finger moves at a reversal before the spool follows, mm of string.',
      ),
      list(guideNotes(size)),
    ),
  ].join('\n');
}

function stack(heads: string[], rows: string[][]): string {
  return table(
    heads.map((text) => ({ text })),
    rows.map((row) => row.map((text, i) => (i === 0 ? { text } : { text, name: heads[i]! }))),
    { class: 'stack' },
  );
}
