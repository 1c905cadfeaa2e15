import { describe, expect, it } from 'vitest';
import { formatProblems, TautlineError } from '../../../sim/errors.ts';
import { parseRig } from '../../../workbench/rig/read-rig.ts';

/** A rig with one finger, to which broken lines are added above. */
const REST = 'fingers:\n  index: {pin: 33}\n';

function problemsOf(text: string): { error: TautlineError; at: string[] } {
  try {
    parseRig(text, 'rig.yaml');
  } catch (error) {
    if (!(error instanceof TautlineError)) throw error;
    return { error, at: error.problems.map(({ line, column }) => `${line}:${column}`) };
  }
  throw new Error('was accepted');
}

// title, text, line:column counted by hand, what the message must name as seen, and as expected
const TABLE: [string, string, string, RegExp, RegExp][] = [
  ['an empty file', '', '1:1', /empty file/, /key: value/],
  ['comments only', '# a rig\n\n# to be\n', '1:1', /empty file/, /key: value/],
  ['a list', '- thumb\n- index\n', '1:1', /a list/, /key: value/],
  ['plain text', 'hello there\n', '1:1', /text without keys/, /key: value/],
  ['an unknown key', `colour: red\n${REST}`, '1:1', /unknown key "colour" in the file/, /one of: name, hand/],
  [
    'an unknown key of a section',
    `hand:\n  sied: left\n${REST}`,
    '2:3',
    /unknown key "sied" in hand/,
    /side, size/,
  ],
  [
    'an unknown finger',
    'fingers:\n  index: {pin: 33}\n  pinky: {pin: 34}\n',
    '3:3',
    /"pinky" in fingers/,
    /little/,
  ],
  [
    'a key of a finger in wrong spelling',
    'fingers:\n  index: {pin: 33, pin2: 34}\n',
    '2:20',
    /"pin2"/,
    /momentArms/,
  ],
  ['an unknown board', `board: arduino\n${REST}`, '1:8', /board is "arduino"/, /esp32, esp32-s3, esp32-c3/],
  ['an unknown side', `hand: {side: up}\n${REST}`, '1:14', /hand.side is "up"/, /left, right/],
  [
    'a wrong dimension',
    `eachFinger:\n  wiring:\n    top: 12 mm\n${REST}`,
    '3:10',
    /"12 mm", which is a length/,
    /a resistance/,
  ],
  ['an unknown unit', `eachFinger: {play: 3 parsec}\n${REST}`, '1:20', /unknown unit "parsec"/, /a length/],
  [
    'a capacitor without a unit',
    `eachFinger:\n  wiring: {capacitor: 100}\n${REST}`,
    '2:23',
    /100 without a unit/,
    /a capacitance/,
  ],
  ['a wish without its %', `wishes:\n  jitter: 0.5\n${REST}`, '2:11', /0.5 without a unit/, /percentage/],
  ['a decimal comma', `eachFinger:\n  play: 0,3 mm\n${REST}`, '2:9', /"0,3 mm" with a comma/, /a length/],
  ['not a number', `frameRate: .nan\n${REST}`, '1:12', /not a number/, /a frequency/],
  ['infinity', `frameRate: .inf\n${REST}`, '1:12', /infinite/, /a frequency/],
  [
    'text for a number',
    `frameRate: fast\n${REST}`,
    '1:12',
    /"fast", which does not start with a number/,
    /a frequency/,
  ],
  [
    'a negative length',
    `eachFinger:\n  play: -0.3 mm\n${REST}`,
    '2:9',
    /"-0.3 mm"/,
    /a length of 0 mm to 5 mm/,
  ],
  [
    'a negative resistance',
    `eachFinger:\n  wiring: {top: -1k}\n${REST}`,
    '2:17',
    /"-1k"/,
    /0 ohm to 1000 kΩ/,
  ],
  ['a frame rate of 0', `frameRate: 0\n${REST}`, '1:12', /frameRate is "0"/, /10 Hz to 1000 Hz/],
  ['a hand twice the size', `hand: {size: 2}\n${REST}`, '1:14', /hand.size is "2"/, /0.8 to 1.2/],
  [
    'percent as a bare number',
    `supply:\n  tolerance: 3\n${REST}`,
    '2:14',
    /supply.tolerance is "3"/,
    /0 % to 50 %/,
  ],
  [
    'a spring without torque',
    `eachFinger:\n  spring: {openTorque: 0}\n${REST}`,
    '2:24',
    /openTorque is "0"/,
    /more than 0 mN·m/,
  ],
  ['half a calibration point', `calibrationPoints: 2.5\n${REST}`, '1:20', /"2.5"/, /whole number of 2 to 9/],
  ['a value left empty', `board:\n${REST}`, '1:1', /board is nothing/, /one of: esp32/],
  ['a name on several lines', `name: |\n  a\n  b\n${REST}`, '1:7', /name is/, /one line of text/],
  ['a number for a name', `name: 12\n${REST}`, '1:7', /name is "12"/, /a name/],
  [
    'two moment arms',
    `eachFinger:\n  momentArms: [14 mm, 11 mm]\n${REST}`,
    '2:15',
    /list of another length/,
    /exactly 3/,
  ],
  [
    'a wrong arm',
    `eachFinger:\n  momentArms: [14 mm, 11 V, 9 mm]\n${REST}`,
    '2:23',
    /momentArms\[1\] is "11 V"/,
    /a length/,
  ],
  [
    'guides that are no list',
    `eachFinger:\n  guides: 180 deg\n${REST}`,
    '2:11',
    /guides is "180 deg"/,
    /a list/,
  ],
  [
    'a guide without friction',
    `eachFinger:\n  guides:\n    - {wrap: 90°}\n${REST}`,
    '3:7',
    /guides\[0\] has no "friction"/,
    /plain number/,
  ],
  ['a section that is no mapping', `hand: left\n${REST}`, '1:7', /hand is "left"/, /a mapping/],
  ['no fingers at all', 'name: nobody\n', '1:1', /no fingers/, /at least one finger/],
  ['an empty fingers section', 'name: nobody\nfingers:\n', '2:1', /no fingers/, /at least one finger/],
  [
    'a finger without a pin',
    'fingers:\n  index: {play: 1 mm}\n',
    '2:3',
    /fingers.index has no "pin"/,
    /GPIO number/,
  ],
  ['a pin that is no number', 'fingers:\n  index: {pin: VP}\n', '2:16', /pin is "VP"/, /GPIO number/],
  [
    'a pin off the ADC',
    'fingers:\n  index: {pin: 23}\n',
    '2:16',
    /pin is 23/,
    /ADC1 pin of the ESP32.*32, 33, 34/,
  ],
  [
    'an ADC2 pin',
    'fingers:\n  index: {pin: 25}\n',
    '2:16',
    /25, on ADC2, which belongs to the radio/,
    /ADC1/,
  ],
  [
    'an ESP32 pin on an S3',
    'board: esp32-s3\nfingers:\n  index: {pin: 33}\n',
    '3:16',
    /pin is 33/,
    /ADC1 pin of the ESP32-S3.*1, 2, 3/,
  ],
  ['the ADC2 pin of a C3', 'board: esp32-c3\nfingers:\n  index: {pin: 5}\n', '3:16', /ADC2/, /0, 1, 2, 3, 4/],
  [
    'one pin for two fingers',
    'fingers:\n  index: {pin: 33}\n  ring:\n    pin: 33\n',
    '4:10',
    /fingers.ring.pin is 33, the pin of the index finger \(line 2\)/,
    /a pin of its own/,
  ],
  [
    'a finger written twice',
    'fingers:\n  index: {pin: 33}\n  index: {pin: 34}\n',
    '3:3',
    /a second time/,
    /each key once/,
  ],
  [
    'more electrical than mechanical travel',
    `eachFinger:\n  potentiometer:\n    electricalTravel: 300 deg\n${REST}`,
    '3:23',
    /electricalTravel is 300 deg, mechanicalTravel 280 deg/,
    /no larger/,
  ],
  [
    'gesture ends above its start',
    `gesture:\n  on: 40 %\n  off: 60 %\n${REST}`,
    '3:8',
    /off is 0.6, gesture.on 0.4/,
    /off below on/,
  ],
  [
    'gesture start below the default end',
    `gesture: {on: 40 %}\n${REST}`,
    '1:15',
    /off is 0.45, gesture.on 0.4/,
    /off below on/,
  ],
  [
    'no moment arm at all',
    `eachFinger:\n  momentArms: [0, 0, 0]\n${REST}`,
    '2:15',
    /all moment arms are 0/,
    /at least one joint/,
  ],
  ['an unknown preset', `noise: quite\n${REST}`, '1:8', /noise is "quite"/, /quiet, typical, noisy, rough/],
  [
    'an unknown preset in a mapping',
    `noise:\n  preset: loud\n${REST}`,
    '2:11',
    /noise.preset is "loud"/,
    /quiet/,
  ],
  [
    'spikes the wrong way round',
    `noise: {spikes: [200, 50]}\n${REST}`,
    '1:17',
    /noise.spikes is/,
    /smaller size first/,
  ],
  ['half of all readings as spikes', `noise: {spikeShare: 50 %}\n${REST}`, '1:21', /"50 %"/, /0 % to 10 %/],
  [
    'a single pull',
    `eachFinger:\n  spring:\n    pulls: [{stringOut: 0, in: 0.3 N, out: 0.4 N}]\n${REST}`,
    '3:12',
    /list of another length/,
    /at least 2/,
  ],
  [
    'pulls that swap in and out',
    `eachFinger:\n  spring:\n    pulls:\n      - {stringOut: 0, in: 0.4 N, out: 0.3 N}\n      - {stringOut: 50, in: 0.4 N, out: 0.5 N}\n${REST}`,
    '4:7',
    /drawing out pulls 0.3 N, taking in 0.4 N/,
    /at least as strong/,
  ],
  [
    'pulls that fall with length',
    `eachFinger:\n  spring:\n    pulls: [{stringOut: 0, in: 0.4, out: 0.5}, {stringOut: 9, in: 0.3, out: 0.4}]\n${REST}`,
    '3:12',
    /falls as the string comes out/,
    /does not fall/,
  ],
  [
    'pulls and a torque',
    `eachFinger:\n  spring:\n    openTorque: 5\n    pulls: [{stringOut: 0, in: 0.3, out: 0.4}, {stringOut: 9, in: 0.3, out: 0.4}]\n${REST}`,
    '4:12',
    /both pulls and torques/,
    /either pulls/,
  ],
  [
    'an oversampling of 3',
    settings('oversampling: 3', ''),
    '2:17',
    /oversampling is "3"/,
    /1, 2, 4, 8, 16, 32/,
  ],
  [
    'an unknown filter',
    settings('lowPass: {kind: kalman}', ''),
    '2:19',
    /"kalman"/,
    /none, exponential, oneEuro, adaptive/,
  ],
  [
    'a filter without its cut-off',
    settings('lowPass: {kind: exponential}', ''),
    '2:3',
    /has no "cutoff"/,
    /a frequency/,
  ],
  [
    'a key of another filter',
    settings('lowPass: {kind: exponential, cutoff: 5 Hz, beta: 1}', ''),
    '2:46',
    /"beta"/,
    /kind, cutoff/,
  ],
  [
    'a cut-off above half the frame rate',
    settings('lowPass: {kind: exponential, cutoff: 50 Hz}', ''),
    '2:40',
    /50 Hz at 100 frames/,
    /less than half/,
  ],
  [
    'a missing stage',
    `settings:\n  oversampling: 4\n  despike: none\n  lowPass: none\n${REST}`,
    '1:1',
    /settings has no "hysteresis"/,
    /mapping/,
  ],
  ['a tab as indentation', `hand:\n\tside: left\n${REST}`, '2:1', /a tab/, /spaces/],
  ['a key written twice', `board: esp32\nboard: esp32\n${REST}`, '2:1', /a second time/, /each key once/],
  [
    'an unclosed quote',
    `${REST}name: "my hand\nboard: esp32\n`,
    '3:7',
    /quote is never closed/,
    /closing quote/,
  ],
  ['an unclosed bracket', `hand: {side: left\n${REST}`, '2:1', /bracket never closed/, /same column/],
  ['a truncated file', 'fingers:\n  index: {pin: 33}\n  mid', '3:3', /a line without a colon/, /key: value/],
  ['a missing colon', `board esp32\n${REST}`, '1:1', /without ": "/, /key: value/],
  [
    'crooked indentation',
    'fingers:\n  index: {pin: 33}\n ring: {pin: 34}\n',
    '3:1',
    /indented differently/,
    /same column/,
  ],
  ['two documents', `${REST}---\n${REST}`, '3:1', /second document/, /one document/],
  ['a tag', `name: !secret x\n${REST}`, '1:7', /a tag/, /plain values/],
  [
    'an alias',
    `eachFinger: &all {play: 1 mm}\nfingers:\n  index: *all\n`,
    '3:10',
    /an alias \(\*all\)/,
    /plain values/,
  ],
  ['a NUL character', `name: a\u0000b\n${REST}`, '1:8', /U\+0000/, /text file/],
  [
    'a key of the language',
    `__proto__: {board: esp32}\n${REST}`,
    '1:1',
    /unknown key "__proto__"/,
    /one of: name/,
  ],
  ['another version of YAML', `%YAML 1.1\n---\n${REST}`, '1:1', /another version/, /YAML 1.2/],
  [
    'Windows line ends and a wrong unit',
    `hand:\r\n  side: left\r\nframeRate: 100 mm\r\n${REST}`,
    '3:12',
    /a length/,
    /a frequency/,
  ],
  ['a wrong value behind a byte order mark', `\ufeffboard: x\n${REST}`, '1:8', /board is "x"/, /esp32/],
];

