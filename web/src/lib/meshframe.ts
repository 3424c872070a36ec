/** Solids as the program sends them: see ``web/meshframe.py``. Views on the bytes, no copies. */

export type Triple = [number, number, number];

export interface Piece {
  role: "part" | "wood" | "tool";
  name: string;
  way_out_mm?: Triple[];
  positions: Float32Array;
  triangles: Uint32Array;
}

export interface Frame {
  revision: number;
  number: number;
  mark: string;
  bounds_mm: [Triple, Triple];
  pieces: Piece[];
}

interface Header extends Omit<Frame, "pieces"> {
  pieces: (Omit<Piece, "positions" | "triangles"> & { corners: number; triangles: number })[];
}

export function readFrame(bytes: ArrayBuffer): Frame {
  const length = new DataView(bytes).getUint32(0, true);
  const text = new TextDecoder().decode(new Uint8Array(bytes, 4, length));
  const header = JSON.parse(text) as Header;
  let at = 4 + length;
  const pieces = header.pieces.map(({ corners, triangles, ...about }): Piece => {
    const positions = new Float32Array(bytes, at, corners * 3);
    at += positions.byteLength;
    const indices = new Uint32Array(bytes, at, triangles * 3);
    at += indices.byteLength;
    return { ...about, positions, triangles: indices };
  });
  return { ...header, pieces };
}

/** Where a tool is when a share of its way out is behind it: the sum of moves so far. */
export function along(moves: readonly Triple[], share: number): Triple {
  const lengths = moves.map((move) => Math.hypot(...move));
  let left = share * lengths.reduce((sum, length) => sum + length, 0);
  const at: Triple = [0, 0, 0];
  for (const [index, move] of moves.entries()) {
    const length = lengths[index] ?? 0;
    const part = length ? Math.min(1, left / length) : 0;
    at[0] += move[0] * part;
    at[1] += move[1] * part;
    at[2] += move[2] * part;
    left -= length * part;
    if (left <= 0) break;
  }
  return at;
}
