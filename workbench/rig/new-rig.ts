import { BOARD_IDS, type BoardId } from '../../firmware/boards/board.ts';
import { boardFacts } from '../../firmware/boards/boards.ts';
import { NOISE_PRESETS } from '../../sim/rig/default-rig.ts';
import { DEFAULTS, type DefaultPath, explainDefault } from '../../sim/rig/defaults.ts';
import { FINGER_NAMES } from '../../sim/rig/rig.ts';
import { SECOND_PORT_INPUT } from '../../sim/sizing/pins/pin-uses.ts';
import type { Dimension } from './unit-table.ts';
import { formatQuantity } from './units.ts';

export interface NewRigWishes {
  side?: 'left' | 'right';
  board?: BoardId;
  name?: string;
}

/** How a default is written: by its unit, or as a plain number or word. */
function written(path: DefaultPath): string {
  const { value, unit } = DEFAULTS[path];
  if (typeof value === 'string') return value;
  const one = (number: number) => {
    const dimension = DIMENSION_OF_UNIT[unit];
    return dimension === undefined ? String(number) : formatQuantity(number, dimension);
  };
  return typeof value === 'number' ? one(value) : `[${value.map(one).join(', ')}]`;
}

const DIMENSION_OF_UNIT: Record<string, Dimension> = {
  mm: 'length',
  deg: 'angle',
  ohm: 'resistance',
  F: 'capacitance',
  mN·m: 'torque',
  'N/mm': 'stiffness',
  V: 'voltage',
  Hz: 'frequency',
  ms: 'time',
  share: 'share',
  '%': 'percent',
};

const COMMENT_COLUMN = 36;

/** `key: value   # label (source)` */
function row(indent: number, key: string, path: DefaultPath, value = written(path)): string {
  const start = `${' '.repeat(indent)}${key}: ${value}`;
  const { label, source } = explainDefault(path)!;
  return `${start.padEnd(COMMENT_COLUMN)} # ${label} (${source})`;
}

function rows(indent: number, prefix: string, keys: readonly string[]): string[] {
  return keys.map((key) => row(indent, key, `${prefix}.${key}` as DefaultPath));
}

/** Text in quotes where YAML would read something else into it. */
function quoted(text: string): string {
  return /^[A-Za-z][A-Za-z0-9 _().-]*[A-Za-z0-9)]$/.test(text) && !/^(null|true|false)$/i.test(text)
    ? text
    : JSON.stringify(text);
}

/** What a rig may have beside its strings, commented out, with pins that are free on the board. */
function extras(board: BoardId): string[] {
  const { adc1Pins, digitalPins, label } = boardFacts(board);
  const strings: readonly number[] = DEFAULTS[`finger.pin.${board}`].value;
  const [x, y, rail] = adc1Pins.filter((pin) => !strings.includes(pin));
  const digital = digitalPins.filter((pin) => !strings.includes(pin));
  const comment = (text: string, label: string) => `${`# ${text}`.padEnd(COMMENT_COLUMN)} # ${label}`;
  const analog =
    x === undefined || y === undefined || rail === undefined
      ? [
          `# (Five strings take all ADC1 pins of the ${label}: a joystick or a rail pin needs the multiplexer.)`,
        ]
      : [
          comment(`joystick: {x: ${x}, y: ${y}}`, 'ADC1 pins of the two axes'),
          comment(`rail: {pin: ${rail}, divider: 50 %}`, 'supply, measured through two resistors'),
        ];
  const buttons = digital.slice(3, 5);
  const tx = digital.slice(5).find((pin) => pin !== SECOND_PORT_INPUT);
  const isInputFree = ![...strings, ...buttons].includes(SECOND_PORT_INPUT);
  const link =
    tx === undefined || !isInputFree
      ? `# (Strings and buttons leave no pins of the ${label} for frames on a second serial port: it needs GPIO${SECOND_PORT_INPUT} too.)`
      : comment(`frameLink: {tx: ${tx}, baud: 230400}`, 'frames on a second serial port, not the console');
  return [
    '# What else the build may have.',
    ...analog,
    comment(`buttons: [${buttons.join(', ')}]`, 'up to four, each between its pin and ground'),
    link,
    comment('watchdog: 5 s', 'restarts the board when its program hangs'),
    comment('dummyRead: true', 'throws each finger’s first reading away: no trace of the pin before'),
    comment(
      `multiplexer: {select: [${digital.slice(0, 3).join(', ')}], signal: ${strings[0]}}`,
      '8 inputs on one pin: a finger then has "channel: 0" to 7 for "pin"',
    ),
  ];
}

