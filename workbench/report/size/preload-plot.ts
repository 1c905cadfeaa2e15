import {
  type Clash,
  isClash,
  type PreloadRange,
  type Stretch,
} from '../../../sim/sizing/strings/preload-range.ts';
import { axes, type Box, legend } from '../axes.ts';
import { linearScale } from '../scale.ts';
import { diamond, drawing, element, label, type Size } from '../svg.ts';

const ROW = 44;

/** Preload of each finger: where it works, where it does not tire, and where it is now. */
export function preloadPlot(
  fingers: { who: string; preload: PreloadRange }[],
  width: number,
  id: string,
): string {
  // A spring whose torque does not grow has no turns: then all are told in torque.
  const isTurns = fingers.every(({ preload }) => preload.nowTurns !== null);
  const now = (preload: PreloadRange) => (isTurns ? preload.nowTurns! : preload.nowMNm);
  const ends = (stretch: Stretch): [number, number] =>
    isTurns ? [stretch.fromTurns!, stretch.toTurns!] : [stretch.fromMNm, stretch.toMNm];
  const bar = (x: number, y: number, from: number, to: number, height: number, kind: string) =>
    element('rect', { x: from + x, y, width: Math.max(1, to - from), height, class: kind });
  const key = legend(
    [
      { text: 'works', sign: (x, y) => bar(x, y - 6, 0, 22, 12, 'bar-unclear') },
      { text: 'does not tire', sign: (x, y) => bar(x, y - 6, 0, 22, 12, 'bar-helps') },
      { text: 'now', sign: (x, y) => diamond(x + 11, y, 6, 'pick-core') },
    ],
    8,
    4,
    width - 16,
  );
  const top = key.height + 14;
  const size: Size = { width, height: top + fingers.length * ROW + 46 };
  const box: Box = { left: 12, top, right: width - 12, bottom: size.height - 44 };
  const most = Math.max(
    ...fingers.map(({ preload }) =>
      Math.max(
        1.2 * now(preload),
        isClash(preload.works) ? 0 : Math.min(ends(preload.works)[1], 3 * now(preload)),
      ),
    ),
  );
  const x = linearScale([0, most], [box.left, box.right], width < 500 ? 5 : 9);
  const noTicks = { at: (): number => box.top, ticks: [], floor: undefined };
  const stretchBar = (stretch: Stretch | Clash, y: number, height: number, kind: string) =>
    isClash(stretch) ? '' : bar(0, y, x.at(ends(stretch)[0]), x.at(ends(stretch)[1]), height, kind);
  const inWords = (stretch: Stretch | Clash) =>
    isClash(stretch)
      ? 'nowhere'
      : `${ends(stretch)
          .map((end) => end.toFixed(2))
          .join(' to ')}`;
  return drawing(
    {
      id,
      title: 'Preload',
      description: fingers
        .map(
          ({ who, preload }) =>
            `${who}: works ${inWords(preload.works)}, does not tire ${inWords(preload.comfortable)}, now ${now(preload).toFixed(2)}.`,
        )
        .join(' '),
      size,
      class: 'plot',
    },
    [
      key.svg,
      axes(box, x, noTicks, { x: isTurns ? 'turns of preload' : 'torque with the finger open, mN·m', y: '' }),
      ...fingers.map(({ who, preload }, i) => {
        const y = box.top + 6 + i * ROW;
        return element(
          'g',
          {},
          label(box.left + 6, y + 10, who, { class: 'halo' }),
          stretchBar(preload.works, y + 16, 18, 'bar-unclear'),
          stretchBar(preload.comfortable, y + 19, 12, 'bar-helps'),
          diamond(x.at(now(preload)), y + 25, 7, 'pick-core', `now ${now(preload).toFixed(2)}`),
        );
      }),
    ],
  );
}
