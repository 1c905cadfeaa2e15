import { type DefaultEntry, entry } from './default-entry.ts';
import { FINGER_DEFAULTS } from './default-finger.ts';
import { NOISE_DEFAULTS } from './default-noise.ts';

const HAND_DEFAULTS = {
  name: entry('My hand', '', 'name of this rig', 'assumed', 'anything that tells your rigs apart'),
  'hand.side': entry('right', '', 'side of the hand', 'assumed', 'most makers build the right hand first'),
  'hand.size': entry(
    1,
    '',
    'size of the hand',
    'published',
    'mean bone lengths of Buryanov & Kotiuk 2010 (second-hand transcription); 0.8-1.2',
  ),
  board: entry('esp32', '', 'board', 'assumed', 'the chip whose ADC is best documented'),
  'supply.voltage': entry(
    3.3,
    'V',
    'voltage over the potentiometers',
    'assumed',
    'the 3V3 pin of usual boards',
  ),
  'supply.tolerance': entry(
    0.03,
    'share',
    'tolerance of that voltage',
    'assumed',
    'usual small regulators, 2-5 %',
  ),
  'supply.sag': entry(
    0.002,
    'share',
    'slow sag of the voltage under load',
    'assumed',
    '7 mV at a regulator that also feeds the radio',
  ),
  frameRate: entry(
    100,
    'Hz',
    'frames a second',
    'computed',
    'a 90 ms minimum-jerk pinch has fallen by 40 dB at 39 Hz, so 100 Hz loses little',
  ),
  noise: entry('typical', '', 'noise preset', 'assumed', 'soldered board with capacitors at the pins'),
  'gesture.on': entry(
    0.55,
    'share',
    'closure at which the gesture starts',
    'assumed',
    'just past half closed',
  ),
  'gesture.off': entry(
    0.45,
    'share',
    'closure at which it ends',
    'assumed',
    'a band of 10 % holds off noise',
  ),
  'gesture.dwell': entry(
    30,
    'ms',
    'time beyond a threshold before it counts',
    'assumed',
    'three frames at 100 Hz',
  ),
  calibrationPoints: entry(
    2,
    '',
    'points of the calibration curve',
    'assumed',
    'open and closed only; 5 cure a bent potentiometer',
  ),
  'wishes.jitter': entry(
    0.5,
    '%',
    'largest jitter at rest (sd)',
    'assumed',
    'of full closure: half a percent is about a quarter millimetre of string',
  ),
  'wishes.lag': entry(
    30,
    'ms',
    'largest lag at fast grasps',
    'assumed',
    'delay of hand movements below 33 ms is hard to notice (Ellis 1999, from memory)',
  ),
  'wishes.falsePerHour': entry(
    1,
    '',
    'most false gestures an hour',
    'assumed',
    'with the hand held at the threshold',
  ),
  'wishes.frameShare': entry(
    0.5,
    'share',
    'largest share of the frame time in use',
    'assumed',
    'leaves half for the link and the interpreter’s housekeeping',
  ),
  'wishes.step': entry(
    1,
    '%',
    'largest jump in slow motion',
    'assumed',
    'of full closure: half a millimetre of string',
  ),
  'wishes.endMiss': entry(
    3,
    '%',
    'largest part of the travel lost at an end',
    'assumed',
    'of full closure: a spool that runs the potentiometer into a dead end fails this',
  ),
} as const;

/** Every default of a rig with its unit and source: the one place where they are written down. */
export const DEFAULTS = { ...HAND_DEFAULTS, ...FINGER_DEFAULTS, ...NOISE_DEFAULTS } as const;
export type DefaultPath = keyof typeof DEFAULTS;

/**
 * Looks a default up.
 * @param path as in the rig file, such as `finger.spool.radius` or `noise.quiet.sd`; `eachFinger` and
 *   `fingers.<name>` mean the same as `finger`
 * @returns the entry, or undefined if there is none
 */
export function explainDefault(path: string): DefaultEntry | undefined {
  const key = path.trim().replace(/^(eachFinger|fingers\.[a-z]+)(?=\.|$)/, 'finger');
  return Object.hasOwn(DEFAULTS, key) ? (DEFAULTS[key as DefaultPath] as DefaultEntry) : undefined;
}

/** Paths of all defaults, or of those below a prefix such as `finger.wiring`, in table order. */
export function defaultPaths(prefix = ''): DefaultPath[] {
  const all = Object.keys(DEFAULTS) as DefaultPath[];
  return prefix === '' ? all : all.filter((path) => path === prefix || path.startsWith(`${prefix}.`));
}
