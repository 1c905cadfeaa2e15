import * as volumes from '../../sim/sizing/unit/part-volumes.ts';
import { PLA_G_PER_CM3 } from '../../sim/sizing/unit/print-rules.ts';
import type { SetDimensions } from '../../sim/sizing/unit/set-dimensions.ts';
import type { UnitDimensions } from '../../sim/sizing/unit/unit-dimensions.ts';
import { bracketPart } from './bracket-part.ts';
import { channelPart } from './channel-part.ts';
import type { Kit, Manifold } from './kit.ts';
import { lidPart } from './lid-part.ts';
import { keyPart, platePart } from './plate-part.ts';
import { potCapPart } from './pot-cap-part.ts';
import { HINTS } from './print-hints.ts';
import { capPart, ringPart } from './ring-part.ts';
import { spoolPart } from './spool-part.ts';

/** What a part is; its print hint depends on it. */
export type PartKind = 'spool' | 'bracket' | 'lid' | 'pot-cap' | 'ring' | 'cap' | 'plate' | 'key' | 'channel';

/** A part before it is built. */
export interface PartDraft {
  /** Also the name of its file, without `.stl`. */
  name: string;
  kind: PartKind;
  /** How many this rig needs. */
  count: number;
  hint: string;
  /** Volume by formula, mm3, and the mass of one in solid PLA, g. */
  volumeMm3: number;
  massG: number;
  build: (kit: Kit) => Manifold;
}

/** Every part that the rig needs, without building it: fit for lists. */
export function partDrafts({ units, plate, fingers }: SetDimensions): PartDraft[] {
  const drafts: PartDraft[] = [];
  const add = (
    name: string,
    kind: PartKind,
    count: number,
    volumeMm3: number,
    build: (kit: Kit) => Manifold,
  ) => {
    const massG = (volumeMm3 * PLA_G_PER_CM3) / 1000;
    drafts.push({ name, kind, count, hint: HINTS[kind], volumeMm3, massG, build });
  };
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
    add(`spool${whose}`, 'spool', count, volumes.spoolVolumeMm3(unit.spool), (kit) =>
      spoolPart(kit, unit.spool),
    );
    add(`bracket${whose}`, 'bracket', count, volumes.bracketVolumeMm3(unit), (kit) =>
      bracketPart(kit, unit, plate.railAtMm),
    );
    add(`lid${whose}`, 'lid', count, volumes.lidVolumeMm3(unit), (kit) => lidPart(kit, unit));
  }
  const { unit } = units[0]!;
  const { channel, key } = plate;
  add('pot-cap', 'pot-cap', units.length, volumes.potCapVolumeMm3(unit), (kit) => potCapPart(kit, unit.pot));
  add('plate', 'plate', 1, volumes.plateVolumeMm3(plate), (kit) => platePart(kit, plate));
  add('rail-key', 'key', 2, volumes.keyVolumeMm3(key), (kit) => keyPart(kit, key));
  add('wire-channel', 'channel', 1, volumes.channelVolumeMm3(channel, plate.stud.atMm.length), (kit) =>
    channelPart(kit, channel, plate),
  );
  for (const { name, rings, cap } of fingers) {
    for (const { segment, ring } of rings) {
      add(`ring-${name}-${segment}`, 'ring', 1, volumes.ringVolumeMm3(ring), (kit) => ringPart(kit, ring));
    }
    add(`cap-${name}`, 'cap', 1, volumes.capVolumeMm3(cap), (kit) => capPart(kit, cap));
  }
  return drafts;
}
