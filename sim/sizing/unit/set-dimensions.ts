import { FINGER_NAMES, type Finger, type FingerName, type Rig } from '../../rig/rig.ts';
import { type FingerDimensions, fingerDimensions } from './finger-dimensions.ts';
import { type PlateDimensions, plateDimensions } from './plate-dimensions.ts';
import { type UnitChoices, type UnitDimensions, USUAL_CHOICES, unitDimensions } from './unit-dimensions.ts';

/** Everything that is printed for one hand. */
export interface SetDimensions {
  side: Rig['hand']['side'];
  choices: UnitChoices;
  /** In their order across the hand, left to right seen from the wrist. */
  units: { finger: FingerName; unit: UnitDimensions }[];
  plate: PlateDimensions;
  /** In the order of the units. */
  fingers: FingerDimensions[];
}

/** @param largest size of the largest hand that the spools must serve, 1 = the published mean */
export function setDimensions(
  rig: Rig,
  largest: number,
  choices: UnitChoices = USUAL_CHOICES,
): SetDimensions {
  const order = acrossHand(rig);
  const units = order.map((finger) => ({
    finger: finger.name,
    unit: unitDimensions(rig, finger, largest, choices),
  }));
  return {
    side: rig.hand.side,
    choices,
    units,
    plate: plateDimensions(units.map(({ unit }) => unit)),
    fingers: order.map((finger) => fingerDimensions(rig, finger)),
  };
}

/** Back of the hand up, fingers ahead: the thumb is on the left of a right hand. Units serve either hand. */
function acrossHand(rig: Rig): Finger[] {
  const sign = rig.hand.side === 'right' ? 1 : -1;
  return [...rig.fingers].sort(
    (a, b) => sign * (FINGER_NAMES.indexOf(a.name) - FINGER_NAMES.indexOf(b.name)),
  );
}
