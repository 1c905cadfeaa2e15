import { DEFAULT_ATTENUATION_DB } from '../../firmware/boards/adc-curve.ts';
import type { Ends } from '../../firmware/chain/word-scale.ts';
import { buildCurveTable, countsAt } from '../../sim/adc/curve.ts';
import { nominalEnds } from '../../sim/board/nominal-readings.ts';
import { partValues } from '../../sim/pot/tolerance.ts';
import { centredStartDeg } from '../../sim/pot/travel.ts';
import { FINGER_NAMES, type Finger, type FingerName, type Rig } from '../../sim/rig/rig.ts';
import { spoolTurnDeg } from '../../sim/spool/winding.ts';
import { createChannel, pinVolts, wiperAt } from '../../sim/study/channel.ts';
import { MOUNTING_DEG, nominalFinger, REFERENCE_SPREAD } from '../../sim/study/draw-parts.ts';

/** Lowest and highest, counts. */
export type Span = [low: number, high: number];

/** What one finger's build may give when nothing is wrong with it, over all tolerances that the rig file names. */
export interface Expected {
  slot: number;
  name: FingerName;
  finger: Finger;
  /** String drawn between open and closed, mm. */
  fullMm: number;
  /** Ends of an average build, mean readings 0-1. */
  nominal: Ends;
  /** Readings of the open and the closed finger, counts, and the difference. */
  openCounts: Span;
  closedCounts: Span;
  spanCounts: Span;
  /** Readings with the wiper on the ends of the track, counts. */
  bottomCounts: Span;
  topCounts: Span;
  /** Readings below this come from no wiper, counts; 0 = this wiring cannot tell. */
  openBelowCounts: number;
  /** Whole width of the lost motion between finger and spool, mm: play and the guides' friction, at most. */
  lostMm: number;
  /** Longest time in which the spool winds the whole stroke in, s; Infinity where the spring is too weak for it. */
  windInS: number;
}

// Spreads of the same size as in the models (sim/study/draw-parts.ts), all assumed there.
const ARMS = 0.05;
const FRICTION = 1.3;
const WEAK_SPRING = 0.9;
const STIFF_DRAG = 1.3;

/** @returns one for each wired finger, in slot order */
export function expectedOf(rig: Rig): Expected[] {
  const tables = [-1, 0, 1].map((sign) =>
    buildCurveTable(rig.board, DEFAULT_ATTENUATION_DB, 1 / (1 - sign * REFERENCE_SPREAD), 0),
  );
  return rig.fingers.map((finger) => expectedFinger(rig, finger, tables)).sort((a, b) => a.slot - b.slot);
}

function expectedFinger(rig: Rig, finger: Finger, tables: Float64Array[]): Expected {
  const nominal = nominalFinger(rig, finger);
  const spans = emptySpans();
  const linear = finger.potentiometer.linearity;
  for (let corner = 0; corner < 256; corner++) {
    const sign = (bit: number) => ((corner >> bit) & 1 ? 1 : -1);
    const parts = {
      ...nominal,
      ...partValues(finger.potentiometer, finger.wiring, {
        pot: sign(0),
        top: sign(1),
        bottom: sign(2),
        travel: sign(3),
      }),
      fullMm: nominal.fullMm * (1 + ARMS * sign(4)),
    };
    const strokeDeg = spoolTurnDeg(parts.fullMm, finger.spoolRadiusMm, finger.stringDiameterMm);
    parts.startDeg = centredStartDeg(strokeDeg, parts.mechanicalTravelDeg) + MOUNTING_DEG * sign(5);
    const channel = createChannel(finger, parts);
    const supplyV = rig.supply.volts * (1 + rig.supply.tolerance * sign(6));
    const table = tables[1 + sign(7)]!;
    const read = (wiper: number) =>
      Math.min(
        4095,
        Math.max(0, countsAt(table, pinVolts(channel, Math.min(1, Math.max(0, wiper)), supplyV))),
      );
    const open = wiperAt(channel, 0);
    const closed = wiperAt(channel, parts.fullMm);
    for (const bend of [-linear, linear]) {
      const openCounts = read(open + bend);
      const closedCounts = read(closed + bend);
      widen(spans.open, openCounts);
      widen(spans.closed, closedCounts);
      widen(spans.span, closedCounts - openCounts);
    }
    widen(spans.bottom, read(0));
    widen(spans.top, read(1));
  }
  const worst = createChannel(finger, {
    ...nominal,
    frictionFactor: FRICTION,
    openTorqueMNm: nominal.openTorqueMNm * (1 / WEAK_SPRING),
  });
  const weak = createChannel(finger, {
    ...nominal,
    openTorqueMNm: nominal.openTorqueMNm * WEAK_SPRING,
    dragMNm: nominal.dragMNm * STIFF_DRAG,
  });
  return {
    slot: FINGER_NAMES.indexOf(finger.name),
    name: finger.name,
    finger,
    fullMm: nominal.fullMm,
    nominal: nominalEnds(rig, finger),
    openCounts: spans.open,
    closedCounts: spans.closed,
    spanCounts: spans.span,
    bottomCounts: spans.bottom,
    topCounts: spans.top,
    openBelowCounts: finger.wiring.bottomOhm > 0 && finger.wiring.pullDownOhm > 0 ? spans.bottom[0] / 2 : 0,
    lostMm: 2 * worst.playHalfMm,
    windInS: weak.retractMmPerS2 > 0 ? Math.sqrt((2 * nominal.fullMm) / weak.retractMmPerS2) : Infinity,
  };
}

function emptySpans(): Record<'open' | 'closed' | 'span' | 'bottom' | 'top', Span> {
  const none = (): Span => [Infinity, -Infinity];
  return { open: none(), closed: none(), span: none(), bottom: none(), top: none() };
}

function widen(span: Span, value: number): void {
  if (value < span[0]) span[0] = value;
  if (value > span[1]) span[1] = value;
}
