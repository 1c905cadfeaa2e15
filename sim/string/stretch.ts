/** Stiffness of a braided line times its length, N: 130 N at 3.5 % of stretch (computed: 3714 N). */
export const BRAID_STIFFNESS_N = 130 / 0.035;

/** Stiffness of a length of string, N/mm. */
export function stringStiffnessNPerMm(lengthMm: number): number {
  return BRAID_STIFFNESS_N / lengthMm;
}

/** How much a string grows longer when its tension changes, mm. */
export function stringStretchMm(tensionChangeN: number, lengthMm: number): number {
  return tensionChangeN / stringStiffnessNPerMm(lengthMm);
}
