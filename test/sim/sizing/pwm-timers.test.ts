import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BOARD_IDS } from '../../../firmware/boards/board.ts';
import { allocatePwm, checkPwmChannels, pwmClocks, pwmDivider } from '../../../sim/sizing/pins/pwm-timers.ts';

const servos = (pins: number[], frequencyHz = 50) =>
  pins.map((pin, i) => ({ what: `servo ${i + 1}`, pin, frequencyHz }));
const reasons = (refused: { reason: string }[]) => refused.map(({ reason }) => reason);

describe('frequency and resolution of a timer', () => {
  // espressif/arduino-esp32#9090: 100 kHz in 12 bits is refused with div_param=50
  it('are refused where the driver refuses them, by the same divider', () => {
    expect(pwmDivider(80e6, 1e5, 12)).toBe(50);
    expect(pwmClocks('esp32', 1e5, 12)).toEqual([]);
  });

  // LEDC page of ESP-IDF: 20 MHz in 3 bits is an error (div_param=128), in 2 bits it is not
  it('go to 20 MHz in 2 bits, not in 3', () => {
    expect(pwmDivider(80e6, 20e6, 3)).toBe(128);
    expect(pwmClocks('esp32', 20e6, 3)).toEqual([]);
    expect(pwmClocks('esp32', 20e6, 2)).toEqual([80e6]);
  });

  // espressif/arduino-esp32#11164: in 1 bit nothing below 489 Hz
  it('start at 489 Hz in 1 bit', () => {
    expect(pwmClocks('esp32', 488, 1)).toEqual([]);
    expect(pwmClocks('esp32', 489, 1)).toEqual([1e6]);
  });

  // 80 MHz / 2^10 = 78125 Hz; 80 MHz / (50 Hz * 1024) = 1562, above 1023: only the slow clock reaches 50 Hz
  it('of the interpreter go to 78125 Hz, and to 50 Hz by the slow clock', () => {
    expect(pwmClocks('esp32', 78_125, 10)).toEqual([80e6]);
    expect(pwmClocks('esp32', 78_200, 10)).toEqual([]);
    expect(pwmClocks('esp32', 50, 10)).toEqual([1e6]);
  });

  // esphome/issues#2751: 14 bits at most on the C3
  it('end at 14 bits on the smaller chips', () => {
    expect(pwmClocks('esp32-c3', 50, 15)).toEqual([]);
    expect(pwmClocks('esp32-c3', 50, 14)).not.toEqual([]);
  });
});

