import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import { defaultFinger, defaultRig } from '../../../sim/rig/default-rig.ts';
import { FINGER_NAMES, type Rig } from '../../../sim/rig/rig.ts';
import * as volumes from '../../../sim/sizing/unit/part-volumes.ts';
import { type SetDimensions, setDimensions } from '../../../sim/sizing/unit/set-dimensions.ts';
import { type UnitChoices, USUAL_CHOICES } from '../../../sim/sizing/unit/unit-dimensions.ts';
import { assemble } from '../../../workbench/printables/assembly.ts';
import { loadKit } from '../../../workbench/printables/kit.ts';
import {
  makePrintableSet,
  type Printable,
  writePrintables,
} from '../../../workbench/printables/printable-set.ts';
import { readStl, writeStl } from '../../../workbench/printables/stl.ts';
import { readRig } from '../../../workbench/rig/read-rig.ts';
import { seededUniform } from '../report/fixture.ts';
import { badEdges, bounds, thinnestWallMm, volumeMm3 } from './mesh-checks.ts';

const isLong = process.env.TAUTLINE_VERIFY === '1';
const folder = mkdtempSync(join(tmpdir(), 'tautline-stl-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const EXAMPLES = ['puppet-right', 'puppet-left', 'marionette-right', 'marionette-left'];

const randomRig = fc
  .record({
    names: fc.subarray([...FINGER_NAMES], { minLength: 1 }),
    side: fc.constantFrom('left' as const, 'right' as const),
    scale: fc.constantFrom(0.8, 0.95, 1.1, 1.2),
    springPlace: fc.constantFrom('beside' as const, 'inside' as const),
    shaft: fc.constantFrom('flat' as const, 'round' as const),
    // from the smallest that a spool may be: 10 mm with the spring beside it and a string of 0.2 mm
    radii: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 5, maxLength: 5 }),
    stringMm: fc.constantFrom(0.2, 0.3, 0.5),
  })
  .map(({ names, side, scale, springPlace, shaft, radii, stringMm }): { rig: Rig; choices: UnitChoices } => {
    const rig = { ...defaultRig('esp32'), hand: { side, scale } };
    // A spool holds two turns that stay and up to two that go: 4.5 strings below the one that leaves it.
    const leastMm = springPlace === 'inside' ? 11.5 + 4.5 * stringMm : 9 + 4.5 * stringMm;
    rig.fingers = names.map((name, i) => ({
      ...defaultFinger(name, 'esp32', 32 + i),
      spoolRadiusMm: leastMm + Math.round(10 * radii[i]! * (22 - leastMm)) / 10,
      stringDiameterMm: stringMm,
    }));
    return { rig, choices: { springPlace, shaft } };
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

async function checkSet(rig: Rig, choices: UnitChoices = USUAL_CHOICES): Promise<void> {
  const dimensions = setDimensions(rig, rig.hand.scale, choices);
  for (const part of await makePrintableSet(rig, dimensions)) checkPart(part, dimensions);
}

/** Pairs of parts of the assembled set that share room. */
async function clashes(rig: Rig, choices: UnitChoices = USUAL_CHOICES): Promise<string[]> {
  const kit = await loadKit();
  const parts = assemble(kit, rig, setDimensions(rig, rig.hand.scale, choices));
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
    await fc.assert(
      fc.asyncProperty(randomRig, ({ rig, choices }) => checkSet(rig, choices)),
      { numRuns: isLong ? 60 : 10 },
    );
  });

  it.each(EXAMPLES)('of %s do not run into each other when assembled', async (name) => {
    expect(await clashes(readRig(`examples/${name}.yaml`).rig)).toEqual([]);
  });

  it('of any rig do not run into each other when assembled', async () => {
    await fc.assert(
      fc.asyncProperty(randomRig, async ({ rig, choices }) => {
        expect(await clashes(rig, choices)).toEqual([]);
      }),
      { numRuns: isLong ? 30 : 4 },
    );
  });

  it.each([
    ['beside', 'flat'],
    ['inside', 'flat'],
    ['beside', 'round'],
  ] as const)('have walls of 1.2 mm at least, spring %s, %s shaft', async (springPlace, shaft) => {
    const { rig } = readRig('examples/puppet-right.yaml');
    const set = await makePrintableSet(rig, setDimensions(rig, 1, { springPlace, shaft }));
    const uniform = seededUniform(7);
    const seen = new Set<string>();
    for (const { name, kind, surface } of set) {
      // the other fingers' rings and caps differ in radius only
      if ((kind === 'ring' || kind === 'cap') && seen.has(kind)) continue;
      seen.add(kind);
      const { corners } = readStl(writeStl(surface, name));
      // corners of circles lie on them, so walls between circles are thinner by up to 0.02 mm between corners
      expect(thinnestWallMm(corners, isLong ? 4000 : 600, uniform), name).toBeGreaterThan(1.18);
    }
  });

  it('are one file each, with the same bytes every time', async () => {
    const { rig } = readRig('examples/marionette-left.yaml');
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

describe('volumes of the default build', () => {
  let built: Promise<Printable[]> | undefined;
  // Worked out on paper for a spool of 15 mm, a string of 0.3 mm, a shaft with a flat, walls of 1.2 and 1.6 mm.
  it.each([
    // core 15 - 3.5 · 0.3 = 13.95, flange 15.15 + 1.5 = 16.65: two discs of 1.2, bottom of 0.5, flank of 2.7 at
    // 45 deg, hub 5.9 by 5.2; less bore 3.1 by 10.8 but for the segment beyond 1.6, knot and its slot, hub's slot:
    // 2090.21 + 305.68 + 1990.77 + 568.67 - 265.20 - 14.10 - 6.66
    ['spool', 4669.4],
    // (2 · 18.85 · 20.35 + pi/2 · 18.85^2 - pi · 3.5^2 - 2 pi · 1.1^2) · 1.6
    ['lid', 2046.8],
    // 12.7 · 14.3 · 8.25 - 10.3 · 11.9 · 7.05 + (9.6 · 5.4 - 2 pi · 1.1^2) · 1.6 - 7.8 · 1.2 · 7.05
    ['pot-cap', 639.0],
    // (1.65 + 2.949) · 2.15 · 4
    ['rail-key', 39.55],
  ] as const)('%s: %f mm3', async (name, expected) => {
    built ??= makePrintableSet(defaultRig('esp32'), setDimensions(defaultRig('esp32'), 1));
    const part = (await built).find((one) => one.name === name)!;
    const volume = volumeMm3(readStl(writeStl(part.surface, name)).corners);
    expect(Math.abs(volume / expected - 1)).toBeLessThan(0.002);
  });
});

describe('the checks themselves', () => {
  const tube = async (wallMm: number) => {
    const kit = await loadKit();
    const solid = kit.Manifold.cylinder(20, 10, 10, 96).subtract(
      kit.Manifold.cylinder(30, 10 - wallMm, 10 - wallMm, 96).translate([0, 0, -5]),
    );
    const { vertProperties, triVerts } = solid.getMesh();
    return readStl(writeStl({ positions: vertProperties, triangles: triVerts }, 'tube')).corners;
  };

  it('tell a wall of 0.9 mm', async () => {
    expect(thinnestWallMm(await tube(0.9), 200, seededUniform(1))).toBeCloseTo(0.9, 1);
  });

  it('tell a missing facet and one that is turned round', async () => {
    const corners = await tube(2);
    expect(badEdges(corners)).toBe(0);
    expect(badEdges(corners.subarray(9))).toBe(3);
    const turned = corners.slice();
    turned.copyWithin(0, 3, 6);
    turned.set(corners.subarray(0, 3), 3);
    expect(badEdges(turned)).toBeGreaterThan(0);
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
