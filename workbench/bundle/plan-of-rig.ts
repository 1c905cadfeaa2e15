import { DEFAULT_ATTENUATION_DB } from '../../firmware/boards/adc-curve.ts';
import type { BoardPlan, FingerPlan } from '../../firmware/main/board-plan.ts';
import { wiperLimits } from '../../firmware/main/wiper-limits.ts';
import { leastReading, nominalEnds, nominalReading } from '../../sim/board/nominal-readings.ts';
import { TautlineError } from '../../sim/errors.ts';
import { FINGER_NAMES, type Rig } from '../../sim/rig/rig.ts';
import { settingsIdOf } from './ids.ts';
import { readingOrder, type Turn } from './reading-order.ts';

/** What the interpreter's setAtten takes for each attenuation, mV of full scale. */
const ATTENUATION_MV = { 0: 1000, 2.5: 1340, 6: 2000, 11: 3600 } as const;

/**
 * All that a program is made from. Its program id is 0: it is worked out from the program.
 * @throws TautlineError `bundle/no-settings` when the rig file has no chosen settings
 */
export function planOfRig(rig: Rig): BoardPlan {
  if (!rig.settings) {
    throw new TautlineError('bundle/no-settings', `${rig.name}: no settings are chosen yet.`, {
      detail:
        'Expected a "settings:" block in the rig file. "tautline choose <rig> --write" chooses them and puts them there.',
    });
  }
  return {
    settings: rig.settings,
    frameRateHz: rig.frameRateHz,
    facts: { programId: 0, settingsId: settingsIdOf(rig), rightHand: rig.hand.side === 'right' },
    fingers: readingOrder(rig).map((turn) => fingerPlan(rig, turn)),
    dummyRead: rig.multiplexer !== undefined || rig.dummyRead === true,
    rail: rig.rail && {
      pin: rig.rail.pin,
      nominal: nominalReading(rig, rig.supply.volts * rig.rail.divider),
      supplyMv: Math.round(rig.supply.volts * 1000),
    },
    axisPins: rig.joystick ? [rig.joystick.xPin, rig.joystick.yPin] : [],
    buttonPins: rig.buttons ?? [],
    selectPins: rig.multiplexer?.selectPins ?? [],
    watched: true,
    watchdogS: rig.watchdogS ?? 0,
    attenuationMv: ATTENUATION_MV[DEFAULT_ATTENUATION_DB],
    frameUart: rig.frameLink ? { uart: 2, txPin: rig.frameLink.txPin, baud: rig.frameLink.baud } : 'console',
  };
}

function fingerPlan(rig: Rig, { finger, channel }: Turn): FingerPlan {
  return {
    slot: FINGER_NAMES.indexOf(finger.name),
    pin: finger.pin,
    channel,
    ends: nominalEnds(rig, finger),
    openBelow: wiperLimits(leastReading(rig, finger)).openBelow,
  };
}
