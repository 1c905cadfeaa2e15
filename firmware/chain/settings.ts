/** Readings that one frame sums up, per finger. */
export type Oversampling = 1 | 2 | 4 | 8 | 16 | 32;

/**
 * What is done about isolated wrong readings.
 * - `none`
 * - `clip`: the step from the smoothed value to a new reading is limited to `limitPct` (% of full closure)
 * - `median`: the middle one of the last three readings is used (costs one frame of delay)
 */
export type Despike = { kind: 'none' } | { kind: 'clip'; limitPct: number } | { kind: 'median' };

/**
 * The low-pass filter.
 * - `none`
 * - `exponential`: first order, -3 dB exactly at `cutoffHz`
 * - `oneEuro`: cut-off = `minCutoffHz` + `beta`·|speed|, speed in closures/s smoothed at `speedCutoffHz`
 *   (Casiez, Roussel, Vogel 2012)
 * - `adaptive`: one state; cut-off = `restCutoffHz` + `riseHz`·(step / 10 % of closure)², where step is the
 *   distance of the new reading from the smoothed value
 */
export type LowPass =
  | { kind: 'none' }
  | { kind: 'exponential'; cutoffHz: number }
  | { kind: 'oneEuro'; minCutoffHz: number; beta: number; speedCutoffHz: number }
  | { kind: 'adaptive'; restCutoffHz: number; riseHz: number };

/**
 * What keeps a resting finger still. `widthPct` is the full width of the band, % of full closure.
 * - `none`
 * - `still`: readings within ± half the width of the smoothed value do not change it (merged with the filter)
 * - `drag`: the output is dragged along by the band's edges (smooth, lags by half the width)
 * - `step`: the output jumps to the smoothed value once that is more than half the width away
 *
 * `stillPct` gives a drag or step band a still band of this full width before the low-pass: it spares the board the
 * stages behind it while the finger rests.
 */
export type Hysteresis =
  | { kind: 'none' }
  | { kind: 'still'; widthPct: number }
  | { kind: 'drag'; widthPct: number; stillPct?: number }
  | { kind: 'step'; widthPct: number; stillPct?: number };

/** All that `choose` chooses: the signal chain of every finger, in Hz, seconds and % of full closure. */
export interface Settings {
  oversampling: Oversampling;
  despike: Despike;
  lowPass: LowPass;
  hysteresis: Hysteresis;
}
