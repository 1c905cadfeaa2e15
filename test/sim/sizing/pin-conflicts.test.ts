import { describe, expect, it } from 'vitest';
import type { BoardId } from '../../../firmware/boards/board.ts';
import { defaultRig } from '../../../sim/rig/default-rig.ts';
import type { Rig } from '../../../sim/rig/rig.ts';
import { verdictOf } from '../../../sim/sizing/margin.ts';
import { pinConflicts } from '../../../sim/sizing/pins/pin-conflicts.ts';
import { sizePins } from '../../../sim/sizing/pins/pins-size.ts';

function rigWith(change: (rig: Rig) => void, board: BoardId = 'esp32', fingers = 3): Rig {
  const rig = defaultRig(board);
  rig.fingers.length = fingers;
  change(rig);
  return rig;
}

/** What the margins of the pins say about one thing, failing or dangerous only. */
function said(rig: Rig, what: string): string[] {
  return sizePins(rig)
    .margins.filter((margin) => margin.what === what && verdictOf(margin) !== 'ok')
    .map((margin) => `${verdictOf(margin)}: ${margin.seen} -> ${margin.cure}`);
}

describe('a pin conflict', () => {
  // espressif/arduino-esp32#440 and #1152: 4095 on ADC2 once Wi-Fi is on; GPIO4 is channel 0 of ADC2, as 36 is of ADC1
  it('of the radio names ADC2, the reading of 4095 and an ADC1 pin', () => {
    const rig = rigWith((r) => {
      r.fingers[1]!.pin = 4;
    });
    expect(said(rig, 'the pin of the index finger')).toEqual([
      expect.stringMatching(
        /^no: GPIO4, on ADC2.*radio.*GPIO36 in its place.*4095.*arduino-esp32#440.*-> .*GPIO33/,
      ),
    ]);
    expect(pinConflicts(rig)[0]).toMatchObject({ kind: 'radio', isError: true, finger: 'index' });
  });

  it('of GPIO12 names the flash voltage', () => {
    const rig = rigWith((r) => {
      r.buttons = [12];
    });
    expect(said(rig, 'the pin of button 1')).toEqual([
      expect.stringMatching(/^tight: GPIO12, a strapping pin.*flash voltage.*micropython#6149.*-> .*GPIO18/),
    ]);
  });

  it.each([36, 39])('of GPIO%i names the dips, and the cure by what the build has', (pin) => {
    const bare = rigWith((r) => {
      r.fingers[0]!.pin = pin;
      r.fingers[0]!.wiring.capacitorF = 0;
    });
    const dips = new RegExp(`^tight: GPIO${pin}, .*pulls low.*esp-idf#1096`);
    const what = 'the pin of the thumb finger';
    expect(said(bare, what)).toEqual([expect.stringMatching(dips)]);
    expect(said(bare, what)[0]).toMatch(/-> move the wire to GPIO32, as in the plan$/);
    const crowded = rigWith(
      (r) => {
        r.fingers.forEach((finger, i) => {
          finger.pin = [pin, 32, 33, 34, 35][i]!;
        });
      },
      'esp32',
      5,
    );
    expect(said(crowded, what)).toEqual([
      expect.stringMatching(
        /-> turn the radio off, and keep 100 nF .*32, 33, 34, 35.*the capacitor there takes most/,
      ),
    ]);
  });

  // a pull of 7.6 kOhm for 80 ns: 2.45 V / 7.6 kOhm * 80 ns / 64 nF = 0.4 mV, half a count of 3.3 V / 4096
  it('that dips weighs less with a capacitor that carries the pin', () => {
    const ratioWith = (capacitorF: number) =>
      sizePins(
        rigWith((r) => {
          Object.assign(r.fingers[0]!, { pin: 36 });
          r.fingers[0]!.wiring.capacitorF = capacitorF;
        }),
      ).margins.find(({ what }) => what === 'the pin of the thumb finger')!.ratio;
    expect(ratioWith(47e-9)).toBeLessThan(1);
    expect(ratioWith(68e-9)).toBe(1);
  });

  it.each([34, 35, 36, 37, 38, 39])('of an output on GPIO%i, which has no driver, is an error', (pin) => {
    for (const change of [
      (r: Rig) => {
        r.frameLink = { txPin: pin, baud: 230_400 };
      },
      (r: Rig) => {
        r.brakes = { pins: [pin], stallA: 0.65, supply: 'own', hasCutOff: true };
      },
    ]) {
      const [conflict] = pinConflicts(rigWith(change, 'esp32', 2));
      expect(conflict).toMatchObject({ kind: 'input-only', isError: true, pin });
      expect(conflict!.cure).toMatch(/GPIO18/);
    }
  });

  it.each([
    ['flash', 'esp32', 8, true],
    ['console', 'esp32', 1, true],
    ['usb', 'esp32-c3', 18, false],
    ['strapping', 'esp32-c3', 9, false],
    ['input-only', 'esp32', 39, false],
    ['not brought out', 'esp32', 20, false],
  ] as const)('of the kind %s is told of a button on the %s', (kind, board, pin, isError) => {
    const rig = rigWith(
      (r) => {
        r.buttons = [pin];
      },
      board,
      2,
    );
    expect(pinConflicts(rig)).toEqual([expect.objectContaining({ kind, isError, owner: 'button 1', pin })]);
  });

  it.each([
    ['converter', 25],
    ['boot level', 14],
  ] as const)('of the kind %s is told of a servo', (kind, pin) => {
    const rig = rigWith((r) => {
      r.brakes = { pins: [pin], stallA: 0.65, supply: 'own', hasCutOff: true };
    });
    expect(pinConflicts(rig)).toEqual([expect.objectContaining({ kind, isError: false, owner: 'brake 1' })]);
  });

  it('of one pin for two wires names the first', () => {
    const rig = rigWith((r) => {
      r.fingers[2]!.pin = 32;
    });
    expect(said(rig, 'the pin of the middle finger')).toEqual([
      expect.stringMatching(/^no: GPIO32, the pin of the thumb finger.*-> move the wire to GPIO34/),
    ]);
  });

  // ESP32-C3 data sheet: GPIO2 is a strapping pin; of 0 to 4 on ADC1 five potentiometers take all
  it('on a C3 with five potentiometers is the strapping pin 2, with the multiplexer as cure', () => {
    const conflicts = pinConflicts(defaultRig('esp32-c3'), sizePins(defaultRig('esp32-c3')).proposal.plan);
    expect(conflicts).toHaveLength(1);
    expect(conflicts[0]).toMatchObject({ kind: 'strapping', pin: 2, isError: false });
    expect(conflicts[0]!.reason).toMatch(/high at reset/);
    expect(conflicts[0]!.cure).toMatch(/input Y\d of the plan’s multiplexer/);
  });

  it('is none on four strings of the original chip', () => {
    const { conflicts, margins } = sizePins(rigWith(() => undefined, 'esp32', 4));
    expect(conflicts).toEqual([]);
    expect(margins.map(verdictOf)).toEqual(['ok']);
  });
});

describe('the margins of the pins', () => {
  // the interpreter's build for the S3 declares no analog pins (read in espruino/Espruino c5ff787)
  it('fail on a board that reads no voltage, and warn of one with wrong readings on record', () => {
    const onBoard = (board: BoardId) =>
      sizePins(rigWith(() => undefined, board, 2)).margins.find(({ what }) => what === 'the board');
    expect(verdictOf(onBoard('esp32-s3')!)).toBe('no');
    expect(onBoard('esp32-s3')!.cure).toMatch(/board: esp32.*every read gives NaN/);
    expect(verdictOf(onBoard('esp32-c3')!)).toBe('tight');
    expect(onBoard('esp32')).toBeUndefined();
  });

  it('fail when there is no plan', () => {
    const rig = defaultRig('esp32-c3');
    rig.joystick = { xPin: 0, yPin: 1 };
    rig.rail = { pin: 3, divider: 0.5 };
    const { margins } = sizePins(rig, true);
    expect(margins.find(({ what }) => what === 'a pin for every wire')).toMatchObject({
      ratio: 0,
      isSoft: false,
    });
  });

  it('tell of five servos that the interpreter has three timers, and leave it at that', () => {
    const rig = rigWith((r) => {
      r.brakes = { pins: [18, 19, 21, 22, 23], stallA: 0.65, supply: 'own', hasCutOff: true };
    });
    const { margins, pwm } = sizePins(rig);
    expect(pwm!.slots.map(({ pin }) => pin)).toEqual([18, 19, 21]);
    const timers = margins.find(({ what }) => what === 'servos at 50 Hz')!;
    expect(timers.ratio).toBe(0.6);
    expect(verdictOf(timers)).toBe('tight');
    expect(timers.cure).toMatch(/digitalPulse/);
  });
});
