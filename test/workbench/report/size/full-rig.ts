import type { Rig } from '../../../../sim/rig/rig.ts';
import { parseRig } from '../../../../workbench/rig/read-rig.ts';

/** The invented theatre's dragon: everything that a rig may have, no two fingers alike, a name as long as may be. */
const TEXT = `
name: Community puppet theatre (invented), the great dragon's right hand in the finale
hand: {size: 1.1}
multiplexer: {select: [25, 26, 27], signal: 32}
joystick: {x: 33, y: 34}
rail: {pin: 35, divider: 47 %}
buttons: [13, 14, 16, 17]
frameLink: {tx: 18, baud: 230400}
cell: {capacity: 1200 mAh}
budget: 90
brakes: {pins: [19, 21, 22, 23, 4], stallCurrent: 650 mA, supply: own, supplyCurrent: 4 A, capacitor: 1000 uF, clutch: 10 N, cutOff: yes}
eachFinger:
  guides: [{wrap: 90, friction: 0.08}, {wrap: 60, friction: 0.12}, {wrap: 45, friction: 0.1}]
fingers:
  thumb: {channel: 0, wiring: {top: 4k7, bottom: 820}, potentiometer: {resistance: 4.7k}, spring: {openTorque: 4}, spool: {string: 0.25}}
  index: {channel: 1, wiring: {top: 5k1, bottom: 910, tolerance: 1 %}}
  middle: {channel: 2, wiring: {top: 5k6, bottom: 1k, pullDown: 220k, capacitor: 47 nF}, potentiometer: {ratedCycles: 100000}}
  ring: {channel: 3, wiring: {top: 6k2, bottom: 1k2}, spool: {string: 0.4 mm}}
  little: {channel: 4, wiring: {top: 6k8, bottom: 1k5, capacitor: 220 nF}, potentiometer: {mechanicalTravel: 1080, electricalTravel: 1070}}
settings:
  oversampling: 8
  despike: {kind: clip, limit: 20 %}
  lowPass: {kind: oneEuro, minCutoff: 1.5 Hz, beta: 0.7, speedCutoff: 1 Hz}
  hysteresis: {kind: drag, width: 0.8 %, still: 0.4 %}
`;

export function fullRig(): Rig {
  return parseRig(TEXT, 'full.yaml').rig;
}
