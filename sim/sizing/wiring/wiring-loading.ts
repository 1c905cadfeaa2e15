import { dividerVolts } from '../../pot/divider.ts';
import { worstLoading } from '../../pot/highest-source.ts';
import { type Divider, nominalSpanV } from './corners.ts';

/** What the resistor from the pin to ground bends. */
export interface Loading {
  /** How much too low the pin is at most, % of the supply, and the wiper position where. */
  errorPct: number;
  at: number;
  /** What a calibration of both ends leaves of it, and one of five points, % of full closure. */
  leftByEndsPct: number;
  leftByFivePct: number;
}

/** The pull-down's error is the same every time: a calibration takes it out, the better the more points it has. */
export function loadingOf(divider: Divider): Loading {
  const { potOhm, topOhm, bottomOhm, pullDownOhm } = divider;
  if (pullDownOhm === 0) return { errorPct: 0, at: 0, leftByEndsPct: 0, leftByFivePct: 0 };
  const worst = worstLoading(potOhm, topOhm, bottomOhm, pullDownOhm);
  return {
    errorPct: 100 * worst.share,
    at: worst.at,
    leftByEndsPct: 100 * leftBy(divider, 2),
    leftByFivePct: 100 * leftBy(divider, 5),
  };
}

const STEPS = 400;

/** Largest departure of the loaded divider from straight lines between so many points, share of the travel. */
function leftBy(divider: Divider, points: number): number {
  const spanV = nominalSpanV(divider);
  const shareAt = (x: number) => {
    const volts = (at: number) =>
      dividerVolts(
        at,
        divider.supplyV,
        divider.potOhm,
        divider.topOhm,
        divider.bottomOhm,
        divider.pullDownOhm,
      );
    return (volts(x) - volts(0)) / spanV;
  };
  let most = 0;
  for (let i = 0; i < STEPS; i++) {
    const x = i / STEPS;
    const below = Math.floor(x * (points - 1)) / (points - 1);
    const above = below + 1 / (points - 1);
    const part = (x - below) / (above - below);
    const line = shareAt(below) + part * (shareAt(above) - shareAt(below));
    most = Math.max(most, Math.abs(shareAt(x) - line));
  }
  return most;
}
