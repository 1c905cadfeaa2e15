import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { TautlineError } from '../../sim/errors.ts';
import type { Rig } from '../../sim/rig/rig.ts';
import type { SetDimensions } from '../../sim/sizing/unit/set-dimensions.ts';
import type { UnitDimensions } from '../../sim/sizing/unit/unit-dimensions.ts';
import { replaceFile } from '../rig/replace-file.ts';
import { bracketPart } from './bracket-part.ts';
import { channelPart } from './channel-part.ts';
import { type Kit, loadKit, type Manifold } from './kit.ts';
import { lidPart } from './lid-part.ts';
import { keyPart, platePart } from './plate-part.ts';
import { potCapPart } from './pot-cap-part.ts';
import { HINTS } from './print-hints.ts';
import { capPart, ringPart } from './ring-part.ts';
import { spoolPart } from './spool-part.ts';
import { type Surface, writeStl } from './stl.ts';

/** What a part is; its print hint depends on it. */
export type PartKind = 'spool' | 'bracket' | 'lid' | 'pot-cap' | 'ring' | 'cap' | 'plate' | 'key' | 'channel';

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

/** A part before it is put on the bed. */
interface Draft {
  name: string;
  kind: PartKind;
  count: number;
  build: (kit: Kit) => Manifold;
}

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
  return draftsOf(dimensions).map(({ name, kind, count, build }) => {
    // Edges shorter than a file's 32-bit floats can tell apart would close on themselves there.
    const built = build(kit).simplify(SLIVER_MM);
    const { min, max } = built.boundingBox();
    const solid = built.translate([-min[0], -min[1], -min[2]]);
    const mesh = solid.getMesh();
    return {
      name,
      kind,
      surface: { positions: mesh.vertProperties, triangles: mesh.triVerts },
      volumeMm3: solid.volume(),
      sizeMm: [max[0] - min[0], max[1] - min[1], max[2] - min[2]],
      count,
      hint: HINTS[kind],
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

function draftsOf({ units, plate, fingers }: SetDimensions): Draft[] {
  const drafts: Draft[] = [];
  // Units of equal dimensions share their files; the feet of all fit the same rails.
  const alike = new Map<string, { fingers: string[]; unit: UnitDimensions }>();
  for (const { finger, unit } of units) {
    const key = JSON.stringify(unit);
    const same = alike.get(key);
    if (same) same.fingers.push(finger);
    else alike.set(key, { fingers: [finger], unit });
  }
  for (const { fingers: names, unit } of alike.values()) {
    const whose = alike.size === 1 ? '' : `-${names.join('-')}`;
    const count = names.length;
    drafts.push(
      { name: `spool${whose}`, kind: 'spool', count, build: (kit) => spoolPart(kit, unit.spool) },
      {
        name: `bracket${whose}`,
        kind: 'bracket',
        count,
        build: (kit) => bracketPart(kit, unit, plate.railAtMm),
      },
      { name: `lid${whose}`, kind: 'lid', count, build: (kit) => lidPart(kit, unit) },
    );
  }
  const { unit } = units[0]!;
  drafts.push(
    { name: 'pot-cap', kind: 'pot-cap', count: units.length, build: (kit) => potCapPart(kit, unit.pot) },
    { name: 'plate', kind: 'plate', count: 1, build: (kit) => platePart(kit, plate) },
    { name: 'rail-key', kind: 'key', count: 2, build: (kit) => keyPart(kit, plate.key) },
    {
      name: 'wire-channel',
      kind: 'channel',
      count: 1,
      build: (kit) => channelPart(kit, plate.channel, plate),
    },
  );
  for (const { name, rings, cap } of fingers) {
    for (const { segment, ring } of rings) {
      drafts.push({
        name: `ring-${name}-${segment}`,
        kind: 'ring',
        count: 1,
        build: (kit) => ringPart(kit, ring),
      });
    }
    drafts.push({ name: `cap-${name}`, kind: 'cap', count: 1, build: (kit) => capPart(kit, cap) });
  }
  return drafts;
}
