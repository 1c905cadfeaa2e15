import type { Settings } from '../../../firmware/chain/settings.ts';
import type { DrawTask } from '../../../sim/study/draw-task.ts';
import { HAND, HAND_SCORES } from '../../../sim/study/hand-scores.ts';
import type { Runner } from '../../../sim/study/runner.ts';
import { settingsId } from '../../../sim/study/settings-id.ts';

/** A runner that simulates nothing: it looks scores up. Counts what it is asked for. */
export function tableRunner(
  row: (task: DrawTask, draw: number, settings: Settings) => ArrayLike<number>,
): Runner & { asked: number } {
  return {
    asked: 0,
    async run(task) {
      const out = new Float64Array(task.draws.length * task.settings.length * HAND_SCORES);
      task.draws.forEach((draw, d) => {
        task.settings.forEach((s, i) => {
          out.set(row(task, draw, s), (d * task.settings.length + i) * HAND_SCORES);
          this.asked++;
        });
      });
      return out;
    },
    async close() {},
  };
}

/** Looks rows up in a table of [draw][setting] rows, by the settings' text form. */
export function lookUp(all: Settings[], rows: Float64Array) {
  const places = new Map(all.map((s, i) => [settingsId(s), i]));
  return (_: DrawTask, draw: number, s: Settings) => {
    const at = (draw * all.length + (places.get(settingsId(s)) ?? Number.NaN)) * HAND_SCORES;
    return rows.subarray(at, at + HAND_SCORES);
  };
}

/** A row of scores: no wish is near except those given. */
export function row(scores: Partial<Record<keyof typeof HAND, number>>): Float64Array {
  const out = new Float64Array(HAND_SCORES);
  for (const [name, value] of Object.entries(scores)) out[HAND[name as keyof typeof HAND]] = value;
  return out;
}

/** So many different settings; which does not matter. */
export function anyList(count: number): Settings[] {
  return Array.from({ length: count }, (_, i) => ({
    oversampling: 4,
    despike: { kind: 'none' },
    lowPass: { kind: 'exponential', cutoffHz: 1 + i },
    hysteresis: { kind: 'none' },
  }));
}
