import type { Guide } from '../rig/rig.ts';

/**
 * Ratio of the tensions on both sides of a guide while the string slides: e^(friction * wrap).
 * @param friction Coulomb coefficient; braid in a PTFE tube about 0.08, on printed plastic about 0.2 (assumed: no
 * published value was found; hang two weights over the guide, friction = ln(W2/W1) / wrap)
 * @param wrapRad angle of contact, rad
 * @returns >= 1
 */
export function capstanRatio(friction: number, wrapRad: number): number {
  return Math.exp(friction * wrapRad);
}

/**
 * Friction coefficient from two weights that hang on both ends of the string over the guide, the heavier one just
 * sinking: ln(heavier / lighter) / wrap, the capstan formula turned round.
 * @param firstN either order, both > 0
 * @param wrapRad > 0
 */
export function frictionOfWeights(firstN: number, secondN: number, wrapRad: number): number {
  return Math.abs(Math.log(secondN / firstN)) / wrapRad;
}

/** Friction times wrap (rad) summed over all guides of a string: ratios multiply, so exponents add. */
export function frictionExponent(guides: readonly Guide[]): number {
  let sum = 0;
  for (const guide of guides) sum += (guide.friction * guide.wrapDeg * Math.PI) / 180;
  return sum;
}

/**
 * Tension at the fingertip.
 * @param spoolTensionN tension at the spool, N, >= 0
 * @param exponent `frictionExponent` of the guides
 * @param direction +1 string paying out (finger closing), -1 retracting, 0 frictionless middle
 */
export function fingertipTensionN(spoolTensionN: number, exponent: number, direction: number): number {
  return spoolTensionN * Math.exp(direction * exponent);
}

/** Difference of the fingertip tension between paying out and retracting, N. */
export function tensionBandN(spoolTensionN: number, exponent: number): number {
  return 2 * spoolTensionN * Math.sinh(exponent);
}

/**
 * Motion lost at every reversal while the soft fastening at the fingertip takes up the tension band. This is the
 * whole width: the half-width for `play` is half of it. The string's own stretch is left out: 0.3 m of braid is
 * about ten times stiffer than skin or fabric (computed from 130 N at 3.5 %).
 * @param anchorNPerMm stiffness of the fastening; skin or fabric about 1, 0.5-2 (assumed)
 * @returns mm, >= 0
 */
export function lostMotionMm(spoolTensionN: number, exponent: number, anchorNPerMm: number): number {
  return tensionBandN(spoolTensionN, exponent) / anchorNPerMm;
}