function settings(first: string, rest: string): string {
  const rows = { oversampling: '4', despike: 'none', lowPass: 'none', hysteresis: 'none' };
  const others = Object.entries(rows).filter(([key]) => !first.startsWith(key));
  return `settings:\n  ${first}\n${others.map(([key, value]) => `  ${key}: ${value}\n`).join('')}${rest}${REST}`;
}

describe('a broken rig file', () => {
  it.each(TABLE)('is refused for %s', (_title, text, place, seen, expected) => {
    const { error, at } = problemsOf(text);
    expect(at).toEqual([place]);
    const problem = error.problems[0]!;
    expect(problem.file).toBe('rig.yaml');
    expect(problem.seen).toMatch(seen);
    expect(problem.expected).toMatch(expected);
    expect(problem.next).not.toBe('');
    expect(error.code).toBe('rig/invalid');
    const shown = formatProblems(error);
    expect(shown).toContain(`rig.yaml:${place}: `);
    expect(shown).not.toMatch(/\n\s+at |node_modules|\.ts:/);
  });

  it('has all its problems listed at once, in the order of the file', () => {
    const text = [
      'nmae: two typos', //                    1:1 unknown key
      'board: esp23', //                       2:8 unknown board
      'eachFinger:',
      '  play: 3 kg', //                       4:9 wrong dimension
      'fingers:',
      '  thumb: {pin: 32}',
      '  index: {pin: 32}', //                 7:16 pin used twice
      '  ring: {}', //                         8:3 no pin
      'gesture: {on: 40 %, off: 60 %}', //     9:26 off above on
      'gesture: {}', //                        10:1 key twice
    ].join('\n');
    // The later "gesture" wins in YAML, so its thresholds are the defaults.
    expect(problemsOf(text).at).toEqual(['1:1', '2:8', '4:9', '7:16', '8:3', '10:1']);
  });

  it('does not blame a value for another one that could not be read', () => {
    const text = `eachFinger:\n  potentiometer: {electricalTravel: 27 mm, mechanicalTravel: 200 deg}\n${REST}`;
    expect(problemsOf(text).at).toEqual(['2:37']);
  });

  it('lists twenty problems and counts the others', () => {
    const text = Array.from({ length: 33 }, (_, row) => `key${row}: 1\n`).join('') + REST;
    const { error } = problemsOf(text);
    expect(error.problems).toHaveLength(20);
    expect(error.problems[19]!.line).toBe(20);
    expect(formatProblems(error)).toContain('13 more problems not shown');
  });

  it.each([
    ['sied', 'hand:\n  sied: left\n', 'did you mean "side"?'],
    ['frame_rate', 'frame_rate: 100 Hz\n', 'did you mean "frameRate"?'],
    ['eachfinger', 'eachfinger: {}\n', 'did you mean "eachFinger"?'],
    ['esp32s3', 'board: esp32s3\n', 'did you mean "esp32-s3"?'],
    ['zzz', 'zzz: 1\n', 'remove it or use one of these'],
  ])('is answered with a suggestion where one is near: %s', (_word, text, next) => {
    expect(problemsOf(text + REST).error.problems[0]!.next).toBe(next);
  });

  it('cannot swell by aliases', () => {
    let text = 'a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n';
    for (let i = 1; i < 12; i++)
      text += `a${i}: &a${i} [${Array(10)
        .fill(`*a${i - 1}`)
        .join(', ')}]\n`;
    const { error } = problemsOf(text);
    expect(error.problems[0]!.seen).toBe('an alias (*a0)');
  });

  it('cannot exhaust the stack by nesting', () => {
    expect(problemsOf(`name: ${'['.repeat(100_000)}`).error.code).toBe('rig/invalid');
  });

  it('may be no larger than 1 MB', () => {
    const { error, at } = problemsOf(`${REST}#${'x'.repeat(1_000_000)}`);
    expect(at).toEqual(['0:0']);
    expect(formatProblems(error)).toContain('rig.yaml: ');
  });
});