/**
 * An example rig file to start from: every value written out with the default, so that a maker sees what there
 * is to measure. Generated from the defaults; reading it gives exactly the default rig.
 */
export function newRigText({
  side = DEFAULTS['hand.side'].value,
  board = DEFAULTS.board.value,
  name,
}: NewRigWishes = {}): string {
  const finger = 'finger';
  const pins = DEFAULTS[`finger.pin.${board}`].value;
  const guide = `{wrap: ${written('finger.guides.wrap')}, friction: ${written('finger.guides.friction')}}`;
  const lines = [
    '# One hand controller. Replace each value by what you built or measured; delete lines to use the default.',
    '# Units may be written as you are used to: 12.5 mm or 1.25 cm, 4.7 kΩ or 4k7, 54 gf·cm or 5.3 mN·m.',
    '# "tautline explain finger.spool.radius" tells where a default comes from.',
    row(0, 'name', 'name', quoted(name ?? DEFAULTS.name.value)),
    'hand:',
    row(2, 'side', 'hand.side', side),
    row(2, 'size', 'hand.size'),
    row(0, 'board', 'board', board).replace(/ # board.*/, ` # ${BOARD_IDS.join(', ')}`),
    'supply:',
    ...rows(2, 'supply', ['voltage', 'tolerance', 'sag']),
    row(0, 'frameRate', 'frameRate'),
    '',
    `# Noise at the ADC: ${NOISE_PRESETS.join(', ')}. Better: the recording of your own build at rest,`,
    '#   noise: {recording: rest.csv}',
    row(0, 'noise', 'noise'),
    '',
    '# What all fingers share. A finger may say the same things for itself.',
    'eachFinger:',
    `${row(2, 'momentArms', 'finger.momentArms')}: MCP, PIP, DIP (thumb: CMC, MCP, IP)`,
    '  # or measured on the hand: joints: {circumferences: [75 mm, 68 mm, 57 mm], guideHeight: 3 mm}',
    '  guides:                            # in the order from fingertip to spool',
    `    - ${guide} # bend (${DEFAULTS['finger.guides.wrap'].source}), friction (${DEFAULTS['finger.guides.friction'].source})`,
    '    # - {wrap: 180 deg, weights: [100 g, 128 g]} # or two weights of which one just sinks',
    ...rows(2, finger, ['play', 'anchor']),
    '  spool:',
    ...rows(4, `${finger}.spool`, ['radius', 'string']),
    '  spring: # or what a spring balance shows right at the spool, string going in and out:',
    '    # pulls: [{stringOut: 0 mm, in: 0.30 N, out: 0.38 N}, {stringOut: 50 mm, in: 0.36 N, out: 0.45 N}]',
    '    # or the strip that it is wound from: strip: {width: 5 mm, thickness: 0.15 mm, length: 1 m}',
    '    # and preload: 3 turns',
    ...rows(4, `${finger}.spring`, ['openTorque', 'perTurn', 'hysteresis']),
    '  potentiometer:',
    ...rows(4, `${finger}.potentiometer`, [
      'resistance',
      'tolerance',
      'electricalTravel',
      'mechanicalTravel',
      'linearity',
      'drag',
      'usedCycles',
      'ratedCycles',
    ]),
    '  wiring:',
    ...rows(4, `${finger}.wiring.${board}`, ['top', 'bottom']),
    ...rows(4, `${finger}.wiring`, ['tolerance', 'pullDown', 'capacitor']),
    '',
    '# The fingers that have a string, each with its ADC pin.',
    'fingers:',
    ...FINGER_NAMES.map((fingerName, index) => `  ${fingerName}: {pin: ${pins[index]}}`),
    '',
    ...extras(board),
    '',
    '# A gesture is on above one closure and off below another.',
    'gesture:',
    ...rows(2, 'gesture', ['on', 'off', 'dwell']),
    '',
    row(0, 'calibrationPoints', 'calibrationPoints'),
    '',
    '# What you want of it; percentages are of full closure.',
    'wishes:',
    ...rows(2, 'wishes', ['jitter', 'lag', 'falsePerHour', 'frameShare', 'step', 'endMiss']),
  ];
  return `${lines.join('\n')}\n`;
}
