import { SCREW } from '../../sim/sizing/unit/bought-parts.ts';
import type { PotCapDimensions } from '../../sim/sizing/unit/unit-dimensions.ts';
import { box, type Kit, type Manifold, rod, solidOf } from './kit.ts';

/** Cap that holds the potentiometer to the wall, open side and ears on the bed; -y becomes the lower side. */
export function potCapPart(kit: Kit, cap: PotCapDimensions): Manifold {
  const [long, high, deep] = cap.hollowMm;
  const outer = [long / 2 + cap.wallMm, high / 2 + cap.wallMm] as const;
  const slot = cap.wireSlotMm / 2;
  return solidOf(
    kit,
    [
      box(kit, [-outer[0], -outer[1], 0], [outer[0], outer[1], deep + cap.wallMm]),
      box(kit, [-cap.earHalfMm, -cap.earHeightMm / 2, 0], [cap.earHalfMm, cap.earHeightMm / 2, cap.earMm]),
    ],
    [
      box(kit, [-long / 2, -high / 2, -1], [long / 2, high / 2, deep]),
      box(kit, [-slot, -outer[1] - 1, -1], [slot, 0, deep]),
      ...[-1, 1].map((side) => rod(kit, SCREW.passRadiusMm, -1, cap.earMm + 1, [side * cap.screwAtMm, 0])),
    ],
  );
}
