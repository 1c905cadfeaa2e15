/**
 * Dahl friction (exponent 1), dF/dx = s (1 - F/Fc sgn v), solved exactly over a stroke in one direction: the
 * result does not depend on how the stroke is cut into steps.
 * @param forceN friction force before, N, within +-coulombN
 * @param strokeMm signed movement, mm
 * @param stiffnessNPerMm slope at zero force, > 0
 * @param coulombN force of steady sliding, > 0
 * @returns friction force after, N
 */
export function dahl(forceN: number, strokeMm: number, stiffnessNPerMm: number, coulombN: number): number {
  const end = strokeMm < 0 ? -coulombN : coulombN;
  return end - (end - forceN) * Math.exp((-stiffnessNPerMm * Math.abs(strokeMm)) / coulombN);
}

/** Work put into the friction during the stroke, N·mm = mJ; parameters as for `dahl`. */
export function dahlWorkMJ(
  forceN: number,
  strokeMm: number,
  stiffnessNPerMm: number,
  coulombN: number,
): number {
  const end = strokeMm < 0 ? -coulombN : coulombN;
  // The force is end - (end - F0) e^(-s|x|/Fc): integrate both terms.
  return (
    end * strokeMm - (end / stiffnessNPerMm) * (dahl(forceN, strokeMm, stiffnessNPerMm, coulombN) - forceN)
  );
}
