import type { Finger, Rig } from '../../../sim/rig/rig.ts';
import { strokeMm } from '../../../sim/sizing/strings/stroke.ts';
import { cornerVolts, dividerOf } from '../../../sim/sizing/wiring/corners.ts';
import { spoolTurnDeg } from '../../../sim/spool/winding.ts';
import { fingerWords } from '../words.ts';

/** Order of assembly for this rig: electrics before strings, one finger before five. */
export function assemblySteps(rig: Rig): string[] {
  const first = rig.fingers.find(({ name }) => name === 'index') ?? rig.fingers[0]!;
  const steps = [
    'Print or make spools, holders, guides and plate; take off every burr where a string runs. Turn each potentiometer through its whole travel: set stiff ones aside.',
    `Solder board, resistors and capacitors on the strip board by the wiring table${rig.multiplexer ? ', the multiplexer too' : ''}. No strings yet.`,
    'Before any power: look at every joint, then make sure with a meter that supply and ground are not shorted.',
    `Test the electrics alone, board on USB: turn each shaft by hand from end to end. Its pin must move smoothly and stay between ${voltWords(rig)}. Then load the program: tautline bundle, tautline load.`,
    `Build one finger first, the ${fingerWords(first.name)}: fix the guides, wind up the spring by its preload (it can fly out: eye protection), and set the spool so that the open hand leaves ${freeDeg(rig, first)}° to the potentiometer’s end stop: the stroke then lies in the middle of its travel.`,
    'Tie the string with its quick release nearest to the finger. Close the hand fully: the shaft must not reach the other stop, and the spool must wind in all the way on its own.',
    'Wear that finger for ten minutes. If it tires, pinches or leaves slack, change preload or guides now, then copy the result to the others, one finger at a time.',
    'Fix the plate with the strap so that one pull opens it. Hold all cables along the forearm, with a loop of slack at the wrist and strain relief at the plate.',
  ];
  const inputs = [rig.joystick && 'joystick', rig.buttons && 'buttons'].filter((name) => name !== undefined);
  if (inputs.length > 0) steps.push(`Add ${inputs.join(' and ')}, and test each.`);
  if (rig.brakes) {
    steps.push(
      'Brakes come last and off the hand: with power cut, every string must run free. Do not wear them until that holds each time.',
    );
  }
  if (rig.cell)
    steps.push(
      'Go over to the cell only when everything works on USB; check its polarity before plugging it in.',
    );
  steps.push(
    rig.settings
      ? 'Record the noise of your build at rest and choose settings again: tautline choose.'
      : 'Choose settings, best with a recording of your build at rest: tautline choose.',
  );
  return steps;
}

/** Angle that a stroke in the middle leaves to either stop, deg. */
function freeDeg(rig: Rig, finger: Finger): string {
  const { mechanicalTravelDeg } = finger.potentiometer;
  const stroke = strokeMm(rig, finger, rig.hand.scale);
  const strokeDeg = spoolTurnDeg(stroke, finger.spoolRadiusMm, finger.stringDiameterMm);
  return Math.max(0, (mechanicalTravelDeg - strokeDeg) / 2).toFixed(0);
}

/** Range of the pins over all tolerances and all fingers. */
function voltWords(rig: Rig): string {
  const corners = rig.fingers.map((finger) =>
    cornerVolts({ ...dividerOf(rig, finger), supplyTolerance: rig.supply.tolerance }),
  );
  const low = Math.min(...corners.map(({ lowestV }) => lowestV));
  const high = Math.max(...corners.map(({ highestV }) => highestV));
  return `${low.toFixed(2)} and ${high.toFixed(2)} V`;
}

/** What can hurt, as heading and advice. */
export function cautions(rig: Rig): [what: string, advice: string][] {
  const all: [string, string][] = [
    [
      'Soldering',
      'Air the room or draw the fumes off. Wear eye protection. The tip burns at once: use a stand and a heat-proof mat. Unplug the board first; wash your hands afterwards.',
    ],
    [
      'Strings',
      'Never loop or knot a string tightly round a finger: use a wide, soft cap. Every string has a quick release that opens under a hard pull. Stop if a finger hurts, tingles or turns pale.',
    ],
    [
      'Cables in VR',
      'Who wears a headset sees no cables: lead them along the arm and up the back, none on the floor, with a plug that pulls apart. Clear the room, and have someone near.',
    ],
    [
      rig.cell ? 'The cell' : 'If you add a cell',
      'Lithium cells only with a protection circuit, charged by a certified charger made for them. Never charge while worn or unattended. No puncture, heat, bending, short or soldering on the cell. A swollen cell goes out of use.',
    ],
  ];
  if (rig.brakes) {
    all.push([
      'Brakes',
      'A stop must be held open by a spring and let go without power. Never brake at power-up. Keep a pull-tab within reach of the other hand. Not for children or impaired hands.',
    ]);
  }
  all.push([
    'Who decides',
    'Local rules come first, and so does the word of people qualified in electrics and health. This sheet is worked out from a model; nothing on it was measured on your build.',
  ]);
  return all;
}
