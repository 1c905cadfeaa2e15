// Host only: the multi-point curve from readings to closure. The board sends a straight line (`calibrate.ts`).
import { monotoneSlopes } from './monotone-slopes.ts';

/** One captured pair. */
export interface CalibrationPoint {
  /** Reading at this pose, in any unit that grows or falls steadily with closure: travel, counts, volts. */
  x: number;
  /** 0 = open, 1 = closed. */
  closure: number;
}

/** A curve ready for use; make it with `buildCalibration`. */
export interface Calibration {
  /** Knots in rising order, after the chip's curve. */
  knots: number[];
  closures: number[];
  /** Slope at each knot, closure per unit of the knots. */
  slopes: number[];
  /** Readings from which on the closure is exactly `closureBelow` or `closureAbove`. */
  lowEnd: number;
  highEnd: number;
  closureBelow: number;
  closureAbove: number;
  chipCurve: (x: number) => number;
}

export interface CalibrationOptions {
  /** Size of one resolution step of x: readings within half of it of an end count as the end. 0 if left out. */
  step?: number;
  /** The ADC's own curve, for instance counts to volts; must rise or fall steadily over the points. */
  chipCurve?: (x: number) => number;
}

/**
 * Monotone cubic through the captured points; with two points a straight line.
 * @param points at least 2; x strictly rising or strictly falling, closure never falling, first 0, last 1
 * @throws RangeError that names the point at fault
 */
export function buildCalibration(points: CalibrationPoint[], options: CalibrationOptions): Calibration {
  const step = options.step === undefined ? 0 : options.step;
  const chipCurve = options.chipCurve === undefined ? same : options.chipCurve;
  const raw = points.map((point) => point.x);
  checkPoints(points);
  checkMonotone(raw, 'reading');
  const knots = raw.map(chipCurve);
  checkMonotone(knots, 'reading after the chip curve');
  const closures = points.map((point) => point.closure);
  if (knots[1] < knots[0]) {
    knots.reverse();
    closures.reverse();
  }
  const first = raw[0];
  const last = raw[raw.length - 1];
  const rises = last > first;
  const span = Math.abs(last - first);
  if (!(step >= 0 && step < span)) {
    throw new RangeError(
      `calibration: resolution step ${step}; expected 0 or more and less than the distance of the ends (${span})`,
    );
  }
  return {
    knots: knots,
    closures: closures,
    slopes: monotoneSlopes(knots, closures),
    lowEnd: (rises ? first : last) + step / 2,
    highEnd: (rises ? last : first) - step / 2,
    closureBelow: rises ? 0 : 1,
    closureAbove: rises ? 1 : 0,
    chipCurve: chipCurve,
  };
}

/**
 * Closure of a reading.
 * @param x reading in the unit of the captured points
 * @returns 0-1; exactly 0 and 1 at, beyond and within half a step of the ends; NaN for NaN
 */
export function closureOf(calibration: Calibration, x: number): number {
  if (x <= calibration.lowEnd) return calibration.closureBelow;
  if (x >= calibration.highEnd) return calibration.closureAbove;
  const knots = calibration.knots;
  const value = calibration.chipCurve(x);
  let i = 0;
  while (i < knots.length - 2 && value >= knots[i + 1]) i++;
  const h = knots[i + 1] - knots[i];
  const t = (value - knots[i]) / h;
  const y = calibration.closures[i];
  const rise = calibration.closures[i + 1] - y;
  const a = h * calibration.slopes[i];
  const b = h * calibration.slopes[i + 1];
  const closure = y + t * (a + t * (3 * rise - 2 * a - b + t * (a + b - 2 * rise)));
  // The cubic keeps inside its ends except for rounding.
  return closure < 0 ? 0 : closure > 1 ? 1 : closure;
}

/**
 * Fills a table with closures of evenly spaced readings.
 * @param firstX reading of table[0]
 * @param stepX distance of neighbouring readings, either sign
 * @param table overwritten
 */
export function fillTable(
  calibration: Calibration,
  firstX: number,
  stepX: number,
  table: Float64Array | Float32Array,
): void {
  for (let i = 0; i < table.length; i++) table[i] = closureOf(calibration, firstX + i * stepX);
}

function same(x: number): number {
  return x;
}

function isNumber(x: number): boolean {
  return Math.abs(x) <= Number.MAX_VALUE;
}

function checkPoints(points: CalibrationPoint[]): void {
  const count = points.length;
  if (count < 2) {
    throw new RangeError(
      `calibration: ${count} point(s); expected at least 2. Capture the open and the closed hand.`,
    );
  }
  for (let i = 0; i < count; i++) {
    const closure = points[i].closure;
    if (!isNumber(points[i].x) || !isNumber(closure)) {
      throw new RangeError(
        `calibration: point ${i + 1} is (${points[i].x}, ${closure}); expected two finite numbers. Capture it again.`,
      );
    }
    if (i > 0 && closure < points[i - 1].closure) {
      throw new RangeError(
        `calibration: closure falls from ${points[i - 1].closure} to ${closure} at point ${i + 1}; ` +
          'expected points in order from open to closed.',
      );
    }
  }
  if (points[0].closure !== 0 || points[count - 1].closure !== 1) {
    throw new RangeError(
      `calibration: closures run from ${points[0].closure} to ${points[count - 1].closure}; ` +
        'expected 0 at the first point (open) and 1 at the last (closed).',
    );
  }
}

function checkMonotone(values: number[], what: string): void {
  const rises = values[1] > values[0];
  for (let i = 1; i < values.length; i++) {
    // Written so that a NaN from a chip curve fails too.
    if (!(rises ? values[i] > values[i - 1] : values[i] < values[i - 1])) {
      throw new RangeError(
        `calibration: ${what} goes from ${values[i - 1]} to ${values[i]} at point ${i + 1}; ` +
          'expected it to rise at every point or to fall at every point. Check the order and capture that point again.',
      );
    }
  }
}
