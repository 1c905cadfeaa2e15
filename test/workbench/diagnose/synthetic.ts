import { DEFAULT_ATTENUATION_DB } from '../../../firmware/boards/adc-curve.ts';
import { buildCurveTable, codeOf, countsAt } from '../../../sim/adc/curve.ts';
import { nominalEnds } from '../../../sim/board/nominal-readings.ts';
import { minimumJerk } from '../../../sim/hand/minimum-jerk.ts';
import { FINGER_NAMES, type Rig } from '../../../sim/rig/rig.ts';
import { keys } from '../../../sim/seed/mix.ts';
import { openStream } from '../../../sim/seed/stream.ts';
import { play } from '../../../sim/string/play.ts';
import { createChannel, pinVolts, wiperAt } from '../../../sim/study/channel.ts';
import { drawFinger, drawHand, nominalFinger } from '../../../sim/study/draw-parts.ts';
import {
  type Evidence,
  emptyEvidence,
  type HandRows,
  PASSAGES,
  type PassageName,
  type RawRows,
} from '../../../workbench/diagnose/evidence.ts';

/** Changes to what a sound hand would send; each may leave its value as it is. */
export interface Alter {
  /** Closure that the string of a finger sees. */
  closure?: (slot: number, closure: number, tS: number, passage: string) => number;
  /** Reading before noise, counts. `all` = those of all fingers. */
  level?: (slot: number, counts: number, tS: number, all: readonly number[], passage: string) => number;
  /** A single raw reading with its noise, counts; `n` counts the readings of the passage. */
  reading?: (slot: number, counts: number, n: number, closure: number, passage: string) => number;
  /** Word of a hand frame. */
  word?: (slot: number, word: number, tS: number, passage: string) => number;
}

export interface SyntheticOptions extends Alter {
  seed?: number;
  /** Draw of the parts' tolerances; undefined = nominal parts. */
  draw?: number;
  sdCounts?: number;
  restS?: number;
  isCalibrated?: boolean;
}

const RATE_HZ = 100;

/** Closure of a finger in a passage of the guided session. */
export function closureIn(passage: PassageName, slot: number, tS: number): number {
  if (passage === 'rest') return 0.4;
  if (passage === 'slow') {
    const phase = (tS % 8) / 8;
    if (phase < 0.1) return 0;
    if (phase < 0.45) return (phase - 0.1) / 0.35;
    if (phase < 0.6) return 1;
    return phase < 0.95 ? 1 - (phase - 0.6) / 0.35 : 0;
  }
  const own = tS - 0.6 - 1.6 * slot;
  if (own < 0 || own > 0.6) return 0;
  return own < 0.2 ? minimumJerk(own / 0.2) : own < 0.4 ? 1 : 1 - minimumJerk((own - 0.4) / 0.2);
}

const LENGTH_S = { rest: 8, slow: 16, flick: 9 };

/** A session of a hand whose readings are made here from the models of string, potentiometer and chip alone. */
export function syntheticEvidence(rig: Rig, options: SyntheticOptions = {}): Evidence {
  const { seed = 1, draw } = options;
  const stream = openStream(keys(draw ?? 0, seed, 77));
  const sd = options.sdCounts ?? rig.noise.sdCounts;
  const hand = draw === undefined ? undefined : drawHand(rig, seed, draw);
  const table = buildCurveTable(rig.board, DEFAULT_ATTENUATION_DB, hand?.adcGain ?? 1, 0);
  const supplyV = hand?.supplyV ?? rig.supply.volts;
  const channels = rig.fingers.map((finger, i) =>
    createChannel(
      finger,
      draw === undefined ? nominalFinger(rig, finger) : drawFinger(rig, finger, i, seed, draw),
    ),
  );
  const slots = rig.fingers.map((finger) => FINGER_NAMES.indexOf(finger.name));
  const levelOf = (i: number, stringMm: number) =>
    countsAt(table, pinVolts(channels[i]!, wiperAt(channels[i]!, stringMm), supplyV));
  // Captured with the fault in place, as a maker would.
  const closureAt = (i: number, closure: number) =>
    options.closure?.(slots[i]!, closure, 0, 'capture') ?? closure;
  const ends = rig.fingers.map((finger, i) => {
    const { fullMm } = channels[i]!.parts;
    const { playHalfMm } = channels[i]!;
    return options.isCalibrated
      ? {
          open: levelOf(i, closureAt(i, 0) * fullMm + playHalfMm) / 4096,
          closed: levelOf(i, closureAt(i, 1) * fullMm - playHalfMm) / 4096,
        }
      : nominalEnds(rig, finger);
  });
  const evidence = emptyEvidence();
  evidence.isCalibrated = options.isCalibrated ?? false;
  slots.forEach((slot, i) => {
    evidence.ends[slot] = ends[i];
  });

  /** Levels of all fingers at each frame of a passage. */
  function levels(passage: PassageName, name: string, frames: number): number[][] {
    const played = channels.map(() => 0);
    return Array.from({ length: frames }, (_, f) => {
      const tS = f / RATE_HZ;
      const raw = channels.map((channel, i) => {
        const asked = closureIn(passage, slots[i]!, tS);
        const closure = options.closure?.(slots[i]!, asked, tS, name) ?? asked;
        played[i] = play(played[i]!, closure * channel.parts.fullMm, channel.playHalfMm);
        return levelOf(i, played[i]!);
      });
      return raw.map((level, i) => options.level?.(slots[i]!, level, tS, raw, name) ?? level);
    });
  }

  for (const passage of PASSAGES) {
    const frames = RATE_HZ * (passage === 'rest' ? (options.restS ?? LENGTH_S.rest) : LENGTH_S[passage]);
    const rows: HandRows = {
      timesS: Float64Array.from({ length: frames }, (_, f) => 10 + f / RATE_HZ),
      words: FINGER_NAMES.map(() => new Uint16Array(frames).fill(65535)),
    };
    const smooth: number[] = [];
    levels(passage, passage, frames).forEach((all, f) => {
      all.forEach((level, i) => {
        const mean = codeOf(level) + (sd / Math.sqrt(8)) * stream.normal();
        smooth[i] = f === 0 ? mean : smooth[i]! + 0.5 * (mean - smooth[i]!);
        const travel = (smooth[i]! / 4096 - ends[i]!.open) / (ends[i]!.closed - ends[i]!.open);
        const word = Math.max(0, Math.min(65534, Math.floor(6553.5 + 52429 * travel)));
        rows.words[slots[i]!]![f] = options.word?.(slots[i]!, word, f / RATE_HZ, passage) ?? word;
      });
    });
    evidence.hand[passage] = rows;
  }
  for (const [key, passage] of [
    ['rawRest', 'rest'],
    ['rawSlow', 'slow'],
  ] as const) {
    const frames = RATE_HZ * (passage === 'rest' ? (options.restS ?? 4) : 8);
    const all = levels(passage, key, frames);
    slots.forEach((slot, i) => {
      const raw: RawRows = {
        timesS: Float64Array.from({ length: frames }, (_, f) => 50 + 10 * slot + f / RATE_HZ),
        counts: new Uint16Array(frames * 5),
        paceS: 0,
      };
      for (let n = 0; n < raw.counts.length; n++) {
        const f = Math.floor(n / 5);
        const reading = all[f]![i]! + sd * stream.normal();
        const closure = closureIn(passage, slot, f / RATE_HZ);
        raw.counts[n] = codeOf(options.reading?.(slot, reading, n, closure, key) ?? reading);
      }
      evidence[key][slot] = raw;
    });
  }
  return evidence;
}
