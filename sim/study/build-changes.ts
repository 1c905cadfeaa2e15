import { boardFacts } from '../../firmware/boards/boards.ts';
import type { Finger, Rig } from '../rig/rig.ts';
import { dividerOf } from '../sizing/wiring/corners.ts';
import { proposeResistors, type ResistorPair } from '../sizing/wiring/resistors.ts';
import { E24 } from '../sizing/wiring/series.ts';
import { TIRING_PULL_N } from '../spool/force.ts';
import { GOOD_TRAVEL_SHARE, spoolRadiusMm } from '../spool/radius.ts';
import { fullExcursionMm } from '../string/excursion.ts';
import { largestPullN } from '../string/pull.ts';
import { willRetract } from '../string/slack.ts';

/** One change of a build, with the rig that it makes. */
export interface BuildChange {
  change: string;
  path: string;
  from: string;
  to: string;
  rig: Rig;
}

/** Bandwidth of what the wiring picks up before the capacitor takes it away, Hz (assumed). */
const PICK_UP_HZ = 10_000;
/** Capacitance of a pin without a capacitor, F (assumed: pin, sampler and 30 cm of wire). */
const STRAY_F = 50e-12;

/** How much of broadband pick-up a source of so many ohm with so much capacitance lets through, of its variance. */
function letThrough(ohm: number, capacitorF: number): number {
  const cornerHz = 1 / (2 * Math.PI * ohm * (capacitorF + STRAY_F));
  return cornerHz / (cornerHz + PICK_UP_HZ);
}

/** Variance of the pick-up with another capacitor, against what it was. */
export function pickUpFactor(finger: Finger, capacitorF: number): number {
  const { resistanceOhm } = finger.potentiometer;
  const ohm = resistanceOhm / 4 + finger.wiring.topOhm / 2;
  return letThrough(ohm, capacitorF) / letThrough(ohm, finger.wiring.capacitorF);
}

/** 0.0000001 -> `100 nF` */
export function farad(value: number): string {
  if (value === 0) return 'none';
  return value < 1e-6
    ? `${Number((value * 1e9).toPrecision(3))} nF`
    : `${Number((value * 1e6).toPrecision(3))} µF`;
}

function ohms(value: number): string {
  return value >= 1000 ? `${Number((value / 1000).toPrecision(3))}k` : `${Number(value.toPrecision(3))}`;
}

function strokeMm(finger: Finger, rig: Rig): number {
  return fullExcursionMm(finger, 0) * rig.hand.scale;
}

/**
 * Radius at which full closure takes 80 % of the electrical travel, but no smaller than what keeps the pull at the
 * fingertip from tiring (or than it is, if it pulls harder already), to a tenth of a millimetre.
 */
function betterRadiusMm(finger: Finger, rig: Rig): number {
  const stroke = strokeMm(finger, rig);
  const full = spoolRadiusMm(stroke, finger.potentiometer.electricalTravelDeg, GOOD_TRAVEL_SHARE);
  let radiusMm = Number(full.toFixed(1));
  const pullN = (mm: number) => largestPullN({ ...finger, spoolRadiusMm: mm }, stroke);
  while (radiusMm < finger.spoolRadiusMm && pullN(radiusMm) > TIRING_PULL_N) {
    radiusMm = Math.min(finger.spoolRadiusMm, Number((radiusMm + 0.1).toFixed(1)));
  }
  return radiusMm;
}

/** A value a finger, fingers of the same value together: `thumb 13 mm, others 14.2 mm`, or just `15 mm`. */
function byFinger(rig: Rig, amountOf: (finger: Finger) => number, unit: string): string {
  const groups = new Map<number, string[]>();
  for (const finger of rig.fingers) {
    const value = amountOf(finger);
    groups.set(value, [...(groups.get(value) ?? []), finger.name]);
  }
  if (groups.size === 1) return `${[...groups.keys()][0]} ${unit}`;
  return [...groups]
    .map(([value, names]) => `${names.length > 2 ? 'others' : names.join(' and ')} ${value} ${unit}`)
    .join(', ');
}

/** Half as much torque again, or what winds a potentiometer back with room to spare (assumed: twice its drag). */
function betterTorqueMNm(finger: Finger): number {
  const { openTorqueMNm, hysteresis } = finger.spring;
  const needed = (2 * finger.potentiometer.dragMNm) / (1 - hysteresis);
  return Number(Math.max(1.5 * openTorqueMNm, needed).toPrecision(3));
}

/** The spring turns the potentiometer back. */
function windsBack(finger: Finger): boolean {
  const { openTorqueMNm, hysteresis } = finger.spring;
  return willRetract(openTorqueMNm, hysteresis, finger.potentiometer.dragMNm, 0) > 1;
}

/** Hardest pull of any finger. */
function hardestPullN(rig: Rig): number {
  return Math.max(...rig.fingers.map((finger) => largestPullN(finger, strokeMm(finger, rig))));
}

