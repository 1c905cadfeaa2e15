import type { FingerName, Rig } from '../../rig/rig.ts';
import { turnsInBarrel } from '../../spool/spring.ts';
import { spoolTurnDeg } from '../../spool/winding.ts';
import { strokeMm } from '../strings/stroke.ts';
import { POT_G } from './bought-parts.ts';
import * as volumes from './part-volumes.ts';
import { PLA_G_PER_CM3, STEEL_G_PER_CM3 } from './print-rules.ts';
import { type SetDimensions, setDimensions } from './set-dimensions.ts';
import { coilRoom } from './spool-dimensions.ts';
import type { UnitChoices } from './unit-dimensions.ts';

/** What the printed set comes to on the hand. Masses are of solid parts: with usual infill they are less. */
export interface BareSetSize {
  dimensions: SetDimensions;
  /** Highest point above the skin, across the hand, along the hand, mm. */
  heightMm: number;
  widthMm: number;
  lengthMm: number;
  /** One unit: along its axis (across the hand), along the hand, above the plate; the largest of the rig. */
  unitMm: { widthMm: number; lengthMm: number; heightMm: number };
  /** Printed parts on the back of the hand, rings and caps on the fingers, potentiometers and springs, g. */
  massG: { plateAndUnits: number; onFingers: number; bought: number; total: number };
  /** Turns that the spring's room allows, and turns that preload and stroke need; for each unit. */
  springs: {
    finger: FingerName;
    /** Whether the rig names the strip; else one is assumed that gives its torques. */
    isStated: boolean;
    /** Torque that does not grow with the turns: no strip in a barrel gives that, so its turns say nothing. */
    isConstant: boolean;
    givenTurns: number;
    neededTurns: number;
    leastRadiusMm: number;
  }[];
  /** Moment arms that printed rings cannot bring about, mm. */
  arms: { finger: FingerName; joint: 0 | 1 | 2; askedMm: number; givenMm: number }[];
}

/** Without alternatives and margins. */
export function bareSetSize(rig: Rig, largest: number, choices?: UnitChoices): BareSetSize {
  const dimensions = setDimensions(rig, largest, choices);
  const { plate, units, fingers } = dimensions;
  const standMm = plate.baseMm + plate.railHeightMm;
  const most = (of: (unit: (typeof units)[number]['unit']) => number) =>
    Math.max(...units.map(({ unit }) => of(unit)));
  const unitMm = {
    widthMm: most((unit) => unit.widthMm),
    lengthMm: most((unit) => 2 * unit.halfMm),
    heightMm: most((unit) => unit.axisMm + unit.halfMm),
  };
  const plateAndUnits = grams(
    units.reduce((sum, { unit }) => sum + unitVolumeMm3(unit), 0) +
      volumes.plateVolumeMm3(plate) +
      volumes.channelVolumeMm3(plate.channel, plate.stud.atMm.length) +
      2 * volumes.keyVolumeMm3(plate.key),
  );
  const onFingers = grams(
    fingers.reduce(
      (sum, { rings, cap }) =>
        sum + rings.reduce((all, { ring }) => all + volumes.ringVolumeMm3(ring), volumes.capVolumeMm3(cap)),
      0,
    ),
  );
  const bought = units.reduce((sum, { unit: { strip } }) => {
    const stripMm3 = strip.widthMm * strip.thicknessMm * strip.lengthMm;
    return sum + POT_G + (stripMm3 * STEEL_G_PER_CM3) / 1000;
  }, 0);
  return {
    dimensions,
    heightMm: Math.max(standMm + unitMm.heightMm, plate.baseMm + plate.channel.heightMm),
    widthMm: plate.widthMm,
    lengthMm: Math.max(plate.frontMm, unitMm.lengthMm / 2) - Math.min(plate.rearMm, -unitMm.lengthMm / 2),
    unitMm,
    massG: { plateAndUnits, onFingers, bought, total: plateAndUnits + onFingers + bought },
    springs: springsOf(rig, dimensions, largest),
    arms: armsOf(dimensions),
  };
}

function unitVolumeMm3(unit: SetDimensions['units'][number]['unit']): number {
  return (
    volumes.spoolVolumeMm3(unit.spool) +
    volumes.bracketVolumeMm3(unit) +
    volumes.lidVolumeMm3(unit) +
    volumes.potCapVolumeMm3(unit)
  );
}

const grams = (volumeMm3: number) => (volumeMm3 * PLA_G_PER_CM3) / 1000;

function springsOf(rig: Rig, dimensions: SetDimensions, largest: number): BareSetSize['springs'] {
  return dimensions.units.map(({ finger: name, unit }) => {
    const finger = rig.fingers.find((one) => one.name === name)!;
    const { spring, spoolRadiusMm, stringDiameterMm } = finger;
    const room = coilRoom(unit.spool, unit.cupRadiusMm);
    const turns = spoolTurnDeg(strokeMm(rig, finger, largest), spoolRadiusMm, stringDiameterMm) / 360;
    return {
      finger: name,
      isStated: spring.strip !== undefined,
      isConstant: spring.perTurnMNm === 0,
      givenTurns:
        room.barrelMm > room.arborMm
          ? turnsInBarrel(room.barrelMm, room.arborMm, unit.strip.thicknessMm, unit.strip.lengthMm)
          : 0,
      // A spring of constant torque has no count of preload turns.
      neededTurns: turns + (spring.perTurnMNm > 0 ? spring.openTorqueMNm / spring.perTurnMNm : 0),
      leastRadiusMm: unit.leastRadiusMm,
    };
  });
}

function armsOf(dimensions: SetDimensions): BareSetSize['arms'] {
  return dimensions.fingers.flatMap(({ name, rings, cap }) =>
    [...rings.map(({ ring }) => ring), cap].map(({ joint, askedMm, holeAtMm }) => ({
      finger: name,
      joint,
      askedMm,
      givenMm: holeAtMm,
    })),
  );
}
