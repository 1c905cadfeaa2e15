import type { Finger, FingerName, Rig } from '../rig/rig.ts';

/** Values of a finger that `size` may propose to change; each is a number in the unit of the rig. */
export const CHANGEABLE = {
  spoolRadius: {
    get: (finger: Finger) => finger.spoolRadiusMm,
    set: (finger: Finger, value: number) => {
      finger.spoolRadiusMm = value;
    },
  },
  springOpenTorque: {
    get: (finger: Finger) => finger.spring.openTorqueMNm,
    set: (finger: Finger, value: number) => {
      finger.spring.openTorqueMNm = value;
    },
  },
  springPerTurn: {
    get: (finger: Finger) => finger.spring.perTurnMNm,
    set: (finger: Finger, value: number) => {
      finger.spring.perTurnMNm = value;
    },
  },
  potentiometerDrag: {
    get: (finger: Finger) => finger.potentiometer.dragMNm,
    set: (finger: Finger, value: number) => {
      finger.potentiometer.dragMNm = value;
    },
  },
  topResistor: {
    get: (finger: Finger) => finger.wiring.topOhm,
    set: (finger: Finger, value: number) => {
      finger.wiring.topOhm = value;
    },
  },
  bottomResistor: {
    get: (finger: Finger) => finger.wiring.bottomOhm,
    set: (finger: Finger, value: number) => {
      finger.wiring.bottomOhm = value;
    },
  },
  pullDown: {
    get: (finger: Finger) => finger.wiring.pullDownOhm,
    set: (finger: Finger, value: number) => {
      finger.wiring.pullDownOhm = value;
    },
  },
  capacitor: {
    get: (finger: Finger) => finger.wiring.capacitorF,
    set: (finger: Finger, value: number) => {
      finger.wiring.capacitorF = value;
    },
  },
  pin: {
    get: (finger: Finger) => finger.pin,
    set: (finger: Finger, value: number) => {
      finger.pin = value;
    },
  },
} as const;

export type ChangeableValue = keyof typeof CHANGEABLE;

/** One value that should be another, for some fingers. */
export interface Change {
  value: ChangeableValue;
  fingers: FingerName[];
  /** In the unit of the rig. */
  from: number;
  to: number;
  /** Why, as a clause. */
  why: string;
}

/** The rig with changes made; the given one stays as it is. */
export function withChanges(rig: Rig, changes: readonly Change[]): Rig {
  const changed = structuredClone(rig);
  for (const { value, fingers, to } of changes) {
    for (const finger of changed.fingers) {
      if (fingers.includes(finger.name)) CHANGEABLE[value].set(finger, to);
    }
  }
  return changed;
}

/** Sets a value of one finger and notes it, unless it is that already. */
export function propose(
  changes: Change[],
  finger: Finger,
  value: ChangeableValue,
  to: number,
  why: string,
): void {
  const from = CHANGEABLE[value].get(finger);
  if (from === to) return;
  CHANGEABLE[value].set(finger, to);
  const same = changes.find(
    (one) => one.value === value && one.from === from && one.to === to && one.why === why,
  );
  if (same) same.fingers.push(finger.name);
  else changes.push({ value, fingers: [finger.name], from, to, why });
}