describe('timers as the interpreter gives them', () => {
  // jshardwarePWM.c of espruino/Espruino c5ff787: PWMMax 5, PWMFreqMax 3, timer 3 for 5 kHz, channel PWMMax + timer
  it('serve three servos on the original chip, each on a timer of its own', () => {
    const { slots, refused } = allocatePwm('esp32', servos([18, 19, 21, 22, 23]));
    expect(slots.map(({ pin, timer, channel }) => [pin, timer, channel])).toEqual([
      [18, 0, 5],
      [19, 1, 6],
      [21, 2, 7],
    ]);
    expect(reasons(refused)).toEqual([
      expect.stringMatching(/timer of its own, and has 3 on the ESP32/),
      expect.stringMatching(/timer of its own/),
    ]);
    expect(refused.every(({ softwareHelps }) => softwareHelps)).toBe(true);
  });

  // 1 / 50 Hz / 1024 = 19.53 us: 51 steps between 1000 and 2000 us
  it('move a servo in steps of 19.5 µs', () => {
    expect(allocatePwm('esp32', servos([18])).slots[0]!.stepUs).toBeCloseTo(19.53125, 6);
  });

  it('serve five pins at 5 kHz beside the servos, and no sixth', () => {
    const lamps = servos([13, 16, 17, 4, 27, 33], 5000);
    const { slots, refused } = allocatePwm('esp32', [...lamps, ...servos([18])]);
    expect(slots.map(({ timer, channel }) => [timer, channel])).toEqual([
      [3, 0],
      [3, 1],
      [3, 2],
      [3, 3],
      [3, 4],
      [0, 5],
    ]);
    expect(reasons(refused)).toEqual([expect.stringMatching(/5000 Hz to 5 pins at most/)]);
  });

  // six channels on the C3 (table in the documentation of espressif/arduino-esp32), five of them for 5 kHz
  it('serve one servo on a C3', () => {
    const { slots, refused } = allocatePwm('esp32-c3', servos([10, 6]));
    expect(slots.map(({ channel }) => channel)).toEqual([5]);
    expect(reasons(refused)).toEqual([expect.stringMatching(/has 1 on the ESP32-C3/)]);
  });

  // espressif/esp-idf#13769: 4 kHz in 10 bits and 50 Hz on two timers of an S3
  it('refuse two frequencies on an S3 that need two clocks; the original chip has both', () => {
    const two = [...servos([21], 4000), ...servos([47])];
    expect(reasons(allocatePwm('esp32-s3', two).refused)).toEqual([
      expect.stringMatching(/count one clock.*40 MHz for 50 Hz but 80 MHz for 4000 Hz.*esp-idf#13769/),
    ]);
    expect(allocatePwm('esp32', [...servos([21], 4000), ...servos([22])]).refused).toEqual([]);
  });

  it.each([
    [25, /digital-to-analog.*our choice/],
    [34, /no output driver/],
  ])('refuse GPIO%i', (pin, reason) => {
    const { slots, refused } = allocatePwm('esp32', servos([pin]));
    expect(slots).toEqual([]);
    expect(reasons(refused)).toEqual([expect.stringMatching(reason)]);
  });

  it('refuse a frequency out of reach, and a pin twice', () => {
    expect(reasons(allocatePwm('esp32', servos([18], 1e6)).refused)).toEqual([
      expect.stringMatching(/1000000 Hz at 10 bits is out of the timers’ reach/),
    ]);
    expect(reasons(allocatePwm('esp32', servos([18, 18])).refused)).toEqual([
      expect.stringMatching(/GPIO18 sends pulses already/),
    ]);
  });
});

describe('channels that a program names itself', () => {
  const two = (a: number, b: number, hz: [number, number]) =>
    checkPwmChannels(
      'esp32',
      [
        { what: 'servo', pin: 18, frequencyHz: hz[0], channel: a },
        { what: 'tone', pin: 19, frequencyHz: hz[1], channel: b },
      ],
      10,
    );

  // wokwi/wokwi-features#731: 50 Hz and 123 Hz on channels 0 and 1 come out the same, on 0 and 2 they do not
  it('clash at two frequencies on one pair, and only then', () => {
    expect(reasons(two(0, 1, [50, 123]).refused)).toEqual([
      expect.stringMatching(/channels 0 and 1 share a timer.*123 or 50 Hz.*wokwi-features#731/),
    ]);
    expect(two(0, 2, [50, 123]).refused).toEqual([]);
    expect(two(0, 1, [50, 50]).slots.map(({ timer }) => timer)).toEqual([0, 0]);
  });

  // the first chip has two groups of eight channels with four timers each: espressif/arduino-esp32#8967 parts its two
  // frequencies by channels 1 and 9
  it('are apart in the two groups of the original chip', () => {
    expect(two(1, 9, [2000, 440]).slots.map(({ timer }) => timer)).toEqual([0, 4]);
    expect(reasons(two(0, 16, [50, 50]).refused)).toEqual([
      expect.stringMatching(/no channel 16: they are 0 to 15/),
    ]);
  });

  it('never share a timer at two frequencies, whatever is asked for', () => {
    const output = fc.record({
      what: fc.constant('any'),
      pin: fc.constantFrom(4, 13, 16, 17, 18, 19, 21, 22, 23),
      frequencyHz: fc.constantFrom(50, 100, 1000, 5000),
      channel: fc.integer({ min: -1, max: 17 }),
    });
    fc.assert(
      fc.property(fc.constantFrom(...BOARD_IDS), fc.array(output, { maxLength: 12 }), (board, outputs) => {
        for (const { slots, refused } of [
          checkPwmChannels(board, outputs, 10),
          allocatePwm(board, outputs),
        ]) {
          expect(slots.length + refused.length).toBe(outputs.length);
          const byTimer = new Map<number, number>();
          for (const { timer, frequencyHz } of slots) {
            expect(byTimer.get(timer) ?? frequencyHz).toBe(frequencyHz);
            byTimer.set(timer, frequencyHz);
          }
        }
      }),
    );
  });
});
