import {
  adaptiveRise,
  exponentialGain,
  oneEuroRise,
  pctToReading,
  restBase,
  smoothingGain,
} from '../../firmware/chain/constants.ts';
import type { Despike, Hysteresis, LowPass } from '../../firmware/chain/settings.ts';

/** One stage of the chain: a value in, a value out, once a frame. */
export interface Filter {
  update(value: number): number;
}

export class PassFilter implements Filter {
  update(value: number): number {
    return value;
  }
}

export class MedianFilter implements Filter {
  #last: number[] = [];

  update(value: number): number {
    if (this.#last.length === 0) this.#last = [value, value];
    this.#last.push(value);
    const sorted = [...this.#last].sort((a, b) => a - b);
    this.#last.shift();
    return sorted[1];
  }
}

/** What all low-passes share: the limit of a step and the band in which nothing moves. */
abstract class SmoothingFilter implements Filter {
  protected level: number | undefined;
  #limit: number;
  #halfBand: number;

  constructor(limit: number, halfBand: number) {
    this.#limit = limit;
    this.#halfBand = halfBand;
  }

  update(value: number): number {
    if (this.level === undefined) {
      this.level = value;
      return value;
    }
    const step = Math.min(this.#limit, Math.max(-this.#limit, value - this.level));
    const share = this.share(step);
    if (Math.abs(step) > this.#halfBand) this.level += share * step;
    return this.level;
  }

  /** Share of a step that is taken. */
  protected abstract share(step: number): number;
}

export class FollowingFilter extends SmoothingFilter {
  protected share(): number {
    return 1;
  }
}

export class ExponentialFilter extends SmoothingFilter {
  #gain: number;

  constructor(limit: number, halfBand: number, gain: number) {
    super(limit, halfBand);
    this.#gain = gain;
  }

  protected share(): number {
    return this.#gain;
  }
}

export class OneEuroFilter extends SmoothingFilter {
  #base: number;
  #rise: number;
  #speedGain: number;
  #frameRateHz: number;
  #speed = 0;

  constructor(
    limit: number,
    halfBand: number,
    base: number,
    rise: number,
    speedGain: number,
    frameRateHz: number,
  ) {
    super(limit, halfBand);
    this.#base = base;
    this.#rise = rise;
    this.#speedGain = speedGain;
    this.#frameRateHz = frameRateHz;
  }

  protected share(step: number): number {
    this.#speed += this.#speedGain * (step * this.#frameRateHz - this.#speed);
    return 1 - 1 / (this.#base + Math.abs(this.#speed) * this.#rise);
  }
}

export class AdaptiveFilter extends SmoothingFilter {
  #base: number;
  #rise: number;

  constructor(limit: number, halfBand: number, base: number, rise: number) {
    super(limit, halfBand);
    this.#base = base;
    this.#rise = rise;
  }

  protected share(step: number): number {
    return 1 - 1 / (this.#base + step * step * this.#rise);
  }
}

/** The held value is dragged along by the edges of a band. */
export class DragFilter implements Filter {
  #half: number;
  #held: number | undefined;

  constructor(half: number) {
    this.#half = half;
  }

  update(value: number): number {
    const held = this.#held ?? value;
    this.#held = Math.min(value + this.#half, Math.max(value - this.#half, held));
    return this.#held;
  }
}

/** The held value jumps to the new one once that leaves a band. */
export class JumpFilter implements Filter {
  #half: number;
  #held: number | undefined;

  constructor(half: number) {
    this.#half = half;
  }

  update(value: number): number {
    if (this.#held === undefined || Math.abs(value - this.#held) > this.#half) this.#held = value;
    return this.#held;
  }
}

export function createDespike(despike: Despike): Filter {
  return despike.kind === 'median' ? new MedianFilter() : new PassFilter();
}

/** @param span distance of the ends in units of the values */
export function createLowPass(
  lowPass: LowPass,
  despike: Despike,
  hysteresis: Hysteresis,
  periodS: number,
  span: number,
): Filter {
  const limit = despike.kind === 'clip' ? pctToReading(despike.limitPct, span) : Number.POSITIVE_INFINITY;
  const halfBand = hysteresis.kind === 'still' ? pctToReading(hysteresis.widthPct / 2, span) : -1;
  switch (lowPass.kind) {
    case 'exponential':
      return new ExponentialFilter(limit, halfBand, exponentialGain(lowPass.cutoffHz, periodS));
    case 'oneEuro':
      return new OneEuroFilter(
        limit,
        halfBand,
        restBase(lowPass.minCutoffHz, periodS),
        oneEuroRise(lowPass.beta, periodS, span),
        smoothingGain(lowPass.speedCutoffHz, periodS),
        1 / periodS,
      );
    case 'adaptive':
      return new AdaptiveFilter(
        limit,
        halfBand,
        restBase(lowPass.restCutoffHz, periodS),
        adaptiveRise(lowPass.riseHz, periodS, span),
      );
    default:
      return new FollowingFilter(limit, halfBand);
  }
}

export function createHold(hysteresis: Hysteresis, span: number): Filter {
  if (hysteresis.kind === 'drag') return new DragFilter(pctToReading(hysteresis.widthPct / 2, span));
  if (hysteresis.kind === 'step') return new JumpFilter(pctToReading(hysteresis.widthPct / 2, span));
  return new PassFilter();
}
