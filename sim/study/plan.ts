import {
  adaptiveRise,
  exponentialGain,
  oneEuroRise,
  pctToReading,
  restBase,
  smoothingGain,
} from '../../firmware/chain/constants.ts';
import { NO_LIMIT, stillPct } from '../../firmware/chain/prepare.ts';
import type { LowPass, Oversampling, Settings } from '../../firmware/chain/settings.ts';
import { LANES } from './lanes.ts';

/** Oversamplings that a trace carries sums for. */
export const OVERSAMPLINGS: Oversampling[] = [1, 2, 4, 8, 16, 32];

/** One output wanted from a lane: a hold of some kind after the filter. */
export interface Member {
  /** Index of the settings in the list that the plan was made for. */
  index: number;
  /** 0 none, 1 drag, 2 jump. */
  hold: number;
  widthPct: number;
}

/** One filter with its parameters, shared by all settings that differ in the hold only. */
export interface Lane {
  limitPct: number;
  bandPct: number;
  lowPass: LowPass;
  members: Member[];
}

/** Filters of one kind over the same readings, at most LANES of them. */
export interface Block {
  /** Index into OVERSAMPLINGS. */
  oversampling: number;
  median: boolean;
  filter: LowPass['kind'];
  lanes: Lane[];
}

const HOLDS = { none: 0, still: 0, drag: 1, step: 2 };

/** Sorts settings into blocks that share as much work as their structure allows. */
export function planOf(settings: Settings[]): Block[] {
  const groups = new Map<string, Map<string, Lane>>();
  settings.forEach((s, index) => {
    const { despike, lowPass, hysteresis } = s;
    const groupKey = JSON.stringify([s.oversampling, despike.kind === 'median', lowPass.kind]);
    const limitPct = despike.kind === 'clip' ? despike.limitPct : 0;
    const bandPct = stillPct(hysteresis);
    const laneKey = JSON.stringify([limitPct, bandPct, lowPass]);
    const group = groups.get(groupKey) ?? new Map<string, Lane>();
    groups.set(groupKey, group);
    const lane = group.get(laneKey) ?? { limitPct, bandPct, lowPass, members: [] };
    group.set(laneKey, lane);
    const hold = HOLDS[hysteresis.kind];
    lane.members.push({ index, hold, widthPct: hold && 'widthPct' in hysteresis ? hysteresis.widthPct : 0 });
  });
  const blocks: Block[] = [];
  for (const [key, group] of groups) {
    const [oversampling, median, filter] = JSON.parse(key) as [Oversampling, boolean, LowPass['kind']];
    const lanes = [...group.values()];
    for (let i = 0; i < lanes.length; i += LANES) {
      blocks.push({
        oversampling: OVERSAMPLINGS.indexOf(oversampling),
        median,
        filter,
        lanes: lanes.slice(i, i + LANES),
      });
    }
  }
  return blocks;
}

/** The numbers of one lane for one finger; the same functions as `prepare`, written where the kernels read. */
export interface LaneNumbers {
  limit: Float64Array;
  bandSquared: Float64Array;
  first: Float64Array;
  second: Float64Array;
  third: Float64Array;
}

/** Fills slot `i` with a lane's constants for a finger whose ends lie `span` apart in summed readings. */
export function fillLane(out: LaneNumbers, i: number, lane: Lane, periodS: number, span: number): void {
  out.limit[i] = lane.limitPct > 0 ? pctToReading(lane.limitPct, span) : NO_LIMIT;
  const half = pctToReading(lane.bandPct / 2, span);
  out.bandSquared[i] = lane.bandPct > 0 ? half * half : -1;
  const { lowPass } = lane;
  if (lowPass.kind === 'exponential') {
    out.first[i] = exponentialGain(lowPass.cutoffHz, periodS);
  } else if (lowPass.kind === 'oneEuro') {
    out.first[i] = restBase(lowPass.minCutoffHz, periodS);
    out.second[i] = oneEuroRise(lowPass.beta, periodS, span);
    out.third[i] = smoothingGain(lowPass.speedCutoffHz, periodS);
  } else if (lowPass.kind === 'adaptive') {
    out.first[i] = restBase(lowPass.restCutoffHz, periodS);
    out.second[i] = adaptiveRise(lowPass.riseHz, periodS, span);
  }
}
