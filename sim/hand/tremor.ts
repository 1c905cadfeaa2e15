/**
 * Physiological tremor of a joint as one sine.
 * @param timeS time, s
 * @param amplitudeDeg peak, deg; a resting hand's 30 um at the fingertip is about 0.02 deg at the knuckle
 * (Growdon 2000 for the 30 um; computed)
 * @param frequencyHz 6-12 (Lakie 2015)
 * @param phaseRad phase at time 0
 * @returns deg to add to the flexion. A single sine is assumed; real tremor is a band.
 */
export function tremorDeg(
  timeS: number,
  amplitudeDeg: number,
  frequencyHz: number,
  phaseRad: number,
): number {
  return amplitudeDeg * Math.sin(2 * Math.PI * frequencyHz * timeS + phaseRad);
}

/**
 * The same at evenly spaced times (k + 1)·stepS, by turning a phasor: no sine per step.
 * @param out filled, deg
 */
export function fillTremorDeg(
  out: Float64Array,
  stepS: number,
  amplitudeDeg: number,
  frequencyHz: number,
  phaseRad: number,
): void {
  const angle = 2 * Math.PI * frequencyHz * stepS;
  const turnCos = Math.cos(angle);
  const turnSin = Math.sin(angle);
  let sine = amplitudeDeg * Math.sin(phaseRad);
  let cosine = amplitudeDeg * Math.cos(phaseRad);
  for (let k = 0; k < out.length; k++) {
    const next = sine * turnCos + cosine * turnSin;
    cosine = cosine * turnCos - sine * turnSin;
    sine = next;
    out[k] = sine;
  }
}
