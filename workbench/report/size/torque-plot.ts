import type { SpringSize } from '../../../sim/sizing/strings/spring-size.ts';
import { axes, type Box, legend } from '../axes.ts';
import { extent, linearScale, padded } from '../scale.ts';
import { drawing, line, polyline, type Size } from '../svg.ts';

/** Torque of the spring against the turn of the spool, both directions, with what a stiff potentiometer takes. */
export function torquePlot(spring: SpringSize, who: string, size: Size, id: string): string {
  const { turns, outMNm, meanMNm, inMNm } = spring.torque;
  const key = legend(
    [
      { text: 'string going out', sign: (x, y) => line(x, y, x + 22, y, 'smooth') },
      { text: 'mean', sign: (x, y) => line(x, y, x + 22, y, 'truth') },
      { text: 'winding in', sign: (x, y) => line(x, y, x + 22, y, 'front') },
      ...(spring.stiffDragMNm > 0
        ? [
            {
              text: 'drag of a stiff potentiometer',
              sign: (x: number, y: number) => line(x, y, x + 22, y, 'wish'),
            },
          ]
        : []),
    ],
    8,
    4,
    size.width - 16,
  );
  const box: Box = { left: 46, top: key.height + 30, right: size.width - 12, bottom: size.height - 44 };
  const x = linearScale(extent([turns]), [box.left, box.right], size.width < 500 ? 4 : 8);
  const [low, high] = padded(extent([outMNm, inMNm, [spring.stiffDragMNm]], [0]), 0.05);
  const y = linearScale([Math.max(0, low), high], [box.bottom, box.top], 5);
  const at = (values: number[]) => values.map((value) => y.at(value));
  const xs = turns.map((turn) => x.at(turn));
  const dragY = y.at(spring.stiffDragMNm);
  return drawing(
    {
      id,
      title: `Spring torque, ${who}`,
      description: `Winding in, the spring gives ${inMNm[0]!.toFixed(2)} mN·m with the finger open and ${inMNm[inMNm.length - 1]!.toFixed(2)} closed; a stiff potentiometer takes ${spring.stiffDragMNm.toFixed(2)} mN·m.`,
      size,
      class: 'plot',
    },
    [
      key.svg,
      axes(box, x, y, { x: 'turns of the spool from the open finger', y: 'torque, mN·m' }),
      spring.stiffDragMNm > 0 ? line(box.left, dragY, box.right, dragY, 'wish') : '',
      polyline(xs, at(meanMNm), 'truth'),
      polyline(xs, at(inMNm), 'front'),
      polyline(xs, at(outMNm), 'smooth'),
    ],
  );
}
