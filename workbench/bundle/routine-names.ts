/** Functions of the frame program that seldom run code calls; each takes the program as its first argument. */
export const ROUTINES = [
  'setNumber',
  'getNumber',
  'counter',
  'raw',
  'beginCapture',
  'endCapture',
  'isCapturing',
  'zero',
  'takeEnds',
  'captured',
  'ends',
  'setUncalibrated',
  'begin',
  'refresh',
  'reply',
];

/** Functions that stay functions: what runs in few frames is not read in all others. */
export const KEPT = new Set([
  'applyEnds',
  'putAll',
  'setShared',
  'clip',
  'saturate',
  'restartHand',
  'changeFault',
  'maskFaults',
  'debounceAll',
  'captureHand',
  'sendRaw',
  'sendHealth',
  'sendOtherFrame',
  'countError',
]);

/** Those that the start needs. */
export const START_ROUTINES = ['begin', 'takeEnds', 'setUncalibrated'];
