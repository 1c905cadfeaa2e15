import { boardFacts } from '../../../firmware/boards/boards.ts';
import type { FingerName, Rig } from '../../rig/rig.ts';
import { joined, type Margin } from '../margin.ts';
import { cornerVolts, dividerOnSupply, nominalEndsV } from './corners.ts';
import { type ResistorProposals, resistorProposals } from './resistor-proposals.ts';
import { type DeadEnds, deadEndsOf } from './wiring-ends.ts';
import { type Life, lifeOf } from './wiring-life.ts';
import { type Loading, loadingOf } from './wiring-loading.ts';
import { wiringMargins } from './wiring-margins.ts';
import { type OpenWiper, openWiperOf } from './wiring-open.ts';
import { type PickUp, pickUpOf } from './wiring-pick-up.ts';
import { type Settling, settlingOf } from './wiring-settling.ts';
import { type SupplyEffect, supplyEffectOf } from './wiring-supply.ts';

/** What the wiring of one finger comes to. */
export interface FingerWiring {
  name: FingerName;
  /** Pin over all corners of tolerance, the supply's included, V. */
  cornersV: [lowest: number, highest: number];
  /** Pin at both ends of the travel, every part at its nominal value, V. */
  endsV: [low: number, high: number];
  loading: Loading;
  settling: Settling;
  openWiper: OpenWiper;
  ends: DeadEnds;
  supply: SupplyEffect;
  pickUp: PickUp;
  life: Life;
}

export interface WiringSize {
  /** Range that the converter's maker vouches for, V. */
  rangeV: [number, number];
  hasRail: boolean;
  hasMultiplexer: boolean;
  fingers: FingerWiring[];
  /** Resistors for each wiring that differs. */
  resistors: ResistorProposals[];
  margins: Margin[];
}

/**
 * Sizes potentiometers and what hangs on them.
 * @param hands size of the smallest and the largest hand, 1 = the published mean
 */
export function sizeWiring(rig: Rig, hands: readonly [number, number]): WiringSize {
  const [low, high] = boardFacts(rig.board).adcRangeMv;
  const rangeV: [number, number] = [low / 1000, high / 1000];
  const fingers = rig.fingers.map((finger): FingerWiring => {
    const divider = dividerOnSupply(rig, finger);
    const { lowestV, highestV } = cornerVolts(divider);
    return {
      name: finger.name,
      cornersV: [lowestV, highestV],
      endsV: nominalEndsV(divider),
      loading: loadingOf(divider),
      settling: settlingOf(rig, finger),
      openWiper: openWiperOf(rig, finger),
      ends: deadEndsOf(rig, finger, hands[1]),
      supply: supplyEffectOf(rig, finger),
      pickUp: pickUpOf(rig, finger),
      life: lifeOf(finger.potentiometer),
    };
  });
  return {
    rangeV,
    hasRail: rig.rail !== undefined,
    hasMultiplexer: rig.multiplexer !== undefined,
    fingers,
    resistors: resistorProposals(rig),
    margins: joined(fingers.flatMap((wiring) => wiringMargins(rig, wiring, rangeV))),
  };
}
