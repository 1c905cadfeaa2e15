/** Turns that stay on the spool with the finger closed, so that the knot is not pulled. Assumed. */
export const SAFETY_TURNS = 2;
/** Thickness of one flange beside the groove, mm. Assumed: two lines of a 0.4 mm nozzle with room. */
export const FLANGE_MM = 1;
/** Width of a groove beyond its string, mm. Assumed: what a printer adds or takes. */
const CLEARANCE_MM = 0.2;

/** Width of a groove in which so many turns lie side by side in one layer, mm. */
export function oneLayerWidthMm(turns: number, stringDiameterMm: number): number {
  // A helix of n turns covers n + 1 strands.
  return (turns + 1) * stringDiameterMm + CLEARANCE_MM;
}

/** Layers that so many turns need in a groove of this width; the first strand alone needs one. */
export function layersIn(widthMm: number, turns: number, stringDiameterMm: number): number {
  if (stringDiameterMm === 0) return 1;
  // The small term keeps a width that is made for n strands from losing one to rounding.
  const strands = Math.max(1, Math.floor(widthMm / stringDiameterMm + 1e-9));
  return Math.max(1, Math.ceil((turns + 1) / strands - 1e-9));
}

/** Width of a groove that makes the string wind over itself, one strand a layer, mm. */
export function singleGrooveWidthMm(stringDiameterMm: number): number {
  return stringDiameterMm + CLEARANCE_MM;
}

/** String that one turn takes when the turns lie side by side: a helix with the string's diameter as its pitch. */
export function helixTurnMm(radiusMm: number, stringDiameterMm: number): number {
  return Math.hypot(2 * Math.PI * radiusMm, stringDiameterMm);
}
