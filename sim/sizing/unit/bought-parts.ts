import type { Finger, Strip } from '../../rig/rig.ts';
import { stripTorqueMNm } from '../../spool/spring.ts';

/**
 * A 9 mm panel potentiometer, mm: body 9.8 across, 11.4 along, 6.8 deep, a round shaft of 6 mm, flatted to 4.5, that
 * reaches 15 from the body (PTV09 datasheet). Pins to the side; the shaft in the middle of the body is assumed:
 * measure the part at hand.
 */
export const POT_BODY = {
  widthMm: 9.8,
  lengthMm: 11.4,
  depthMm: 6.8,
  shaftRadiusMm: 3,
  /** From the shaft's axis to its flat. */
  flatMm: 1.5,
  shaftMm: 15,
} as const;
/** One such potentiometer, g. Assumed. */
export const POT_G = 3;

/** A self-tapping screw of 2 mm, mm: its pilot hole and a hole that it passes through. Assumed. */
export const SCREW = { pilotRadiusMm: 0.85, passRadiusMm: 1.1, biteMm: 6 } as const;

/** A stranded wire of 0.08 mm2 with its jacket, and the share of a channel that wires may fill. Assumed. */
export const WIRE = { diameterMm: 1.3, fill: 0.4 } as const;

/** The strip that the default spring torque is worked out from, for rigs that do not name theirs. Assumed. */
const USUAL_STRIP = { widthMm: 5, thicknessMm: 0.15, modulusGPa: 200 } as const;
/** A spring of constant torque would be endlessly long. */
const LONGEST_MM = 5000;

/** The rig's strip, or the usual one at the length that gives the spring's torque per turn. */
export function stripOf(finger: Finger): Strip {
  const { strip, perTurnMNm } = finger.spring;
  if (strip) return strip;
  const { widthMm, thicknessMm, modulusGPa } = USUAL_STRIP;
  const oneMmMNm = stripTorqueMNm(modulusGPa, widthMm, thicknessMm, 1, 2 * Math.PI);
  return { ...USUAL_STRIP, lengthMm: Math.min(LONGEST_MM, oneMmMNm / Math.max(perTurnMNm, 1e-9)) };
}
