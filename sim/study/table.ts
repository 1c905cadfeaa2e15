import type { Settings } from '../../firmware/chain/settings.ts';
import type { Rig } from '../rig/rig.ts';
import { HAND_SCORES } from './hand-scores.ts';
import type { Entry } from './race.ts';
import { loadPctOf, scoreOf } from './rate.ts';
import type { TableRow } from './result.ts';
import { SCORE_NAMES, type ScoreName } from './score-names.ts';
import { settingsId } from './settings-id.ts';

/** One row of means a setting, over the draws that it ran. */
export function tableOf(settings: Settings[], entries: Entry[], rig: Rig): TableRow[] {
  return settings.map((s, i) => {
    const entry = entries[i];
    const loadPct = loadPctOf(s, rig);
    const scores = {} as Record<ScoreName, number>;
    let met = 0;
    for (let d = 0; d < entry.draws; d++) if (entry.ratios[d] <= 1) met++;
    for (const name of SCORE_NAMES) {
      let sum = 0;
      for (let d = 0; d < entry.draws; d++) sum += scoreOf(name, entry.scores, d * HAND_SCORES, loadPct);
      scores[name] = sum / entry.draws;
    }
    return { id: settingsId(s), settings: s, draws: entry.draws, scores, metShare: met / entry.draws };
  });
}
