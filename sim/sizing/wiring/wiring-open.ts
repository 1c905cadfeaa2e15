import { DEFAULT_ATTENUATION_DB, voltsAt } from '../../../firmware/boards/adc-curve.ts';
import { wiperLimits } from '../../../firmware/main/wiper-limits.ts';
import { leastReading } from '../../board/nominal-readings.ts';
import { dividerVolts } from '../../pot/divider.ts';
import { liftOffDelayS } from '../../pot/wear.ts';
import type { Finger, Rig } from '../../rig/rig.ts';

/** Whether and when an open wiper shows. */
export interface OpenWiper {
  isSeen: boolean;
  /** Why not; empty when it is. */
  reason: '' | 'no bottom resistor' | 'no pull-down' | 'lowest reading is 0';
  /** Voltage below which the board calls the wiper open; null when it cannot tell. */
  levelV: number | null;
  /** Longest time from lift-off to the frame that says so, ms: from the top end of the travel; null likewise. */
  flaggedMs: number | null;
}

/** The board's own rule: below half of the lowest reading of any wiper in place. */
export function openWiperOf(rig: Rig, finger: Finger): OpenWiper {
  const { wiring, potentiometer: pot } = finger;
  const { openBelow } = wiperLimits(leastReading(rig, finger));
  if (openBelow <= 0) return { isSeen: false, reason: reasonOf(finger), levelV: null, flaggedMs: null };
  const levelV = voltsAt(rig.board, DEFAULT_ATTENUATION_DB, openBelow * 4096);
  const topV = dividerVolts(
    1,
    rig.supply.volts,
    pot.resistanceOhm,
    wiring.topOhm,
    wiring.bottomOhm,
    wiring.pullDownOhm,
  );
  const fallS = liftOffDelayS(topV, levelV, wiring.pullDownOhm, wiring.capacitorF);
  return { isSeen: true, reason: '', levelV, flaggedMs: 1000 * (fallS + 1 / rig.frameRateHz) };
}

function reasonOf({ wiring }: Finger): OpenWiper['reason'] {
  if (wiring.bottomOhm === 0) return 'no bottom resistor';
  return wiring.pullDownOhm === 0 ? 'no pull-down' : 'lowest reading is 0';
}
