import { describe, expect, it } from 'vitest';
import { BOARD_IDS } from '../../../firmware/boards/board.ts';
import { boardFacts } from '../../../firmware/boards/boards.ts';
import { bundleProblem } from '../../../firmware/boards/bundle-problem.ts';
import { type Problem, TautlineError } from '../../../sim/errors.ts';
import { defaultRig } from '../../../sim/rig/default-rig.ts';
import { freePin } from '../../../sim/sizing/pins/pin-rules.ts';
import { newRigText } from '../../../workbench/rig/new-rig.ts';
import { parseRig } from '../../../workbench/rig/read-rig.ts';

const INDEX = 'fingers: {index: {pin: 33}}\n';

function look(text: string): { errors: Problem[]; warnings: Problem[] } {
  try {
    return { errors: [], warnings: parseRig(text, 'rig.yaml').warnings };
  } catch (error) {
    if (!(error instanceof TautlineError)) throw error;
    return { errors: error.problems, warnings: [] };
  }
}

const brief = ({ line, column, seen, next }: Problem) => `${line}:${column} ${seen} -> ${next}`;

describe('a pin that a wire cannot go to', () => {
  // title, file, place by hand, seen, what to do (with the pin proposed)
  const REFUSED: [string, string, string, RegExp, RegExp][] = [
    [
      'ADC2, which the interpreter takes for another pin',
      'fingers: {index: {pin: 4}}\n',
      '1:24',
      /fingers\.index\.pin is 4, on ADC2/,
      /GPIO32, which is free: the interpreter would read GPIO36 in its place/,
    ],
    ['ADC2 that cannot be read', 'fingers: {index: {pin: 25}}\n', '1:24', /25, on ADC2/, /GPIO32/],
    ['the flash memory', 'fingers: {index: {pin: 8}}\n', '1:24', /8, a line of the flash/, /GPIO32/],
    [
      'ADC2 for a joystick',
      `${INDEX}joystick: {x: 32, y: 27}\n`,
      '2:22',
      /joystick\.y is 27, on ADC2/,
      /GPIO34, which is free: the interpreter would read GPIO35/,
    ],
    [
      'ADC2 for the rail',
      `${INDEX}rail: {pin: 2, divider: 50 %}\n`,
      '2:13',
      /rail\.pin is 2, on ADC2/,
      /GPIO32, which is free: the interpreter would read GPIO38/,
    ],
    [
      'ADC2 for the signal of a multiplexer',
      'fingers: {index: {channel: 0}}\nmultiplexer: {select: [18, 19, 21], signal: 14}\n',
      '2:45',
      /multiplexer\.signal is 14, on ADC2/,
      /GPIO32, which is free: the interpreter would read GPIO34/,
    ],
    [
      'an input-only pin for a select line',
      'fingers: {index: {channel: 0}}\nmultiplexer: {select: [18, 34, 21], signal: 32}\n',
      '2:28',
      /multiplexer\.select\[1\] is 34, which can only be an input/,
      /GPIO19, which is free: it has no driver/,
    ],
    [
      'the flash memory for a select line',
      'fingers: {index: {channel: 0}}\nmultiplexer: {select: [6, 19, 21], signal: 32}\n',
      '2:24',
      /select\[0\] is 6, a line of the flash memory/,
      /GPIO18/,
    ],
    [
      'the console for a button',
      `${INDEX}buttons: [18, 3]\n`,
      '2:15',
      /buttons\[1\] is 3, a line of the console/,
      /GPIO19/,
    ],
    [
      'a button on a finger’s pin',
      `${INDEX}buttons: [33]\n`,
      '2:11',
      /buttons\[0\] is 33, the pin of the index finger \(line 1\)/,
      /GPIO18/,
    ],
    [
      'one pin for both axes',
      `${INDEX}joystick: {x: 32, y: 32}\n`,
      '2:22',
      /joystick\.y is 32, the pin of the joystick’s x axis \(line 2\)/,
      /GPIO34/,
    ],
    [
      'a finger on a multiplexer that is not there',
      'fingers: {index: {channel: 0}}\n',
      '1:28',
      /channel is 0, but there is no multiplexer/,
      /add "multiplexer:"/,
    ],
    [
      'two fingers on one input',
      'fingers: {index: {channel: 2}, ring: {channel: 2}}\nmultiplexer: {select: [18, 19, 21], signal: 32}\n',
      '1:48',
      /ring\.channel is 2, the input of the index finger \(line 1\)/,
      /another input/,
    ],
    [
      'a pin beside an input',
      'fingers: {index: {pin: 33, channel: 2}}\nmultiplexer: {select: [18, 19, 21], signal: 32}\n',
      '1:37',
      /channel is 2, beside pin 33/,
      /remove one/,
    ],
    [
      'a ninth input',
      'fingers: {index: {channel: 8}}\nmultiplexer: {select: [18, 19, 21], signal: 32}\n',
      '1:28',
      /channel is "8"/,
      /digits/,
    ],
    ['five buttons', `${INDEX}buttons: [18, 19, 21, 22, 23]\n`, '2:10', /buttons is/, /at most 4/],
    [
      'two select lines',
      `${INDEX}multiplexer: {select: [18, 19], signal: 32}\n`,
      '2:23',
      /select is/,
      /exactly 3/,
    ],
    ['a joystick without y', `${INDEX}joystick: {x: 32}\n`, '2:1', /joystick has no "y"/, /add "y"/],
    [
      'an input-only pin for the second serial port',
      `${INDEX}frameLink: {tx: 34, baud: 230400}\n`,
      '2:17',
      /frameLink\.tx is 34, which can only be an input/,
      /GPIO18, which is free: it has no driver/,
    ],
    [
      'the console’s own line for the second serial port',
      `${INDEX}frameLink: {tx: 1, baud: 230400}\n`,
      '2:17',
      /frameLink\.tx is 1, a line of the console/,
      /GPIO18/,
    ],
    // jshardwareUart.c of espruino/Espruino c5ff787 takes GPIO5 as Serial2's input when none is named
    [
      'a button on the second serial port’s input',
      `${INDEX}buttons: [5]\nframeLink: {tx: 17, baud: 230400}\n`,
      '2:11',
      /buttons\[0\] is 5, the pin of the second serial port’s input, which the interpreter takes \(line 3\)/,
      /GPIO18/,
    ],
    [
      'the second serial port’s output on its input',
      `${INDEX}frameLink: {tx: 5, baud: 230400}\n`,
      '2:17',
      /frameLink\.tx is 5, the pin of the second serial port’s input/,
      /GPIO18/,
    ],
    [
      'a rate that no port has',
      `${INDEX}frameLink: {tx: 17, baud: 3000000}\n`,
      '2:27',
      /baud is "3000000"/,
      /digits/,
    ],
    [
      'a second serial port without a rate',
      `${INDEX}frameLink: {tx: 17}\n`,
      '2:1',
      /no "baud"/,
      /add "baud"/,
    ],
    ['a divider of nothing', `${INDEX}rail: {pin: 32, divider: 0}\n`, '2:26', /divider is "0"/, /check/],
  ];
  it.each(REFUSED)('is refused by name: %s', (_title, text, place, seen, next) => {
    const { errors } = look(text);
    expect(errors.map(({ line, column }) => `${line}:${column}`)).toEqual([place]);
    expect(errors[0]!.seen).toMatch(seen);
    expect(errors[0]!.next).toMatch(next);
  });

  it.each([
    [
      'strapping, driving a select line',
      'fingers: {index: {channel: 0}}\nmultiplexer: {select: [18, 12, 21], signal: 32}\n',
      /^2:28 multiplexer\.select\[1\] is 12, a strapping pin -> move the wire to GPIO19.*flash voltage/,
    ],
    [
      'strapping, with a button',
      `${INDEX}buttons: [0]\n`,
      /^2:11 buttons\[0\] is 0, a strapping pin -> move the wire to GPIO18.*held down/,
    ],
    [
      'without a pull-up, with a button',
      `${INDEX}buttons: [39]\n`,
      /^2:11 buttons\[0\] is 39, which has no pull-up -> move the wire to GPIO18.*10 kΩ/,
    ],
    // jshardware.c of espruino/Espruino c5ff787: analogWrite on 25 and 26 goes to the converter
    [
      'of the converter, with a servo',
      `${INDEX}brakes: {pins: [25], stallCurrent: 0.65 A, supply: own, supplyCurrent: 2 A, clutch: 8 N, cutOff: yes}\n`,
      /^2:17 brakes\.pins\[0\] is 25, a pin of the digital-to-analog converter -> move the wire to GPIO18.*no pulses/,
    ],
    [
      'that sends pulses at start-up, with a servo',
      `${INDEX}brakes: {pins: [14], stallCurrent: 0.65 A, supply: own, supplyCurrent: 2 A, clutch: 8 N, cutOff: yes}\n`,
      /^2:17 brakes\.pins\[0\] is 14, which sends pulses of its own.*before any program runs/,
    ],
    [
      'that the module does not have',
      `${INDEX}buttons: [20]\n`,
      /^2:11 buttons\[0\] is 20, which is not known to be brought out/,
    ],
  ])('is warned of: %s', (_title, text, expected) => {
    const { errors, warnings } = look(text);
    expect(errors).toEqual([]);
    expect(warnings.map(brief)).toEqual([expect.stringMatching(expected)]);
  });

  it('on a USB line or a strapping pin of a C3 is warned of', () => {
    const { errors, warnings } = look('board: esp32-c3\nfingers: {index: {pin: 2}}\nbuttons: [18, 9, 10]\n');
    expect(errors).toEqual([]);
    expect(warnings.map(brief).slice(1)).toEqual([
      expect.stringMatching(/^2:24 fingers\.index\.pin is 2, a strapping pin -> move the wire to GPIO0, /),
      expect.stringMatching(/^3:11 buttons\[0\] is 18, a line of the USB port -> move the wire to GPIO6, /),
      expect.stringMatching(/^3:15 buttons\[1\] is 9, a strapping pin -> move the wire to GPIO7, /),
    ]);
  });

  it('gets another proposal for each wire, and the multiplexer when none is left', () => {
    const fingers = ['thumb', 'index', 'middle', 'ring', 'little'];
    const wrong = fingers.map((name, i) => `  ${name}: {pin: ${[13, 14, 25, 26, 27][i]}}`).join('\n');
    const { errors } = look(`fingers:\n${wrong}\njoystick: {x: 0, y: 2}\nrail: {pin: 4, divider: 0.5}\n`);
    const proposed = errors.map(({ next }) => /GPIO(\d+), which is free/.exec(next)?.[1]);
    expect(proposed).toEqual(['32', '33', '34', '35', '36', '39', '37', '38']);
    const c3 =
      'board: esp32-c3\nfingers: {thumb: {pin: 0}, index: {pin: 1}, middle: {pin: 3}, ring: {pin: 4}, little: {pin: 5}}\n';
    expect(look(c3).errors.map(({ next }) => next)).toEqual([
      'no ADC1 pin is free, a multiplexer makes eight of one',
    ]);
  });

  it('of another board than is readable is not judged', () => {
    expect(look('board: esp23\nfingers: {index: {pin: 4}}\n').errors.map(({ line }) => line)).toEqual([1]);
  });
});

