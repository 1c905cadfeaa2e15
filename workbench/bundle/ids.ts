import { DEFAULT_ATTENUATION_DB } from '../../firmware/boards/adc-curve.ts';
import { textCrc32 } from '../../protocol/command-packet.ts';
import type { Rig } from '../../sim/rig/rig.ts';

/**
 * Text of all that a finger's captured ends depend on: change any of it, and ends that were stored before are worth
 * nothing. Filters, frame rate and oversampling are not in it. The spring is: to change it, the string comes off the
 * spool. So is the attenuation, which is the same for all boards now: stored ends must not outlive a change of it.
 */
export function settingsText(rig: Rig): string {
  const fingers = rig.fingers.map((f) => [
    f.name,
    f.pin,
    f.channel ?? -1,
    f.momentArmsMm,
    f.spoolRadiusMm,
    f.stringDiameterMm,
    f.spring.openTorqueMNm,
    f.spring.perTurnMNm,
    f.potentiometer.resistanceOhm,
    f.potentiometer.electricalTravelDeg,
    f.potentiometer.mechanicalTravelDeg,
    f.wiring.topOhm,
    f.wiring.bottomOhm,
    f.wiring.pullDownOhm,
  ]);
  return JSON.stringify([
    rig.board,
    DEFAULT_ATTENUATION_DB,
    rig.hand.side,
    rig.supply.volts,
    rig.rail ?? null,
    fingers,
    // last, and only where there is one: the other rigs' ids stay what they were
    ...(rig.multiplexer ? [rig.multiplexer.selectPins] : []),
  ]);
}

/** 32-bit id of a build: CRC-32/ISO-HDLC of {@link settingsText}. */
export function settingsIdOf(rig: Rig): number {
  return textCrc32(settingsText(rig)) >>> 0;
}

/**
 * 8-bit id of a program, told in its health frames, so that a host sees whether the program that runs is the one it
 * loaded. Two different programs share one in 256 cases.
 * @param draft text of the program made with the id 0
 */
export function programIdOf(draft: string): number {
  return textCrc32(draft) & 255;
}
