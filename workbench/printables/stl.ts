/** A solid's surface: corners x, y, z in mm; three corners a triangle, counter-clockwise seen from outside. */
export interface Surface {
  positions: Float32Array;
  triangles: Uint32Array;
}

const HEADER_BYTES = 80;
const FACET_BYTES = 50;

/**
 * Binary STL: 80 bytes of header, the number of facets, then for each the normal and three corners as 32-bit floats
 * and two bytes of zero, all little-endian. The file holds no unit: slicers take millimetres.
 * @param title ASCII, cut at 80 characters; must not begin with `solid`, or readers take the file for text
 */
export function writeStl(surface: Surface, title: string): Uint8Array {
  const { positions, triangles } = surface;
  const facets = triangles.length / 3;
  const bytes = new Uint8Array(HEADER_BYTES + 4 + facets * FACET_BYTES);
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < Math.min(title.length, HEADER_BYTES); i++) bytes[i] = title.charCodeAt(i) & 0x7f;
  view.setUint32(HEADER_BYTES, facets, true);
  for (let facet = 0; facet < facets; facet++) {
    const corners = [0, 1, 2].map((corner) => {
      const from = 3 * triangles[3 * facet + corner]!;
      return [positions[from]!, positions[from + 1]!, positions[from + 2]!] as const;
    });
    let at = HEADER_BYTES + 4 + facet * FACET_BYTES;
    for (const values of [normalOf(corners[0]!, corners[1]!, corners[2]!), ...corners]) {
      for (const value of values) {
        view.setFloat32(at, value, true);
        at += 4;
      }
    }
  }
  return bytes;
}

type Point = readonly [number, number, number];

/** Unit normal of a triangle; zero for one without area, as readers then work it out themselves. */
function normalOf(a: Point, b: Point, c: Point): [number, number, number] {
  const [ux, uy, uz] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
  const [vx, vy, vz] = [c[0] - a[0], c[1] - a[1], c[2] - a[2]];
  const [x, y, z] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
  const length = Math.hypot(x, y, z);
  return length > 0 ? [x / length, y / length, z / length] : [0, 0, 0];
}

/** What `writeStl` wrote. */
export interface StlContent {
  title: string;
  /** Three corners of each facet, nine numbers. */
  corners: Float32Array;
  normals: Float32Array;
}

/** @throws RangeError when the length does not fit the number of facets */
export function readStl(bytes: Uint8Array): StlContent {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const facets = bytes.length < HEADER_BYTES + 4 ? -1 : view.getUint32(HEADER_BYTES, true);
  if (bytes.length !== HEADER_BYTES + 4 + facets * FACET_BYTES) {
    throw new RangeError(
      `stl: ${bytes.length} bytes for ${facets} facets, expected ${HEADER_BYTES + 4 + Math.max(0, facets) * FACET_BYTES}`,
    );
  }
  const corners = new Float32Array(9 * facets);
  const normals = new Float32Array(3 * facets);
  for (let facet = 0; facet < facets; facet++) {
    const at = HEADER_BYTES + 4 + facet * FACET_BYTES;
    for (let i = 0; i < 3; i++) normals[3 * facet + i] = view.getFloat32(at + 4 * i, true);
    for (let i = 0; i < 9; i++) corners[9 * facet + i] = view.getFloat32(at + 12 + 4 * i, true);
  }
  const title = String.fromCharCode(...bytes.subarray(0, HEADER_BYTES)).replace(/\0+$/, '');
  return { title, corners, normals };
}
