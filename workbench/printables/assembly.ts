import { phalanges } from '../../sim/hand/phalanges.ts';
import type { FingerName, Rig } from '../../sim/rig/rig.ts';
import { POT_BODY } from '../../sim/sizing/unit/bought-parts.ts';
import { FREE_MM } from '../../sim/sizing/unit/print-rules.ts';
import type { SetDimensions } from '../../sim/sizing/unit/set-dimensions.ts';
import type { UnitDimensions } from '../../sim/sizing/unit/unit-dimensions.ts';
import { bracketPart } from './bracket-part.ts';
import { channelPart } from './channel-part.ts';
import { box, type Kit, type Manifold, rod } from './kit.ts';
import { lidPart } from './lid-part.ts';
import { keyPart, platePart } from './plate-part.ts';
import { potCapPart } from './pot-cap-part.ts';
import { capPart, ringPart } from './ring-part.ts';
import { spoolPart } from './spool-part.ts';

/** A part where it sits: x across the hand, y to the fingers, z up from the skin; mm. */
export interface PlacedPart {
  name: string;
  /** A potentiometer is bought, not printed. */
  isBought: boolean;
  solid: Manifold;
}

type Columns = readonly [readonly number[], readonly number[], readonly number[]];

/** Where the printed axes go: columns are the images of x, y and z. All three keep the hand of the part. */
const UPRIGHT: Columns = [
  [0, 1, 0],
  [0, 0, 1],
  [1, 0, 0],
];
const UPRIGHT_TURNED: Columns = [
  [0, -1, 0],
  [0, 0, 1],
  [-1, 0, 0],
];
const ON_FINGER: Columns = [
  [1, 0, 0],
  [0, 0, 1],
  [0, -1, 0],
];

function placed(solid: Manifold, [x, y, z]: Columns, to: readonly [number, number, number]): Manifold {
  const [a, b, c] = [x as Vec, y as Vec, z as Vec];
  return solid.transform([...a, 0, ...b, 0, ...c, 0, to[0], to[1], to[2], 1]);
}
type Vec = readonly [number, number, number];

/** The parts of one unit. @param at its left side, the units' foot plane above the skin */
export function placedUnit(
  kit: Kit,
  finger: FingerName,
  unit: UnitDimensions,
  railAtMm: number,
  at: { leftMm: number; standMm: number },
): PlacedPart[] {
  const axisMm = at.standMm + unit.axisMm;
  const wallAtMm = at.leftMm + unit.pot.hollowMm[2] + unit.pot.wallMm;
  const cupEndMm = wallAtMm + unit.wallMm + unit.cupDepthMm;
  const printed = (name: string, solid: Manifold) => ({ name: `${name} ${finger}`, isBought: false, solid });
  return [
    printed('bracket', placed(bracketPart(kit, unit, railAtMm), UPRIGHT, [wallAtMm, 0, axisMm])),
    printed('spool', placed(spoolPart(kit, unit.spool), UPRIGHT_TURNED, [cupEndMm - FREE_MM, 0, axisMm])),
    printed('lid', placed(lidPart(kit, unit), UPRIGHT, [cupEndMm, 0, axisMm])),
    printed('pot cap', placed(potCapPart(kit, unit.pot), UPRIGHT_TURNED, [wallAtMm, 0, axisMm])),
    {
      name: `potentiometer ${finger}`,
      isBought: true,
      solid: placed(potentiometer(kit, unit), UPRIGHT, [wallAtMm, 0, axisMm]),
    },
  ];
}

/** Body and shaft as the data sheet has them, the shaft cut where it leaves the lid, its flat as the spool's. */
function potentiometer(kit: Kit, unit: UnitDimensions): Manifold {
  const { widthMm, lengthMm, depthMm, shaftRadiusMm: radius, flatMm } = POT_BODY;
  const body = box(kit, [-widthMm / 2, -lengthMm / 2, -depthMm], [widthMm / 2, lengthMm / 2, 0]);
  let shaft = rod(kit, radius, -1, unit.shaftMm);
  if (unit.spool.boreFlatMm !== undefined) {
    const flatFrom = unit.wallMm + 0.2;
    shaft = shaft.subtract(
      box(kit, [-radius - 1, -radius - 1, flatFrom], [-flatMm, radius + 1, unit.shaftMm + 1]),
    );
  }
  return kit.Manifold.union([body, shaft]);
}

/** The whole set on a straight, spread hand: plate with all units, then rings and caps on the fingers. */
export function assemble(kit: Kit, rig: Rig, dimensions: SetDimensions): PlacedPart[] {
  const { units, plate, fingers } = dimensions;
  const standMm = plate.baseMm + plate.railHeightMm;
  const printed = (name: string, solid: Manifold) => ({ name, isBought: false, solid });
  const parts: PlacedPart[] = [
    printed('plate', platePart(kit, plate)),
    printed(
      'wire channel',
      channelPart(kit, plate.channel, plate).translate([0, plate.channelAtMm, plate.baseMm]),
    ),
    ...[-1, 1].map((side) =>
      printed(
        `rail key ${side > 0 ? 'front' : 'rear'}`,
        keyPart(kit, plate.key).translate([0, side * plate.railAtMm, plate.baseMm + 0.05]),
      ),
    ),
    ...units.flatMap(({ finger, unit }, i) =>
      placedUnit(kit, finger, unit, plate.railAtMm, { leftMm: plate.unitsAtMm[i]!, standMm }),
    ),
  ];
  const spreadMm =
    Math.max(...fingers.map(({ rings, cap }) => widestMm([...rings.map((r) => r.ring), cap]))) + 1;
  fingers.forEach(({ name, rings, cap }, i) => {
    const bones = phalanges(name, rig.hand.scale);
    const { unit } = units[i]!;
    const x =
      plate.widthMm / 2 + (i - (fingers.length - 1) / 2) * Math.max(spreadMm, plate.widthMm / fingers.length);
    const knuckleMm = plate.frontMm + 10;
    const stringMm = standMm + unit.axisMm - unit.spool.radiusMm;
    const zOf = (holeAtMm: number) => stringMm - holeAtMm;
    for (const { segment, ring } of rings) {
      const middleMm = segment === 'proximal' ? bones.proximalMm / 2 : bones.proximalMm + bones.middleMm / 2;
      const y = knuckleMm + middleMm + ring.lengthMm / 2;
      parts.push(
        printed(
          `ring ${name} ${segment}`,
          placed(ringPart(kit, ring), ON_FINGER, [x, y, zOf(ring.holeAtMm)]),
        ),
      );
    }
    const tipMm = knuckleMm + bones.proximalMm + bones.middleMm + bones.distalMm + bones.softTipMm;
    parts.push(
      printed(`cap ${name}`, placed(capPart(kit, cap), ON_FINGER, [x, tipMm + cap.endMm, zOf(cap.holeAtMm)])),
    );
  });
  return parts;
}

function widestMm(rings: readonly { innerRadiusMm: number; wallMm: number }[]): number {
  return Math.max(...rings.map((ring) => 2 * (ring.innerRadiusMm + ring.wallMm)));
}
