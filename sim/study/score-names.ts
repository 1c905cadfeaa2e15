/** Every score in one place: its name in results, its unit and what it means. */
export const SCORES = {
  jitterPct: {
    label: 'jitter at rest',
    unit: '% of closure',
    meaning:
      'standard deviation of the smoothed closure while the finger rests at three places, about a straight line through each rest, pooled; worst finger (95th percentile over fingers)',
  },
  jitterDeg: {
    label: 'jitter at rest',
    unit: '° of the base joint',
    meaning:
      'the jitter as an angle of the base joint (MCP), which turns 90° over full closure, the thumb’s 50°; worst finger',
  },
  lagMs: {
    label: 'lag at fast grasps',
    unit: 'ms',
    meaning:
      'mean delay of the crossing of half of the grasp, over grasps of 90-400 ms in both directions, worst finger; holds sampling, wiring, filter, half a frame of waiting and the board’s own time, not the link or the screen',
  },
  lagCorrelationMs: {
    label: 'lag by correlation',
    unit: 'ms',
    meaning:
      'the delay at which smoothed and true closure correlate best over the same grasps, worst finger, with the same additions',
  },
  errorPct: {
    label: 'tracking error',
    unit: '% of closure',
    meaning: 'root mean square of smoothed minus true closure over the whole 20 s, over all fingers',
  },
  overshootPct: {
    label: 'overshoot',
    unit: '% of closure',
    meaning:
      'largest excursion beyond the end of a fast partial grasp, against the settled value, worst finger',
  },
  endMissPct: {
    label: 'ends missed by',
    unit: '% of closure',
    meaning:
      'how far the settled output stays from 0 (hand open) or 1 (hand closed), or how much of the travel lies in a dead end of the potentiometer or beyond the ADC’s range, whichever is worse, worst finger',
  },
  stepPct: {
    label: 'jumps in slow motion',
    unit: '% of closure',
    meaning:
      'largest jump of the output in a slow sweep from one frame to the next beyond the true motion (99th percentile), worst finger',
  },
  falsePerHour: {
    label: 'false gestures',
    unit: 'per hour',
    meaning:
      'expected wrong toggles of the gesture if the finger is held exactly between its two thresholds, from the noise at rest and its correlation, or counted where spikes break through; worst finger; the dwell is not credited',
  },
  recoveryMs: {
    label: 'recovery after a spike',
    unit: 'ms',
    meaning:
      'time for which one wrong frame of 600 counts keeps the output more than 2 % of closure off, worst finger',
  },
  loadPct: {
    label: 'frame time used',
    unit: '% of the frame time',
    meaning: 'share of the frame time that reading, smoothing and sending take on the board',
  },
} as const;

export type ScoreName = keyof typeof SCORES;
export const SCORE_NAMES = Object.keys(SCORES) as ScoreName[];
