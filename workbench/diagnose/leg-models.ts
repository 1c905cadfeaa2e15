import { DEFAULT_ATTENUATION_DB, expectedCounts, voltsAt } from '../../firmware/boards/adc-curve.ts';
import { dividerVolts, sourceOhm } from '../../sim/pot/divider.ts';
import type { Finger, Rig } from '../../sim/rig/rig.ts';

/** What a resistance that should not be there does to the two ends of a finger. */
export type LegFault = 'topLeg' | 'bottomLeg' | 'pullUp';

/** The resistance that explains a change best, and how well. */
export interface LegFit {
  kind: LegFault;
  ohm: number;
  /** Larger of the two departures, counts. */
  offCounts: number;
}

/** The ESP32's own pull-up, about 45 kΩ (datasheet); other boards' parts lie between. */
const PULL_UPS_OHM = [10e3, 15e3, 22e3, 33e3, 45e3, 47e3, 68e3, 100e3];
const LEGS_OHM = Array.from({ length: 60 }, (_, i) => 30 * 1.12 ** i);

/** Readings of a finger, counts. */
export interface EndCounts {
  open: number;
  closed: number;
}

/**
 * Which single resistance turns the expected ends into the seen ones. The wiper's places come from the expected ends
 * with the rig's nominal resistors, so a build whose parts are off is followed only roughly.
 * @returns one fit for each kind, best first
 */
export function legFits(rig: Rig, finger: Finger, expected: EndCounts, seen: EndCounts): LegFit[] {
  const places = { open: placeOf(rig, finger, expected.open), closed: placeOf(rig, finger, expected.closed) };
  const kinds: [LegFault, number[]][] = [
    ['topLeg', LEGS_OHM],
    ['bottomLeg', LEGS_OHM],
    ['pullUp', PULL_UPS_OHM],
  ];
  const fits = kinds.map(([kind, values]) => {
    let best: LegFit = { kind, ohm: 0, offCounts: Infinity };
    for (const ohm of values) {
      const off = (end: 'open' | 'closed') => {
        // Only the change counts: what the nominal parts get wrong is in both.
        const change =
          readAt(rig, finger, places[end], kind, ohm) - readAt(rig, finger, places[end], kind, undefined);
        return Math.abs(seen[end] - expected[end] - change);
      };
      const offCounts = Math.max(off('open'), off('closed'));
      if (offCounts < best.offCounts) best = { kind, ohm, offCounts };
    }
    return best;
  });
  return fits.sort((a, b) => a.offCounts - b.offCounts);
}

/** Wiper place, about 0-1, at which the nominal wiring reads so much. */
function placeOf(rig: Rig, finger: Finger, counts: number): number {
  const volts = voltsAt(rig.board, DEFAULT_ATTENUATION_DB, counts);
  let low = -0.2;
  let high = 1.2;
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (voltsOf(rig, finger, middle, 'topLeg', undefined) < volts) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function voltsOf(rig: Rig, finger: Finger, place: number, kind: LegFault, ohm: number | undefined): number {
  const { topOhm, bottomOhm, pullDownOhm } = finger.wiring;
  const potOhm = finger.potentiometer.resistanceOhm;
  const supplyV = rig.supply.volts;
  const more = ohm ?? 0;
  if (kind === 'topLeg') return dividerVolts(place, supplyV, potOhm, topOhm + more, bottomOhm, pullDownOhm);
  if (kind === 'bottomLeg')
    return dividerVolts(place, supplyV, potOhm, topOhm, bottomOhm + more, pullDownOhm);
  const volts = dividerVolts(place, supplyV, potOhm, topOhm, bottomOhm, pullDownOhm);
  if (ohm === undefined) return volts;
  const behind = sourceOhm(place, potOhm, topOhm, bottomOhm, pullDownOhm);
  return volts + ((supplyV - volts) * behind) / (behind + ohm);
}

function readAt(rig: Rig, finger: Finger, place: number, kind: LegFault, ohm: number | undefined): number {
  const counts = expectedCounts(rig.board, DEFAULT_ATTENUATION_DB, voltsOf(rig, finger, place, kind, ohm));
  return Math.max(0, Math.min(4095, counts));
}
