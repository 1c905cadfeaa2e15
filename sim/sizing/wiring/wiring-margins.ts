import type { Rig } from '../../rig/rig.ts';
import type { Margin } from '../margin.ts';
import { faradWords, ohmWords } from '../value-words.ts';
import { PIN_LIMIT_V } from './corners.ts';
import { deadEndRatio } from './wiring-ends.ts';
import type { FingerWiring } from './wiring-size.ts';

/** Longest time until an open wiper shows, ms: longer looks like a movement of the hand. Assumed. */
const MOST_FLAG_MS = 100;
/** Least share of the converter's range that the travel should use. Assumed. */
const LEAST_RANGE_SHARE = 0.5;
/** Least hours of fast use that a potentiometer should have left. Assumed: an evening's play. */
const LEAST_HOURS = 1;

/** Part of the closure that the first calibration may have to win back, %. Assumed. */
const MOST_MISS_PCT = 10;
/** Keep ratios finite, % and V. */
const LEAST_PCT = 1e-3;
const LEAST_V = 1e-6;

const pct = (value: number, digits = 1) => `${value.toFixed(digits)} %`;

/** All that is judged of one finger's wiring, beside the corners of its resistors. */
export function wiringMargins(rig: Rig, wiring: FingerWiring, rangeV: readonly [number, number]): Margin[] {
  return [
    ...supplyMargins(rig, wiring, rangeV),
    ...settlingMargins(wiring),
    openWiperMargin(rig, wiring),
    endsMargin(wiring),
    ...noiseMargins(rig, wiring),
    lifeMargin(wiring),
  ];
}

function about(wiring: FingerWiring): Pick<Margin, 'group' | 'fingers' | 'isSoft'> {
  return { group: 'wiring', fingers: [wiring.name], isSoft: true };
}

function supplyMargins(rig: Rig, wiring: FingerWiring, rangeV: readonly [number, number]): Margin[] {
  const { supply, cornersV } = wiring;
  const margins: Margin[] = [];
  if (rig.supply.volts > PIN_LIMIT_V) {
    margins.push({
      ...about(wiring),
      isSoft: false,
      what: 'voltage over the potentiometers, which a pin gets whole when a ground wire comes off',
      ratio: PIN_LIMIT_V / rig.supply.volts,
      seen: `${rig.supply.volts} V`,
      allowed: `at most ${PIN_LIMIT_V} V`,
      cure: 'feed the potentiometers from the 3V3 pin: USB and hubs give 4.6 to 5 V, which is not what the converter measures against, and can destroy the pin',
    });
  }
  margins.push(
    {
      ...about(wiring),
      what: 'highest voltage with the supply at its highest',
      ratio: spreadRatio(rangeV[1], cornersV[1], wiring.endsV[1], 1),
      seen: `${cornersV[1].toFixed(3)} V`,
      allowed: `at most ${rangeV[1]} V`,
      cure: 'a larger resistor at the top, or a closer supply: beyond its range the converter bends and sticks',
    },
    {
      ...about(wiring),
      what: 'converter’s range that the whole travel uses',
      ratio: supply.rangeShare / LEAST_RANGE_SHARE,
      seen: pct(100 * supply.rangeShare, 0),
      allowed: `at least ${pct(100 * LEAST_RANGE_SHARE, 0)}`,
      cure: 'smaller resistors at both ends, or the full 3.3 V over the potentiometers',
    },
  );
  // A pin that measures the rail repairs this on the board.
  if (!rig.rail) margins.push(reachMargin(wiring));
  if (rangeV[0] > 0) {
    margins.push({
      ...about(wiring),
      what: 'lowest voltage with the supply at its lowest',
      ratio: spreadRatio(rangeV[0], cornersV[0], wiring.endsV[0], -1),
      seen: `${cornersV[0].toFixed(3)} V`,
      allowed: `at least ${rangeV[0]} V`,
      cure: 'a larger resistor at the bottom, or a closer supply: below its range the converter reads 0',
    });
  }
  if (supply.sagPct > 0) {
    const lostPct = rig.rail ? supply.sagWithRailPct : supply.sagPct;
    margins.push({
      ...about(wiring),
      what: `closure that goes lost while the supply sags${rig.rail ? ', less what the rail’s pin repairs' : ''}`,
      ratio: rig.wishes.endMissPct / Math.max(LEAST_PCT, lostPct),
      seen: pct(lostPct, 2),
      allowed: `at most ${pct(rig.wishes.endMissPct)}`,
      cure: 'a supply that holds its voltage, or a pin that measures the rail: add "rail"',
    });
  }
  return margins;
}

function reachMargin(wiring: FingerWiring): Margin {
  const missPct = 100 - wiring.supply.reachPct;
  return {
    ...about(wiring),
    what: 'closure that a closed hand does not reach at the lowest supply, before it is calibrated',
    ratio: MOST_MISS_PCT / Math.max(LEAST_PCT, missPct),
    seen: pct(missPct),
    allowed: `at most ${pct(MOST_MISS_PCT, 0)}`,
    cure: 'a supply that holds its voltage (a USB hub may not), the 3V3 pin instead of 5 V, or a pin that measures the rail; then capture the ends on the supply in use',
  };
}

