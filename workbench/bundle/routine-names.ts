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
  'markStored',
  'begin',
  'refresh',
  'reply',
  'countError',
];

/** Functions that stay functions: what runs in few frames is not read in all others. */
const KEPT_IN_FRAME = [
  'clip',
  'saturate',
  'restartHand',
  'watchFrozen',
  'maskFaults',
  'debounceAll',
  'captureHand',
  'sendRaw',
  'tryHealth',
  'sendOtherFrame',
];

/** Functions that only the routines above call: they lie with them. */
export const KEPT_WITH_ROUTINES = ['applyEnds', 'putAll', 'setShared'];

export const KEPT = new Set([...KEPT_IN_FRAME, ...KEPT_WITH_ROUTINES]);
