import type { Surface } from './stl.ts';

/**
 * The surface as a file's readers will see it: corners at the same place become one, and facets that close on
 * themselves by that are left out. What was closed stays closed: such a facet's two sides cancel each other.
 */
export function welded({ positions, triangles }: Surface): Surface {
  const places = new Map<string, number>();
  const first = new Uint32Array(positions.length / 3);
  // The bits tell floats apart as the file does; both zeros are one place.
  const bits = new Int32Array(positions.map((value) => (value === 0 ? 0 : value)).buffer);
  for (let corner = 0; corner < first.length; corner++) {
    const key = `${bits[3 * corner]} ${bits[3 * corner + 1]} ${bits[3 * corner + 2]}`;
    const known = places.get(key);
    if (known === undefined) places.set(key, corner);
    first[corner] = known ?? corner;
  }
  const kept: number[] = [];
  for (let facet = 0; facet < triangles.length; facet += 3) {
    const [a, b, c] = [0, 1, 2].map((i) => first[triangles[facet + i]!]!);
    if (a !== b && b !== c && c !== a) kept.push(a!, b!, c!);
  }
  return { positions, triangles: Uint32Array.from(kept) };
}
