/** What comes over the console in a run: all commands with good and bad arguments, repeated ones, damaged ones. */
import { commandText } from '../../protocol/command-packet.ts';
import { rnd } from '../../sim/seed/mix.ts';

/** Steps that a capture lasts: longer than a finger's way from end to end. */
const CAPTURE_STEPS = 180;
/** Steps of one round, the last ones without packets. */
const ROUND_STEPS = 900;

/** @param steps length of the run */
export function packetsOf(seed: number, slots: number[], steps: number): [step: number, t: unknown][] {
  const all: [number, unknown][] = [];
  for (let round = 0; round * ROUND_STEPS < steps; round++) all.push(...roundOf(seed, round, slots));
  return all.filter(([step]) => step < steps);
}

function roundOf(seed: number, round: number, slots: number[]): [number, unknown][] {
  let draw = 0;
  const random = (below: number) => rnd(draw++, seed, round) % below;
  let tag = 500 * round + random(100);
  const text = (code: number, subject: number, index = 0, value = 0) =>
    commandText({ tag: tag++, code, subject, index, value });
  const mine = () => slots[random(slots.length)]!;
  const decimal = (least: number) => least + random(97) / 100;
  const get = (index: number) => {
    const slot = mine();
    return [text(4, slot, index, 0), text(4, slot, index, 1)];
  };
  const first = text(1, 0);
  const set = text(3, mine(), 7, 9000.25 + random(500));
  const zero = text(10, mine());
  const list: [wait: number, t: unknown][] = [];
  const add = (...texts: unknown[]) => {
    for (const t of texts) list.push([1 + random(7), t]);
  };
  add(first, text(1, 1), text(1, 2), text(9, 0), text(9, 1), text(9, 2));
  add(set, set, `${set.slice(0, 12)}0${set.slice(13)}`, set.slice(1), `${set}0`, set.toUpperCase(), set);
  add('ab', 5, null, '');
  add(
    text(3, mine(), 0, 0.3 / 8),
    text(3, mine(), 1, decimal(0.01) / 1000),
    text(3, mine(), 3, decimal(1.1)),
  );
  add(text(3, mine(), 4, decimal(0.1)), text(3, mine(), 2, decimal(0.01)), text(3, mine(), 5, decimal(0.01)));
  add(text(3, mine(), 6, decimal(0.01) / 10), text(3, mine(), 8, -100.1), text(3, mine(), 9, 1));
  add(text(3, mine(), 7, Number.NaN), text(3, mine(), 7, Number.NEGATIVE_INFINITY), text(3, 5, 7, 1));
  add(...[0, 1, 2, 3, 4, 5, 6, 7, 8, 9].flatMap(get), text(4, 6, 7, 0), text(4, mine(), 7, 0.5));
  add(text(7, 255), text(6, 255), text(6, 255));
  list.push([CAPTURE_STEPS + random(20), text(7, 255)]);
  add(text(9, 1), text(8, 255), text(9, 0), text(9, 1), text(8, 255), text(8, 255, 0, 0.5));
  add(
    zero,
    zero,
    text(8, 255),
    text(8, 255, 0, 1),
    text(9, 1),
    text(10, 0),
    text(10, 4),
    text(10, 5),
    text(10, 255),
  );
  add(text(8, 255), text(9, 0));
  // raw frames for a while, of what is wired and what is not; a stop and a start among them
  add(text(5, mine()));
  list.push(
    [12, text(5, mine())],
    [6, text(12, 255)],
    [4, text(1, 0)],
    [3, text(13, 255)],
    [9, text(5, 255)],
  );
  add(text(5, 0), text(5, 2), text(5, 255), text(5, 5), text(5, 255));
  add(text(2, 0), text(2, 1), text(2, 2), text(2, 3), text(2, 4), text(11, 255), text(0, 0), text(99, 3));
  add(text(12, 255), text(12, 255), text(10, 255), text(13, 255), text(13, 255));
  // start anew with what is stored, in every other round in the middle of raw frames
  if (round % 2 === 1) add(text(5, mine()));
  list.push([8, text(14, 255)], [9, text(9, 1)], [5, first], [3, text(4, mine(), 7, 1)], [3, text(2, 3)]);
  let step = ROUND_STEPS * round + 20;
  return list.map(([wait, t]): [number, unknown] => {
    step += wait;
    return [step, t];
  });
}
