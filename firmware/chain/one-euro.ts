/**
 * Smoothed speed of the one euro filter. The raw speed is taken against the previous *filtered* value.
 * @param speed smoothed speed so far, reading units a second
 * @param step new reading minus previous filtered value
 * @param frameRateHz 1 / frame period
 * @param speedGain share of the news taken, from `smoothingGain(speedCutoffHz, period)`
 * Source: Casiez, Roussel, Vogel: 1€ filter, CHI 2012, and its authors' published reference code.
 */
export function oneEuroSpeed(speed: number, step: number, frameRateHz: number, speedGain: number): number {
  return speed + (step * frameRateHz - speed) * speedGain;
}

/**
 * One step of the one euro filter.
 * @param level filtered value so far
 * @param step new reading minus `level`
 * @param speed smoothed speed, already brought up to date by `oneEuroSpeed`
 * @param base 1 + 2π·minCutoff·period
 * @param rise 2π·beta·period, per reading unit a second
 */
export function oneEuro(level: number, step: number, speed: number, base: number, rise: number): number {
  return level + (step - step / (base + (speed < 0 ? -speed : speed) * rise));
}
