import { type GuideSize, MOST_LOST_MM, PARTS } from '../../../sim/sizing/strings/guide-size.ts';
import { axes, type Box, legend } from '../axes.ts';
import { linearScale } from '../scale.ts';
import { drawing, element, label, line, type Size } from '../svg.ts';
import { PART_WORDS } from './strings-words.ts';

const ROW = 40;
/** One look for each part, apart in print as well. */
const LOOKS = {
  friction: 'lag-sum',
  play: 'raw-area',
  backlash: 'bar-harms',
  stretch: 'bar-unclear',
} as const;

/** Lost motion of each finger as one bar, split by where it comes from. */
export function lostPlot(fingers: { who: string; guides: GuideSize }[], width: number, id: string): string {
  const there = PARTS.filter((part) => fingers.some(({ guides }) => guides.lost[part] > 0));
  const key = legend(
    there.map((part) => ({
      text: PART_WORDS[part],
      sign: (x, y) => element('rect', { x, y: y - 6, width: 22, height: 12, class: LOOKS[part] }),
    })),
    8,
    4,
    width - 16,
  );
  const top = key.height + 30;
  const size: Size = { width, height: top + fingers.length * ROW + 48 };
  const box: Box = { left: 12, top, right: width - 12, bottom: size.height - 44 };
  const most = Math.max(MOST_LOST_MM, ...fingers.map(({ guides }) => guides.lostMm));
  const x = linearScale([0, 1.05 * most], [box.left, box.right], width < 500 ? 5 : 9);
  const noTicks = { at: (): number => box.top, ticks: [], floor: undefined };
  const limitX = x.at(MOST_LOST_MM);
  return drawing(
    {
      id,
      title: 'Lost motion',
      description: fingers
        .map(
          ({ who, guides }) =>
            `${who}: ${there.map((part) => `${PART_WORDS[part]} ${guides.lost[part].toFixed(3)} mm`).join(', ')}.`,
        )
        .join(' '),
      size,
      class: 'plot',
    },
    [
      key.svg,
      axes(box, x, noTicks, { x: 'mm of string lost at a reversal', y: '' }),
      line(limitX, box.top - 6, limitX, box.bottom, 'wish'),
      label(limitX, box.top - 10, `at most ${MOST_LOST_MM} mm`, { anchor: 'end', class: 'wish-text' }),
      ...fingers.map(({ who, guides }, i) => {
        const y = box.top + 4 + i * ROW;
        let from = 0;
        const bars = there.map((part) => {
          const start = from;
          from += guides.lost[part];
          if (guides.lost[part] === 0) return '';
          const [left, right] = [x.at(start), x.at(from)];
          return element('rect', {
            x: left,
            y: y + 15,
            width: Math.max(0.5, right - left),
            height: 15,
            class: LOOKS[part],
          });
        });
        return element(
          'g',
          {},
          label(box.left + 6, y + 10, `${who}: ${guides.lostMm.toFixed(2)} mm`, { class: 'halo' }),
          ...bars,
        );
      }),
    ],
  );
}
