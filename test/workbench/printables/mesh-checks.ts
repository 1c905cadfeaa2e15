/** Checks of a mesh as a file has it, without the library that made it. */

/** Corner positions as keys: slicers weld equal corners the same way. */
function keyOf(corners: Float32Array, at: number): string {
  return `${corners[at]},${corners[at + 1]},${corners[at + 2]}`;
}

/**
 * Directed edges whose reverse does not occur exactly as often: 0 for a closed surface that is wound the same way
 * throughout. Edges that occur more than once count as well.
 */
export function badEdges(corners: Float32Array): number {
  const edges = new Map<string, number>();
  for (let facet = 0; facet < corners.length; facet += 9) {
    const keys = [0, 3, 6].map((at) => keyOf(corners, facet + at));
    if (new Set(keys).size < 3) continue;
    for (let i = 0; i < 3; i++) {
      const edge = `${keys[i]}>${keys[(i + 1) % 3]}`;
      edges.set(edge, (edges.get(edge) ?? 0) + 1);
    }
  }
  let bad = 0;
  for (const [edge, count] of edges) {
    const [a, b] = edge.split('>');
    if (count !== 1 || edges.get(`${b}>${a}`) !== 1) bad++;
  }
  return bad;
}

/** Volume by the divergence theorem, mm3: > 0 when the normals point outwards. */
export function volumeMm3(corners: Float32Array): number {
  let six = 0;
  for (let i = 0; i < corners.length; i += 9) {
    const [ax, ay, az, bx, by, bz, cx, cy, cz] = corners.subarray(i, i + 9) as unknown as number[];
    six += ax! * (by! * cz! - bz! * cy!) + ay! * (bz! * cx! - bx! * cz!) + az! * (bx! * cy! - by! * cx!);
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
