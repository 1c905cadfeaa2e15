/** Boltzmann's constant, J/K (exact in the SI). */
const BOLTZMANN = 1.380649e-23;

/**
 * Voltage of an RC low-pass after a step of time with the input held.
 * @param inputV input during the whole step
 * @param tauS time constant, s; 0 = follows at once
 */
export function rcStep(previousV: number, inputV: number, dtS: number, tauS: number): number {
  if (tauS <= 0) return inputV;
  return inputV + (previousV - inputV) * Math.exp(-dtS / tauS);
}

/** Share of a deviation that an RC low-pass keeps over a step of time: e^(-dt / tau). 0 for tau 0. */
export function rcKeep(dtS: number, tauS: number): number {
  return tauS <= 0 ? 0 : Math.exp(-dtS / tauS);
}

/**
 * Voltage of an RC low-pass after a step of time with the input moving in a straight line: exact, so that the
 * step may be long beside the time constant.
 * @param previousV voltage at the start of the step
 * @param inputStartV input at the start
 * @param inputEndV input at the end
 * @param keep `rcKeep` of the step
 * @param steps step over time constant, dt / tau; Infinity for tau 0
 */
export function rcRamp(
  previousV: number,
  inputStartV: number,
  inputEndV: number,
  keep: number,
  steps: number,
): number {
  const lagV = (inputEndV - inputStartV) / steps;
  return inputEndV - lagV * (1 - keep) + (previousV - inputStartV) * keep;
}

/** Time constants until a full step is within half a code of so many bits: ln(2^(bits + 1)). */
export function settlingTimeConstants(bits: number): number {
  return (bits + 1) * Math.LN2;
}

/** Thermal noise of a resistor, V rms: sqrt(4 k T R B). */
export function johnsonNoiseV(ohm: number, bandwidthHz: number, kelvin: number): number {
  return Math.sqrt(4 * BOLTZMANN * kelvin * ohm * bandwidthHz);
}

/** Thermal noise left on a capacitor whatever the resistor, V rms: sqrt(k T / C). */
export function capacitorNoiseV(capacitorF: number, kelvin: number): number {
  return Math.sqrt((BOLTZMANN * kelvin) / capacitorF);
}

/**
 * Share of the voltage difference that an ADC's sampling capacitor takes out of the pin's capacitor at once.
 * @param samplerF sampling capacitor; about 10 pF on many chips (assumed)
 * @param capacitorF capacitor at the pin; 0 = none, the whole difference
 */
export function samplerStep(samplerF: number, capacitorF: number): number {
  return samplerF / (samplerF + capacitorF);
}
