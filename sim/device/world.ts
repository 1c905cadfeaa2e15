import { DEFAULT_ATTENUATION_DB } from '../../firmware/boards/adc-curve.ts';
import { buildCurveTable, codeOf, countsAt } from '../adc/curve.ts';
import {
  ESP32_TOP_GROWTH,
  humCounts,
  nextWander,
  oddCode,
  sagFactor,
  sdAt,
  spikeCounts,
  wanderKeep,
  wanderScale,
  withResidue,
} from '../adc/noise.ts';
import type { FingerName, Rig } from '../rig/rig.ts';
import { gaussAt } from '../seed/gauss.ts';
import { keys, uniformAt } from '../seed/mix.ts';
import { drawFinger, drawHand, type HandDraw, nominalFinger } from '../study/draw-parts.ts';
import { type Fault, strengthOf } from './faults.ts';
import { createFingerWorld, type FingerWorld } from './finger-world.ts';
import { dirtNoise } from './lift.ts';

/** Readings are counts over this. */
const COUNTS = 4096;
/** World steps, s. */
const STEP_S = 0.001;
/** Numbers of the device's own streams, beyond those of the traces. */
const SCENARIO = 0x7d;
/** Hum of a full-strength fault, counts, and its frequency, Hz: a little off, as mains are; at 50 sharp even frames would miss it. */
const HUM_COUNTS = 40;
const HUM_HZ = 50.13;
/** Deepest sag of a full-strength fault, share of the supply, and how often, Hz. */
const SAG_SHARE = 0.15;
const SAG_HZ = 1.3;

/** What a board's pins see. */
export interface World {
  /** Moves hand and strings on. */
  advance(toS: number): void;
  /** One reading of a pin, 0-1. */
  read(pin: number): number;
  /** Lines of the multiplexer. */
  write(pin: number, level: number): void;
  /** Closure of each finger of the rig now. */
  closures(): number[];
}

export interface WorldOptions {
  seed: number;
  /** 0 = the parts as the rig file names them; else a draw from their tolerances. */
  draw: number;
  /** Closure of a finger at a time. */
  motion: (finger: FingerName, timeS: number) => number;
  faults: readonly Fault[];
}

