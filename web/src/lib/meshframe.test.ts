import { describe, expect, it } from "vitest";

import { along, readFrame } from "./meshframe";

describe("a block of solids", () => {
  it("is read as it was written, without a copy", () => {
    const header = { revision: 3, number: 7, pieces: [{ role: "part", name: "x", corners: 3, triangles: 1 }] };
    let text = JSON.stringify(header);
    text += " ".repeat((4 - (text.length % 4)) % 4);
    const bytes = new ArrayBuffer(4 + text.length + 36 + 12);
    new DataView(bytes).setUint32(0, text.length, true);
    new Uint8Array(bytes, 4).set(new TextEncoder().encode(text));
    new Float32Array(bytes, 4 + text.length, 9).set([0, 0, 0, 1, 0, 0, 0, 1, 0]);
    new Uint32Array(bytes, 4 + text.length + 36, 3).set([0, 1, 2]);
    const frame = readFrame(bytes);
    expect(frame.number).toBe(7);
    expect([...(frame.pieces[0]?.positions ?? [])]).toEqual([0, 0, 0, 1, 0, 0, 0, 1, 0]);
    expect([...(frame.pieces[0]?.triangles ?? [])]).toEqual([0, 1, 2]);
    expect(frame.pieces[0]?.positions.buffer).toBe(bytes);
  });
});

describe("a way out", () => {
  it("is gone at one speed, move by move", () => {
    const moves: [number, number, number][] = [[0, 0, 10], [0, 30, 0]];
    expect(along(moves, 0)).toEqual([0, 0, 0]);
    expect(along(moves, 0.125)).toEqual([0, 0, 5]);
    expect(along(moves, 0.25)).toEqual([0, 0, 10]);
    expect(along(moves, 1)).toEqual([0, 30, 10]);
  });
});
