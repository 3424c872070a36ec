/** The edges of a closed solid that a person sees: where its faces turn by more than an angle. */

/**
 * Return the two ends of each edge, as coordinates one after the other.
 *
 * Corners are shared: an edge is met by its two triangles under the same two numbers, so that no
 * coordinates need to be compared.
 */
export function sharpEdges(corners: Float32Array, triangles: Uint32Array, degrees: number): Float32Array {
  const normals = normalsOf(corners, triangles);
  const straight = Math.cos((degrees * Math.PI) / 180);
  const many = corners.length / 3;
  const open = new Map<number, number>();
  const found: number[] = [];
  const keep = (start: number, end: number): void => {
    for (const at of [3 * start, 3 * end]) {
      found.push(corners[at] ?? 0, corners[at + 1] ?? 0, corners[at + 2] ?? 0);
    }
  };
  for (let at = 0; at < triangles.length; at += 3) {
    for (let side = 0; side < 3; side++) {
      const start = triangles[at + side] ?? 0;
      const end = triangles[at + ((side + 1) % 3)] ?? 0;
      const key = start < end ? start * many + end : end * many + start;
      const other = open.get(key);
      if (other === undefined) {
        open.set(key, at);
        continue;
      }
      open.delete(key);
      if (dot(normals, at, other) <= straight) keep(start, end);
    }
  }
  // an edge with one triangle is the rim of an opening
  for (const key of open.keys()) keep(Math.floor(key / many), key % many);
  return new Float32Array(found);
}

/** Return the unit normal of each triangle; nothing for one without an area. */
function normalsOf(corners: Float32Array, triangles: Uint32Array): Float32Array {
  const normals = new Float32Array(triangles.length);
  const at = (corner: number, axis: number): number => corners[3 * (triangles[corner] ?? 0) + axis] ?? 0;
  for (let first = 0; first < triangles.length; first += 3) {
    const ux = at(first + 1, 0) - at(first, 0);
    const uy = at(first + 1, 1) - at(first, 1);
    const uz = at(first + 1, 2) - at(first, 2);
    const vx = at(first + 2, 0) - at(first, 0);
    const vy = at(first + 2, 1) - at(first, 1);
    const vz = at(first + 2, 2) - at(first, 2);
    const x = uy * vz - uz * vy;
    const y = uz * vx - ux * vz;
    const z = ux * vy - uy * vx;
    const long = Math.sqrt(x * x + y * y + z * z) || 1;
    normals[first] = x / long;
    normals[first + 1] = y / long;
    normals[first + 2] = z / long;
  }
  return normals;
}

function dot(normals: Float32Array, a: number, b: number): number {
  return (
    (normals[a] ?? 0) * (normals[b] ?? 0) +
    (normals[a + 1] ?? 0) * (normals[b + 1] ?? 0) +
    (normals[a + 2] ?? 0) * (normals[b + 2] ?? 0)
  );
}
