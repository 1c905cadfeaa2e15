import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { TautlineError } from '../../sim/errors.ts';
import type { Rig } from '../../sim/rig/rig.ts';
import type { SetDimensions } from '../../sim/sizing/unit/set-dimensions.ts';
import { replaceFile } from '../rig/replace-file.ts';
import { loadKit } from './kit.ts';
import { type PartKind, partDrafts } from './part-drafts.ts';
import { type Surface, writeStl } from './stl.ts';
import { welded } from './weld.ts';

/** One part to print, as it lies on the bed, its lowest corner in the origin. */
export interface Printable {
  /** Also the name of its file, without `.stl`. */
  name: string;
  kind: PartKind;
  surface: Surface;
  volumeMm3: number;
  /** Across, along and up the bed, mm. */
  sizeMm: [number, number, number];
  /** How many this rig needs. */
  count: number;
  hint: string;
}

/** Shortest edge in a file, mm: a thousandth of what a printer lays. */
const SLIVER_MM = 1e-3;

/**
 * Solids of every part that the rig needs, in print position. The same dimensions give the same numbers, bit for bit.
 * @throws TautlineError `size/spool-too-small` when a spool has no room for shaft, spring and knot
 */
export async function makePrintableSet(rig: Rig, dimensions: SetDimensions): Promise<Printable[]> {
  for (const { finger, unit } of dimensions.units) {
    if (unit.spool.radiusMm >= unit.leastRadiusMm) continue;
    throw new TautlineError(
      'size/spool-too-small',
      `${finger} of ${rig.name}: a spool of ${unit.spool.radiusMm} mm radius cannot be printed with its spring ${dimensions.choices.springPlace === 'inside' ? 'inside' : 'beside it'}; at least ${unit.leastRadiusMm.toFixed(1)} mm are needed.`,
      { detail: 'Make spool.radius larger in the rig file, or take a thinner string.' },
    );
  }
  const kit = await loadKit();
  return partDrafts(dimensions).map(({ name, kind, count, hint, build }) => {
    // Edges shorter than a file's 32-bit floats can tell apart would close on themselves there.
    const built = build(kit).simplify(SLIVER_MM);
    const { min, max } = built.boundingBox();
    const solid = built.translate([-min[0], -min[1], -min[2]]);
    const mesh = solid.getMesh();
    return {
      name,
      kind,
      surface: welded({ positions: mesh.vertProperties, triangles: mesh.triVerts }),
      volumeMm3: solid.volume(),
      sizeMm: [max[0] - min[0], max[1] - min[1], max[2] - min[2]],
      count,
      hint,
    };
  });
}

/** Makes the parts and writes `<part>.stl` for each; every file is replaced in one step. */
export async function writePrintables(
  rig: Rig,
  dimensions: SetDimensions,
  dir: string,
): Promise<Printable[]> {
  const set = await makePrintableSet(rig, dimensions);
  mkdirSync(dir, { recursive: true });
  for (const { name, surface } of set) {
    replaceFile(join(dir, `${name}.stl`), writeStl(surface, `tautline ${name}, mm`));
  }
  return set;
}