export function createWorld(rig: Rig, options: WorldOptions): World {
  const { seed, draw } = options;
  const faults = options.faults.filter(({ strength }) => strength > 0);
  const nominal: HandDraw = {
    supplyV: rig.supply.volts,
    adcGain: 1,
    humHz: rig.noise.humHz,
    humPhaseRad: 0,
    sagPhaseRad: 0,
  };
  const hand = draw === 0 ? nominal : drawHand(rig, seed, draw);
  const curve = buildCurveTable(rig.board, DEFAULT_ATTENUATION_DB, hand.adcGain, 0);
  const otherRange = buildCurveTable(rig.board, 6, hand.adcGain, 0);
  const [u0, u1] = keys(SCENARIO, seed, 1);
  const [g0, g1] = keys(SCENARIO, seed, 2);
  let uniforms = 0;
  let gausses = 0;
  const uniform = () => uniformAt(uniforms++, u0, u1);
  const gauss = () => gaussAt(gausses++, g0, g1);
  const fingers: FingerWorld[] = rig.fingers.map((finger, i) => {
    const parts = draw === 0 ? nominalFinger(rig, finger) : drawFinger(rig, finger, i, seed, draw);
    return createFingerWorld(rig, finger, parts, STEP_S, faults, uniform);
  });
  const sources = fingers.map((_, i) => i);
  for (const { kind, finger } of faults) rewire(kind, finger);
  const closures = fingers.map(() => 0);
  const wander = fingers.map(() => gauss());
  const frozen = new Map<number, number>();
  const keep = wanderKeep(STEP_S);
  const growth = rig.board === 'esp32' ? ESP32_TOP_GROWTH : 0;
  let nowS = 0;
  let supplyV = hand.supplyV;
  let lastReading = 0;
  let selected = 0;
  let dipUntilS = -1;
  let dip = 0;

  /** Plugs in the wrong place: a neighbour's signal in place of the finger's own. */
  function rewire(kind: Fault['kind'], name: FingerName | undefined): void {
    const i = rig.fingers.findIndex((finger) => finger.name === name);
    if (i < 0 || rig.fingers.length < 2) return;
    const other = (i + 1) % rig.fingers.length;
    if (kind === 'swapped') [sources[i], sources[other]] = [sources[other]!, sources[i]!];
    if (kind === 'samePin') sources[i] = sources[other]!;
  }

  function moveOn(timeS: number): void {
    const sag = faults.length === 0 ? 0 : strengthOf(faults, 'supplySag', 'thumb', timeS) * SAG_SHARE;
    const dips = sag * Math.max(0, Math.sin(2 * Math.PI * SAG_HZ * timeS)) ** 4;
    supplyV = hand.supplyV * sagFactor(rig.supply.sag, hand.sagPhaseRad, timeS) * (1 - dips);
    fingers.forEach((world, i) => {
      closures[i] = options.motion(world.finger.name, timeS);
      world.step(closures[i]!, timeS, supplyV);
      if (rig.noise.wanderCounts > 0) wander[i] = nextWander(wander[i]!, keep, gauss());
    });
    const radio = faults.length === 0 ? 0 : strengthOf(faults, 'radioDips', 'thumb', timeS);
    if (radio > 0 && timeS > dipUntilS && uniform() < radio * STEP_S * 5) {
      // A few milliseconds down by up to half (espressif/esp-idf#1096: 3.3 V to 1.5 V at 5 Hz).
      dipUntilS = timeS + 0.004 + 0.008 * uniform();
      dip = 0.55 * (0.3 + 0.7 * uniform());
    }
  }

  /** Index of the finger on a pin: with a multiplexer the select lines tell. */
  function slotOf(pin: number): number {
    const onMultiplexer = rig.multiplexer !== undefined && pin === rig.multiplexer.signalPin;
    return rig.fingers.findIndex((f) =>
      onMultiplexer ? f.channel === selected : f.channel === undefined && f.pin === pin,
    );
  }

  function volts(i: number): number {
    const own = fingers[sources[i]!]!.state.pinV;
    const cross = strengthOf(faults, 'crosstalk', rig.fingers[i]!.name, nowS);
    if (cross === 0 || fingers.length < 2) return own;
    const other = fingers[(i + 1) % fingers.length]!.state.pinV;
    return own + 0.4 * cross * (other - own);
  }

  function noisy(i: number, exact: number): number {
    const { noise } = rig;
    const { name } = rig.fingers[i]!;
    const { wiper } = fingers[sources[i]!]!.state;
    let counts = exact + gauss() * sdAt(exact, fingers[i]!.parts.sdCounts, growth);
    counts += humCounts(noise.humCounts, hand.humHz, hand.humPhaseRad, nowS);
    counts += wander[i]! * wanderScale(wiper, noise.wanderCounts);
    counts += spikeCounts(uniform(), noise.spikeShare, noise.spikeCounts[0], noise.spikeCounts[1]);
    if (faults.length > 0) {
      const at = (kind: Fault['kind']) => strengthOf(faults, kind, name, nowS);
      const spikes = at('spikes');
      counts += at('hum') * HUM_COUNTS * Math.sin(2 * Math.PI * HUM_HZ * nowS);
      if (spikes > 0) counts += spikeCounts(uniform(), 0.03 * spikes, 300, 1500);
      const dirt = dirtNoise(at('dirtyWiper'), wiper);
      if (dirt > 0) counts += dirt * COUNTS * gauss();
    }
    if (noise.residue > 0) counts = withResidue(counts, lastReading, noise.residue);
    lastReading = counts;
    return counts;
  }

  function railReading(): number {
    const { divider } = rig.rail!;
    return codeOf(countsAt(curve, supplyV * divider) + gauss() * rig.noise.sdCounts) / COUNTS;
  }

  moveOn(0);
  return {
    closures: () => [...closures],
    advance(toS) {
      while (nowS + STEP_S <= toS + 1e-9) {
        nowS += STEP_S;
        moveOn(nowS);
      }
    },
    write(pin, level) {
      const line = rig.multiplexer?.selectPins.indexOf(pin) ?? -1;
      if (line >= 0) selected = level ? selected | (1 << line) : selected & ~(1 << line);
    },
    read(pin) {
      if (rig.rail?.pin === pin) return railReading();
      const i = slotOf(pin);
      // A joystick at rest, or a pin with nothing on it.
      if (i < 0) return codeOf(COUNTS / 2 + gauss() * rig.noise.sdCounts) / COUNTS;
      const { name } = rig.fingers[i]!;
      const still = frozen.get(i);
      if (strengthOf(faults, 'frozen', name, nowS) > 0 && still !== undefined) return still;
      const isOtherRange = faults.length > 0 && strengthOf(faults, 'rangeChanged', name, nowS) > 0;
      const pinV = volts(i) * (nowS < dipUntilS ? 1 - dip : 1);
      let code = codeOf(noisy(i, countsAt(isOtherRange ? otherRange : curve, pinV)));
      const odd = Math.max(rig.noise.oddShare, strengthOf(faults, 'oddCodes', name, nowS) * 0.85);
      if (odd > 0) code = oddCode(code, uniform(), odd);
      frozen.set(i, code / COUNTS);
      return code / COUNTS;
    },
  };
}