describe('every pin of every board', () => {
  it('that is proposed is none that would be refused or warned of', () => {
    for (const board of BOARD_IDS) {
      const facts = boardFacts(board);
      const taken = new Set<number>();
      for (const role of ['analog', 'select', 'transmit', 'button'] as const) {
        for (;;) {
          const pin = freePin(facts, role, taken);
          if (pin === undefined) break;
          taken.add(pin);
          const bad = [
            ...facts.flashPins,
            ...facts.strappingPins,
            ...facts.usbPins,
            ...facts.consolePins,
            ...(role === 'analog' ? facts.adc2Pins : facts.inputOnlyPins),
          ];
          expect(bad).not.toContain(pin);
        }
      }
      expect(taken.size).toBeGreaterThanOrEqual(8);
    }
  });

  // Channel n of ADC2 is read as channel n of ADC1. ADC1 0-7: 36 37 38 39 32 33 34 35; ADC2 0-7: 4 0 2 15 13 12 14 27
  // (ESP32 datasheet, table of the ADC channels).
  it('that the interpreter mistakes is on record with what it reads instead', () => {
    const adc1 = [36, 37, 38, 39, 32, 33, 34, 35];
    const adc2 = [4, 0, 2, 15, 13, 12, 14, 27];
    expect(boardFacts('esp32').aliasedPins).toEqual(Object.fromEntries(adc2.map((pin, n) => [pin, adc1[n]])));
  });
});

