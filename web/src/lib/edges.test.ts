import { BoxGeometry, BufferAttribute, BufferGeometry, CylinderGeometry, EdgesGeometry } from "three";
import { mergeVertices } from "three/addons/utils/BufferGeometryUtils.js";
import { describe, expect, it } from "vitest";

import { sharpEdges } from "./edges";

interface Indexed {
  corners: Float32Array;
  triangles: Uint32Array;
}

/** A solid whose triangles share their corners. */
function shared(geometry: BufferGeometry): Indexed {
  const bare = new BufferGeometry();
  bare.setAttribute("position", geometry.getAttribute("position"));
  bare.setIndex(geometry.getIndex());
  const merged = mergeVertices(bare);
  return {
    corners: new Float32Array(merged.getAttribute("position").array),
    triangles: new Uint32Array(merged.getIndex()?.array ?? []),
  };
}

/** Each edge as text, whichever end comes first. */
function edges(found: ArrayLike<number>): string[] {
  const lines: string[] = [];
  for (let at = 0; at < found.length; at += 6) {
    const ends = [0, 3].map((from) =>
      [0, 1, 2].map((axis) => (found[at + from + axis] ?? 0).toFixed(3)).join(" "),
    );
    lines.push(ends.sort().join(" to "));
  }
  return lines.sort();
}

/** What the library for three dimensions finds. */
function oracle({ corners, triangles }: Indexed, degrees: number): string[] {
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(corners, 3));
  geometry.setIndex(new BufferAttribute(triangles, 1));
  return edges(new EdgesGeometry(geometry, degrees).getAttribute("position").array);
}

describe("the edges of a solid", () => {
  it("are twelve for a box", () => {
    const { corners, triangles } = shared(new BoxGeometry(30, 20, 10));
    expect(sharpEdges(corners, triangles, 25).length / 6).toBe(12);
  });

  it.each([5, 25, 40, 80])("are those that the library finds, at %d degrees", (degrees) => {
    const solids = [
      new BoxGeometry(30, 20, 10, 3, 2, 1),
      new CylinderGeometry(8, 8, 40, 12),
      new CylinderGeometry(3, 12, 40, 30),
    ];
    for (const one of solids.map(shared)) {
      expect(edges(sharpEdges(one.corners, one.triangles, degrees))).toEqual(oracle(one, degrees));
    }
  });

  it("are also the rim of an opening", () => {
    const { corners, triangles } = shared(new CylinderGeometry(8, 8, 40, 12, 1, true));
    expect(edges(sharpEdges(corners, triangles, 60))).toEqual(
      oracle({ corners, triangles }, 60),
    );
    expect(sharpEdges(corners, triangles, 60).length / 6).toBe(24);
  });
});
