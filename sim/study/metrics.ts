/** Scores of one setting on one trace, as a row of numbers; frames and closures, not yet ms and %. */
export const METRIC = {
  /** sd at rest, closure */
  jitter: 0,
  /** crossing lag, frames */
  lag: 1,
  /** lag by correlation, frames */
  lagCorrelation: 2,
  /** mean square error, closure² */
  squareError: 3,
  overshoot: 4,
  endMiss: 5,
  step: 6,
  falsePerHour: 7,
  /** frames */
  recovery: 8,
} as const;

export const METRICS = 9;
