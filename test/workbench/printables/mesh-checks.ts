/** Checks of a mesh as a file has it, without the library that made it. Three corners a facet, nine numbers. */

/** Equal corners get the same number: slicers weld them the same way. */
function welded(corners: Float32Array): Uint32Array {
  const known = new Map<number, Map<number, Map<number, number>>>();
  const ids = new Uint32Array(corners.length / 3);
  let next = 0;
  for (let i = 0; i < ids.length; i++) {
    const [x, y, z] = [corners[3 * i]!, corners[3 * i + 1]!, corners[3 * i + 2]!];
    let ofX = known.get(x);
    if (!ofX) {
      ofX = new Map();
      known.set(x, ofX);
    }
    let ofY = ofX.get(y);
    if (!ofY) {
      ofY = new Map();
      ofX.set(y, ofY);
    }
    if (!ofY.has(z)) ofY.set(z, next++);
    ids[i] = ofY.get(z)!;
  }
  return ids;
}

/**
 * Directed edges that do not occur exactly once with their reverse exactly once: 0 for a closed surface that is wound
 * the same way throughout. A facet that closes on itself counts as bad.
 */
export function badEdges(corners: Float32Array): number {
  const ids = welded(corners);
  const many = ids.length + 1;
  const edges = new Map<number, number>();
  let bad = 0;
  for (let facet = 0; facet < ids.length; facet += 3) {
    for (let i = 0; i < 3; i++) {
      const [a, b] = [ids[facet + i]!, ids[facet + ((i + 1) % 3)]!];
      if (a === b) bad++;
      edges.set(a * many + b, (edges.get(a * many + b) ?? 0) + 1);
    }
  }
  for (const [edge, count] of edges) {
    const [a, b] = [Math.floor(edge / many), edge % many];
    if (count !== 1 || edges.get(b * many + a) !== 1) bad++;
  }
  return bad;
}

/** Volume by the divergence theorem, mm3: > 0 when the normals point outwards. */
export function volumeMm3(corners: Float32Array): number {
  let six = 0;
  const at = (i: number) => corners[i]!;
  for (let i = 0; i < corners.length; i += 9) {
    six +=
      at(i) * (at(i + 4) * at(i + 8) - at(i + 5) * at(i + 7)) +
      at(i + 1) * (at(i + 5) * at(i + 6) - at(i + 3) * at(i + 8)) +
      at(i + 2) * (at(i + 3) * at(i + 7) - at(i + 4) * at(i + 6));
  }
  return six / 6;
}

/** Lowest and highest corner. */
export function bounds(corners: Float32Array): { low: number[]; high: number[] } {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  corners.forEach((value, i) => {
    low[i % 3] = Math.min(low[i % 3]!, value);
    high[i % 3] = Math.max(high[i % 3]!, value);
  });
  return { low, high };
}

/**
 * Thinnest wall met by rays that go into the solid, square to its surface, from places spread over it: every second
 * one anywhere on the surface, the others on any facet, so that small holes have their share. A wall is what ends at a surface that faces back within about 14 deg: the edges of wedges do not
 * count.
 * @param uniform numbers in [0, 1)
 */
export function thinnestWallMm(corners: Float32Array, rays: number, uniform: () => number): number {
  const count = corners.length / 9;
  // One corner, two edges and the normal of each facet: twelve numbers.
  const facets = new Float64Array(12 * count);
  const ends = new Float64Array(count);
  let whole = 0;
  for (let f = 0; f < count; f++) {
    const at = (k: number) => corners[9 * f + k]!;
    const [ux, uy, uz] = [at(3) - at(0), at(4) - at(1), at(5) - at(2)];
    const [vx, vy, vz] = [at(6) - at(0), at(7) - at(1), at(8) - at(2)];
    const [nx, ny, nz] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    const twice = Math.hypot(nx, ny, nz) || 1;
    facets.set([at(0), at(1), at(2), ux, uy, uz, vx, vy, vz, nx / twice, ny / twice, nz / twice], 12 * f);
    whole += Math.hypot(nx, ny, nz);
    ends[f] = whole;
  }
  let thinnest = Infinity;
  for (let ray = 0; ray < rays; ray++) {
    const place = uniform();
    const from =
      12 * (ray % 2 === 0 ? ends.findIndex((end) => end > place * whole) : Math.floor(place * count));
    let [s, t] = [uniform(), uniform()];
    if (s + t > 1) [s, t] = [1 - s, 1 - t];
    const start = (k: number) => facets[from + k]! + s * facets[from + 3 + k]! + t * facets[from + 6 + k]!;
    const wall = nearestWall(
      facets,
      [start(0), start(1), start(2)],
      [-facets[from + 9]!, -facets[from + 10]!, -facets[from + 11]!],
    );
    thinnest = Math.min(thinnest, wall);
  }
  return thinnest;
}

/** Way to the nearest facet (Möller and Trumbore 1997), endless if that one does not face the ray. */
function nearestWall(
  facets: Float64Array,
  [sx, sy, sz]: readonly [number, number, number],
  [dx, dy, dz]: readonly [number, number, number],
): number {
  let nearest = Infinity;
  let facing = 0;
  for (let f = 0; f < facets.length; f += 12) {
    const [ux, uy, uz] = [facets[f + 3]!, facets[f + 4]!, facets[f + 5]!];
    const [vx, vy, vz] = [facets[f + 6]!, facets[f + 7]!, facets[f + 8]!];
    const [px, py, pz] = [dy * vz - dz * vy, dz * vx - dx * vz, dx * vy - dy * vx];
    const det = ux * px + uy * py + uz * pz;
    if (Math.abs(det) < 1e-12) continue;
    const [ox, oy, oz] = [sx - facets[f]!, sy - facets[f + 1]!, sz - facets[f + 2]!];
    const one = (ox * px + oy * py + oz * pz) / det;
    if (one < 0 || one > 1) continue;
    const [qx, qy, qz] = [oy * uz - oz * uy, oz * ux - ox * uz, ox * uy - oy * ux];
    const two = (dx * qx + dy * qy + dz * qz) / det;
    if (two < 0 || one + two > 1) continue;
    const mm = (vx * qx + vy * qy + vz * qz) / det;
    if (mm > 1e-3 && mm < nearest) {
      nearest = mm;
      facing = dx * facets[f + 9]! + dy * facets[f + 10]! + dz * facets[f + 11]!;
    }
  }
  return facing > 0.97 ? nearest : Infinity;
}