describe('a rig with more than strings', () => {
  it('is read', () => {
    const { rig, warnings } = parseRig(
      'fingers: {index: {channel: 3}, ring: {channel: 0}, thumb: {pin: 35}}\n' +
        'joystick: {x: GPIO33, y: 34}\nbuttons: [22, GPIO23]\nrail: {pin: 36, divider: 50 %}\n' +
        'multiplexer: {select: [18, 19, 21], signal: 32}\nframeLink: {tx: GPIO17, baud: 460800}\n' +
        'watchdog: 2500 ms\ndummyRead: true\n',
      'rig.yaml',
    );
    expect(warnings).toEqual([]);
    expect(rig.frameLink).toEqual({ txPin: 17, baud: 460_800 });
    expect(rig.watchdogS).toBe(2.5);
    expect(rig.dummyRead).toBe(true);
    expect(rig.joystick).toEqual({ xPin: 33, yPin: 34 });
    expect(rig.buttons).toEqual([22, 23]);
    expect(rig.rail).toEqual({ pin: 36, divider: 0.5 });
    expect(rig.multiplexer).toEqual({ selectPins: [18, 19, 21], signalPin: 32 });
    expect(rig.fingers.map(({ name, pin, channel }) => [name, pin, channel])).toEqual([
      ['thumb', 35, undefined],
      ['index', 32, 3],
      ['ring', 32, 0],
    ]);
  });

  it('has none of it unless the file says so', () => {
    const keys = Object.keys(parseRig(INDEX, 'rig.yaml').rig);
    expect(keys).toEqual(Object.keys(defaultRig()));
    expect(Object.keys(parseRig(INDEX, 'rig.yaml').rig.fingers[0]!)).not.toContain('channel');
  });

  it.each(BOARD_IDS)('is offered in comments by a new file, with pins that are right on the %s', (board) => {
    const plain = newRigText({ board });
    const full = plain.replace(
      /^# (joystick|rail|buttons|frameLink|watchdog|dummyRead|multiplexer): /gm,
      '$1: ',
    );
    const { errors, warnings } = look(full.replace(/^multiplexer: .*$/m, ''));
    expect(errors).toEqual([]);
    expect(warnings.filter(({ seen }) => !/^board |fingers\.\w+\.pin is 2/.test(seen))).toEqual([]);
    expect(full.match(/^(joystick|rail|buttons|multiplexer): /gm)).toHaveLength(board === 'esp32-c3' ? 2 : 4);
    // The second serial port listens on GPIO5: a string of the S3, the only button of the C3.
    expect(full.match(/^(frameLink|watchdog|dummyRead): /gm)).toHaveLength(board === 'esp32' ? 3 : 2);
    const onMultiplexer = full
      .replace(/^ {2}(\w+): \{pin: \d+\}$/gm, (_line, name: string) => {
        const channel = ['thumb', 'index', 'middle', 'ring', 'little'].indexOf(name);
        return `  ${name}: {channel: ${channel}}`;
      })
      .replace(/^buttons: .*$/m, '');
    expect(look(onMultiplexer).errors).toEqual([]);
  });
});

describe('a program for a board', () => {
  it('is refused for the S3, whose build of the interpreter declares no analog pins', () => {
    expect(bundleProblem('esp32')).toBeUndefined();
    expect(bundleProblem('esp32-c3')).toBeUndefined();
    expect(bundleProblem('esp32-s3')!.seen).toMatch(/esp32-s3: .*declares no analog pins/);
    expect(bundleProblem('esp32-s3')!.next).toMatch(/board: esp32/);
  });
});