/**
 * Spread that the range allows over the spread that the tolerances bring, both from the nominal voltage; 0 when that
 * is outside already.
 * @param side 1 for the upper limit, -1 for the lower
 */
function spreadRatio(limitV: number, cornerV: number, nominalV: number, side: 1 | -1): number {
  const roomV = side * (limitV - nominalV);
  return Math.max(0, roomV / Math.max(LEAST_V, side * (cornerV - nominalV)));
}

function settlingMargins(wiring: FingerWiring): Margin[] {
  const { settling } = wiring;
  if (settling.settlingMs === 0) return [];
  const halfMs = settling.frameMs / 2;
  return [
    {
      ...about(wiring),
      what: 'time in which the pin settles, to leave half of the frame',
      ratio: halfMs / settling.settlingMs,
      seen: `${settling.settlingMs.toFixed(2)} ms through ${ohmWords(settling.sourceOhm)}`,
      allowed: `at most ${halfMs.toFixed(1)} ms`,
      cure:
        settling.proposedF === null
          ? 'a potentiometer of less resistance: no usual capacitor settles in time'
          : `a capacitor of ${faradWords(settling.proposedF)} at the pin, or a potentiometer of less resistance`,
    },
  ];
}

const OPEN_CURES = {
  'no bottom resistor': 'a resistor at the bottom, so that no wiper in place reads as low as an open one',
  'no pull-down': 'a resistor of 100 kΩ from the pin to ground, which pulls an open pin down',
  'lowest reading is 0':
    'a larger resistor at the bottom: at the worst tolerances the converter reads 0 there',
} as const;

function openWiperMargin(rig: Rig, wiring: FingerWiring): Margin {
  const { openWiper } = wiring;
  if (openWiper.flaggedMs === null || openWiper.reason !== '') {
    return {
      ...about(wiring),
      what: 'an open wiper told from a hand',
      ratio: 0,
      seen: openWiper.reason === '' ? 'not told' : `not told: ${openWiper.reason}`,
      allowed: `within ${MOST_FLAG_MS} ms`,
      cure: openWiper.reason === '' ? OPEN_CURES['no pull-down'] : OPEN_CURES[openWiper.reason],
    };
  }
  const pullDownOhm = rig.fingers.find(({ name }) => name === wiring.name)!.wiring.pullDownOhm;
  return {
    ...about(wiring),
    what: 'time until an open wiper is told from a hand',
    ratio: MOST_FLAG_MS / openWiper.flaggedMs,
    seen: `${openWiper.flaggedMs.toFixed(0)} ms`,
    allowed: `at most ${MOST_FLAG_MS} ms, longer looks like a movement`,
    cure: `less than ${ohmWords(pullDownOhm)} from the pin to ground, or a smaller capacitor`,
  };
}

function endsMargin(wiring: FingerWiring): Margin {
  const { ends } = wiring;
  return {
    ...about(wiring),
    what: 'closure at an end in which nothing moves',
    ratio: deadEndRatio(ends),
    seen: `${pct(ends.deadPct)} (${ends.strokeDeg.toFixed(0)} deg of stroke on ${ends.readableDeg.toFixed(0)} deg that read)`,
    allowed: 'none',
    cure: 'a larger spool, the stroke in the middle of the travel, or a potentiometer with a longer electrical travel: its ends are dead',
  };
}

function noiseMargins(rig: Rig, wiring: FingerWiring): Margin[] {
  const { pickUp, settling } = wiring;
  const margins: Margin[] = [];
  if (pickUp.wanderCounts > 0) {
    margins.push({
      ...about(wiring),
      what: 'wander picked up where the wiper’s resistance is highest, near mid travel, before smoothing',
      ratio: rig.wishes.jitterPct / pickUp.wanderPct,
      seen: `${pct(pickUp.wanderPct, 2)} of closure through ${ohmWords(settling.sourceOhm)}`,
      allowed: `at most ${pct(rig.wishes.jitterPct, 2)}`,
      cure: 'a potentiometer of less resistance (10 kΩ): pick-up goes with what is behind the pin; shorter or shielded wires to the wiper',
    });
  }
  if (pickUp.neighbourPct > 0) {
    margins.push({
      ...about(wiring),
      what: 'closure by which the finger read before moves this one',
      ratio: rig.wishes.stepPct / pickUp.neighbourPct,
      seen: `${pct(pickUp.neighbourPct, 2)} through ${ohmWords(settling.sourceOhm)}`,
      allowed: `at most ${pct(rig.wishes.stepPct, 2)}`,
      cure: 'throw the first reading after a change of pin away ("dummyRead: true"), a potentiometer of less resistance, a capacitor at each wiper; if an untouched finger still jitters, clean its potentiometer and check its wires',
    });
  }
  return margins;
}

function lifeMargin(wiring: FingerWiring): Margin {
  const { life } = wiring;
  return {
    ...about(wiring),
    what: 'hours of fast use that the potentiometer has left',
    ratio: life.fastHours / LEAST_HOURS,
    seen: `${life.fastHours.toFixed(1)} h at one flex a second`,
    allowed: `at least ${LEAST_HOURS} h`,
    cure: 'a new potentiometer, or one rated for more cycles',
  };
}
