import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { defaultRig } from '../../../../sim/rig/default-rig.ts';
import { sizePins } from '../../../../sim/sizing/pins/pins-size.ts';
import { pinsLines } from '../../../../workbench/cli/size/pins-lines.ts';
import { columnsOf } from '../../../../workbench/report/wrap.ts';

describe('the terminal’s lines on pins', () => {
  it('are the plan, the conflicts and the parts between wires', () => {
    const rig = defaultRig('esp32');
    rig.fingers.length = 2;
    rig.buttons = [12];
    expect(pinsLines(sizePins(rig), 80)).toEqual([
      'Pins',
      '  wire      pin',
      '  thumb     IO32',
      '  index     IO33',
      '  button 1  IO18  moves here from GPIO12',
      '  Mind: button 1 is on GPIO12, a strapping pin: the button held down at reset',
      '    can keep the board from starting: GPIO12 chooses the flash voltage at reset:',
      '    high there and the board does not start (micropython/micropython#6149).',
      '    Cure: move the wire to GPIO18, as in the plan.',
      '',
      'Wires',
      '  from                                     through  to',
      '  thumb, index: potentiometer, top end     5.6 kΩ   3V3',
      '  thumb, index: potentiometer, bottom end  1 kΩ     GND',
      '  thumb, index: wiper                      100 nF   GND',
      '  thumb, index: wiper                      100 kΩ   GND',
      '  Each button goes from its pin to GND; the pull-up is in the board.',
    ]);
  });

  it('say why a multiplexer is there, and what the timers cannot do', () => {
    const rig = defaultRig('esp32-c3');
    rig.brakes = { pins: [10, 6], stallA: 0.65, supply: 'own', hasCutOff: true };
    const text = pinsLines(sizePins(rig), 200).join('\n');
    expect(text).toMatch(/With a multiplexer of the 74HC4051 type, since 5 voltages are to be read/);
    expect(text).toMatch(/No timer for servo 2 at 50 Hz: .* has 1 on the ESP32-C3\. Cure: let digitalPulse/);
    expect(text).toMatch(/change in steps of 19\.5 µs/);
  });

  it('say why there is no plan', () => {
    const rig = defaultRig('esp32-c3');
    rig.joystick = { xPin: 0, yPin: 1 };
    rig.rail = { pin: 3, divider: 0.5 };
    expect(pinsLines(sizePins(rig, true), 80).join(' ')).toMatch(/No plan: even with a multiplexer/);
  });

  it('keep within the columns from 60 on', () => {
    fc.assert(
      fc.property(fc.integer({ min: 60, max: 120 }), fc.boolean(), (columns, isFull) => {
        const rig = defaultRig('esp32');
        if (isFull) {
          rig.joystick = { xPin: 27, yPin: 26 };
          rig.rail = { pin: 36, divider: 0.37 };
          rig.buttons = [18, 19, 12, 0];
          rig.brakes = { pins: [25, 26, 14, 21, 22], stallA: 0.65, supply: 'own', hasCutOff: true };
        }
        const lines = pinsLines(sizePins(rig, isFull), columns);
        expect(lines.filter((line) => columnsOf(line) > columns)).toEqual([]);
      }),
    );
  });
});