/** Resistors of 1 % that give the widest swing. The pull-down only narrows it: left out, as the safe side. */
function betterPair(rig: Rig, finger: Finger): ResistorPair | undefined {
  const [low, high] = boardFacts(rig.board).adcRangeMv;
  const divider = { ...dividerOf(rig, finger), seriesTolerance: 0.01, pullDownOhm: 0 };
  return proposeResistors(divider, [low / 1000, high / 1000], E24, true);
}

/**
 * Single changes worth trying on a rig. Each alters one thing on every finger and leaves the rest, so that its
 * effect is its own.
 * @param recorded the noise comes from a recording: what another capacitor would do to it is then not known
 */
export function buildChanges(rig: Rig, recorded = false): BuildChange[] {
  const first = rig.fingers[0];
  const changes: BuildChange[] = [];
  const each = (alter: (finger: Finger) => Finger): Rig => ({ ...rig, fingers: rig.fingers.map(alter) });
  const add = (change: string, path: string, from: string, to: string, changed: Rig) => {
    if (from !== to) changes.push({ change, path, from, to, rig: changed });
  };

  const { capacitorF, topOhm, bottomOhm, seriesTolerance } = first.wiring;
  const capacitors = capacitorF === 0 ? [100e-9] : [capacitorF * 10, 0];
  for (const other of recorded ? [] : capacitors) {
    const changed = each((f) => ({ ...f, wiring: { ...f.wiring, capacitorF: other } }));
    const noise = { ...rig.noise, pickUpFactor: pickUpFactor(first, other) };
    add('capacitor at the pin', 'wiring.capacitor', farad(capacitorF), farad(other), { ...changed, noise });
  }
  const pair = betterPair(rig, first);
  if (pair && (pair.topOhm < topOhm || pair.bottomOhm < bottomOhm)) {
    add(
      'series resistors',
      'wiring.top, wiring.bottom',
      `${ohms(topOhm)} / ${ohms(bottomOhm)} ±${100 * seriesTolerance} %`,
      `${ohms(pair.topOhm)} / ${ohms(pair.bottomOhm)} ±1 %`,
      each((f) => ({
        ...f,
        wiring: { ...f.wiring, topOhm: pair.topOhm, bottomOhm: pair.bottomOhm, seriesTolerance: 0.01 },
      })),
    );
  }
  const sized = each((f) => ({ ...f, spoolRadiusMm: betterRadiusMm(f, rig) }));
  const radiusOf = (f: Finger) => f.spoolRadiusMm;
  const radii = byFinger(sized, radiusOf, 'mm');
  add('spool radius', 'spool.radius', byFinger(rig, radiusOf, 'mm'), radii, sized);
  const wound = each((f) => ({ ...f, spring: { ...f.spring, openTorqueMNm: betterTorqueMNm(f) } }));
  // A stronger spring that tires the hand is no advice.
  if (hardestPullN(wound) <= Math.max(TIRING_PULL_N, 1.05 * hardestPullN(rig)) || !windsBack(first)) {
    const torqueOf = (f: Finger) => f.spring.openTorqueMNm;
    const torques = byFinger(wound, torqueOf, 'mN·m');
    add('spring', 'spring.openTorque', byFinger(rig, torqueOf, 'mN·m'), torques, wound);
  }
  const half = (f: Finger) => ({ ...f, guides: f.guides.map((g) => ({ ...g, friction: g.friction / 2 })) });
  if (first.guides.some((g) => g.friction > 0)) {
    const friction = Math.max(...first.guides.map((g) => g.friction));
    add('guide friction', 'guides.friction', `${friction}`, `${friction / 2}`, each(half));
  }
  if (first.playMm > 0) {
    add(
      'play',
      'play',
      `${first.playMm} mm`,
      `${first.playMm / 2} mm`,
      each((f) => ({ ...f, playMm: f.playMm / 2 })),
    );
  }
  for (const factor of [2, 0.5]) {
    const rate = rig.frameRateHz * factor;
    if (rate <= 200 && rate >= 25) {
      add('frame rate', 'frameRate', `${rig.frameRateHz} Hz`, `${rate} Hz`, { ...rig, frameRateHz: rate });
    }
  }
  if (first.potentiometer.linearity > 0.005) {
    add(
      'potentiometer',
      'potentiometer.linearity',
      `${Number((100 * first.potentiometer.linearity).toPrecision(2))} % linear`,
      '0.5 % linear, new, light',
      each((f) => ({
        ...f,
        potentiometer: {
          ...f.potentiometer,
          linearity: 0.005,
          usedCycles: 0,
          dragMNm: f.potentiometer.dragMNm / 2,
        },
      })),
    );
  }
  if (rig.calibrationPoints < 5) {
    add('calibration points', 'calibrationPoints', `${rig.calibrationPoints}`, '5', {
      ...rig,
      calibrationPoints: 5,
    });
  }
  return changes;
}
