import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import { defaultFinger, defaultRig } from '../../../sim/rig/default-rig.ts';
import { FINGER_NAMES, type Rig } from '../../../sim/rig/rig.ts';
import * as volumes from '../../../sim/sizing/unit/part-volumes.ts';
import { type SetDimensions, setDimensions } from '../../../sim/sizing/unit/set-dimensions.ts';
import { assemble } from '../../../workbench/printables/assembly.ts';
import { loadKit } from '../../../workbench/printables/kit.ts';
import {
  makePrintableSet,
  type Printable,
  writePrintables,
} from '../../../workbench/printables/printable-set.ts';
import { readStl, writeStl } from '../../../workbench/printables/stl.ts';
import { readRig } from '../../../workbench/rig/read-rig.ts';
import { badEdges, bounds, volumeMm3 } from './mesh-checks.ts';

const isLong = process.env.TAUTLINE_VERIFY === '1';
const folder = mkdtempSync(join(tmpdir(), 'tautline-stl-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const EXAMPLES = ['puppet-right', 'puppet-left', 'marionette-right', 'marionette-left'];

const randomRig = fc
  .record({
    names: fc.subarray([...FINGER_NAMES], { minLength: 1 }),
    side: fc.constantFrom('left' as const, 'right' as const),
    scale: fc.constantFrom(0.8, 0.95, 1.1, 1.2),
    // what a printed spool has room for, up to twice that
    radii: fc.array(fc.integer({ min: 120, max: 220 }), { minLength: 5, maxLength: 5 }),
    stringMm: fc.constantFrom(0.2, 0.3, 0.5),
  })
  .map(({ names, side, scale, radii, stringMm }): Rig => {
    const rig = { ...defaultRig('esp32'), hand: { side, scale } };
    rig.fingers = names.map((name, i) => ({
      ...defaultFinger(name, 'esp32', 32 + i),
      spoolRadiusMm: radii[i]! / 10,
      stringDiameterMm: stringMm,
    }));
    return rig;
  });

/** Volume of a part worked out by hand from its dimensions: cylinders, frustums, prisms. */
function byHand(part: Printable, dimensions: SetDimensions): number | undefined {
  const { units, plate, fingers } = dimensions;
  const unit = units.find(({ finger }) => part.name.split('-').includes(finger))?.unit ?? units[0]!.unit;
  const own = fingers.find(({ name }) => part.name.split('-')[1] === name);
  switch (part.kind) {
    case 'spool':
      return volumes.spoolVolumeMm3(unit.spool);
    case 'bracket':
      return volumes.bracketVolumeMm3(unit);
    case 'lid':
      return volumes.lidVolumeMm3(unit);
    case 'pot-cap':
      return volumes.potCapVolumeMm3(unit);
    case 'plate':
      return volumes.plateVolumeMm3(plate);
    case 'key':
      return volumes.keyVolumeMm3(plate.key);
    case 'channel':
      return volumes.channelVolumeMm3(plate.channel, plate.stud.atMm.length);
    case 'cap':
      return volumes.capVolumeMm3(own!.cap);
    case 'ring':
      return volumes.ringVolumeMm3(own!.rings.find(({ segment }) => part.name.endsWith(segment))!.ring);
  }
}

function checkPart(part: Printable, dimensions: SetDimensions): void {
  const { corners } = readStl(writeStl(part.surface, 'tautline'));
  expect(badEdges(corners), `${part.name}: open or doubled edges`).toBe(0);
  const volume = volumeMm3(corners);
  expect(volume, `${part.name}: wound outwards`).toBeGreaterThan(0);
  const hand = byHand(part, dimensions)!;
  expect(Math.abs(volume / hand - 1), `${part.name}: ${volume} against ${hand} mm3 by hand`).toBeLessThan(
    0.005,
  );
  const { low, high } = bounds(corners);
  for (const axis of [0, 1, 2]) {
    expect(low[axis]).toBeCloseTo(0, 3);
    expect(high[axis]).toBeCloseTo(part.sizeMm[axis]!, 3);
  }
}

async function checkSet(rig: Rig): Promise<void> {
  const dimensions = setDimensions(rig, rig.hand.scale);
  for (const part of await makePrintableSet(rig, dimensions)) checkPart(part, dimensions);
}

/** Pairs of parts of the assembled set that share room. */
async function clashes(rig: Rig): Promise<string[]> {
  const kit = await loadKit();
  const parts = assemble(kit, rig, setDimensions(rig, rig.hand.scale));
  const boxes = parts.map(({ solid }) => solid.boundingBox());
  const found: string[] = [];
  for (let i = 0; i < parts.length; i++) {
    for (let j = i + 1; j < parts.length; j++) {
      const [a, b] = [boxes[i]!, boxes[j]!];
      const isApart = [0, 1, 2].some((k) => a.max[k]! <= b.min[k]! || b.max[k]! <= a.min[k]!);
      if (isApart) continue;
      const shared = parts[i]!.solid.intersect(parts[j]!.solid).volume();
      if (shared > 1e-6) found.push(`${parts[i]!.name} and ${parts[j]!.name}: ${shared} mm3`);
    }
  }
  return found;
}

describe('the parts to print', () => {
  it.each(EXAMPLES)(
    'of %s are closed, wound outwards, and of the volume worked out by hand',
    async (name) => {
      await checkSet(readRig(`examples/${name}.yaml`).rig);
    },
  );

  it('of any rig are closed, wound outwards, and of the volume worked out by hand', async () => {
    await fc.assert(fc.asyncProperty(randomRig, checkSet), { numRuns: isLong ? 60 : 6 });
  });

  it.each(EXAMPLES)('of %s do not run into each other when assembled', async (name) => {
    expect(await clashes(readRig(`examples/${name}.yaml`).rig)).toEqual([]);
  });

  it('of any rig do not run into each other when assembled', async () => {
    await fc.assert(
      fc.asyncProperty(randomRig, async (rig) => {
        expect(await clashes(rig)).toEqual([]);
      }),
      { numRuns: isLong ? 40 : 4 },
    );
  });

  it('are one file each, with the same bytes every time', async () => {
    const { rig } = readRig('examples/puppet-right.yaml');
    const dimensions = setDimensions(rig, 1.1);
    const [first, second] = [join(folder, 'a'), join(folder, 'b')];
    const written = await writePrintables(rig, dimensions, first);
    await writePrintables(rig, dimensions, second);
    const names = readdirSync(first).sort();
    expect(names).toEqual(written.map(({ name }) => `${name}.stl`).sort());
    for (const name of names) {
      expect(readFileSync(join(first, name)).equals(readFileSync(join(second, name)))).toBe(true);
      // a binary file must not begin as one in text does
      expect(readFileSync(join(first, name), 'latin1').startsWith('solid')).toBe(false);
    }
  });

  it('come in the counts that the rig needs', async () => {
    const { rig } = readRig('examples/puppet-right.yaml');
    const set = await makePrintableSet(rig, setDimensions(rig, 1.1));
    const count = (kind: Printable['kind']) =>
      set.filter((part) => part.kind === kind).reduce((sum, part) => sum + part.count, 0);
    // five fingers; the thumb has one phalanx less that carries a ring
    expect([count('spool'), count('bracket'), count('lid'), count('pot-cap')]).toEqual([5, 5, 5, 5]);
    expect([count('cap'), count('ring'), count('plate')]).toEqual([5, 9, 1]);
  });

  it('are refused in words when a spool has no room for its shaft', async () => {
    const rig = {
      ...defaultRig('esp32'),
      fingers: [{ ...defaultFinger('index', 'esp32', 32), spoolRadiusMm: 4 }],
    };
    await expect(makePrintableSet(rig, setDimensions(rig, 1))).rejects.toThrow(
      /a spool of 4 mm radius cannot be printed .* at least \d+\.\d mm are needed/,
    );
  });
});

describe('binary STL', () => {
  it('has 84 bytes and 50 for each facet, counts and floats little-endian', () => {
    // one triangle, corners by hand; the layout is that of the format's usual description (from memory)
    const bytes = writeStl(
      { positions: Float32Array.of(0, 0, 0, 2, 0, 0, 0, 3, 0), triangles: Uint32Array.of(0, 1, 2) },
      'x',
    );
    expect(bytes).toHaveLength(134);
    const view = new DataView(bytes.buffer);
    expect(view.getUint32(80, true)).toBe(1);
    const floats = Array.from({ length: 12 }, (_, i) => view.getFloat32(84 + 4 * i, true));
    expect(floats).toEqual([0, 0, 1, 0, 0, 0, 2, 0, 0, 0, 3, 0]);
    expect(view.getUint16(132, true)).toBe(0);
  });

  it('is refused when its length does not fit', () => {
    expect(() => readStl(new Uint8Array(100))).toThrow(/stl: 100 bytes for 0 facets, expected 84/);
  });
});
