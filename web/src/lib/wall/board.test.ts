import { describe, expect, it } from "vitest";

import { balloonOf, boxAt, clashes, gaps, labels, numbersOf, otherRail, overlap, snapped, spread, ticks, whole, type Hung, type Panel } from "./board";

function hung(key: string, x: number, z: number): Hung {
  return {
    key,
    numbers: [1],
    name: key,
    rail: "R1",
    on_rail: true,
    x_mm: x,
    z_mm: z,
    width_mm: 100,
    box_mm: [x - 10, x + 110, z - 50, z + 150],
    mass_kg: 1,
    given: false,
    movable: true,
    costs: {},
    tools: [],
    hangs_mm: null,
    way: "",
    points: 0,
    reasons: [],
    blocked: [],
    remarks: [],
  };
}

const rail = (name: string, z: number) => ({ name, hang_z_mm: z });
const panel = {
  width_mm: 1000,
  height_mm: 800,
  hung: [hung("a", 100, 300), hung("b", 300, 300), hung("c", 600, 550)],
  obstacles: [{ name: "socket", clear_mm: [800, 900, 250, 350] }],
  rails: [rail("R1", 550), rail("R2", 300)],
} as unknown as Panel;
const [a, b, c] = panel.hung as [Hung, Hung, Hung];

describe("two boxes", () => {
  it("lie on each other by their common part, and not where they only touch", () => {
    expect(overlap([0, 10, 0, 10], [5, 20, 5, 20])).toEqual([5, 10, 5, 10]);
    expect(overlap([0, 10, 0, 10], [10, 20, 0, 10])).toBeNull();
  });
});

describe("a holder that is moved", () => {
  it("takes its room along", () => {
    expect(boxAt(a, { x: 150, z: 350 })).toEqual([140, 260, 300, 500]);
  });

  it("meets neighbours, obstacles and the edge", () => {
    expect(clashes(panel, a, { x: 100, z: 300 })).toEqual([]);
    expect(clashes(panel, a, { x: 250, z: 300 }).map((one) => one.with)).toEqual(["b"]);
    expect(clashes(panel, a, { x: 760, z: 300 }).map((one) => one.with)).toEqual(["socket"]);
    expect(clashes(panel, a, { x: 0, z: 300 }).map((one) => one.with)).toEqual(["the edge of the wall"]);
  });

  it("snaps to the nearest rail within reach, and stays free beyond it", () => {
    expect(snapped(panel, a, { x: 101.4, z: 320 }, 60, 1)).toEqual({ x: 101, z: 300 });
    expect(snapped(panel, a, { x: 101, z: 430 }, 60, 1)).toEqual({ x: 101, z: 430 });
  });

  it("lies on whole steps, as on sixteenths of an inch", () => {
    const step = 25.4 / 16;
    expect(whole(1.6 + step, step)).toBe(2 * step);
    expect(snapped(panel, a, { x: 25, z: 320 }, 60, step)).toEqual({ x: 16 * step, z: 300 });
  });

  it("goes to the next rail up or down, if there is one", () => {
    expect(otherRail(panel, 300, true)).toBe(550);
    expect(otherRail(panel, 550, true)).toBeNull();
    expect(otherRail(panel, 550, false)).toBe(300);
  });

  it("knows the gaps to what is beside it", () => {
    expect(gaps(panel, b, { x: 300, z: 300 })).toEqual({ left: 80, right: 590 });
    expect(gaps(panel, c, { x: 600, z: 550 }).right).toBe(290);
  });
});

describe("a ruler", () => {
  it("has at most ten numbers, in round steps", () => {
    for (const width of [300, 1000, 2600, 4800]) {
      const found = ticks(width);
      expect(found.length).toBeLessThanOrEqual(10);
      expect(found[0]).toBe(0);
    }
  });
});

describe("a ruler on a phone", () => {
  it("has numbers that stand clear of each other", () => {
    for (const width of [300, 1000, 2600, 3200, 4800, 12_000]) {
      const found = ticks(width, "mm", 336);
      const apart = ((found[1] ?? width) / width) * 336;
      // a number of five signs takes about 34 px, and the last may be pushed back by as much
      expect(apart).toBeGreaterThanOrEqual(70);
    }
  });
});

describe("a balloon", () => {
  it("has all numbers, or says how many more there are", () => {
    expect(balloonOf({ numbers: [7] }).words).toBe("7");
    expect(balloonOf({ numbers: [1, 2] }).words).toBe("1-2");
    expect(balloonOf({ numbers: [4, 6] }).words).toBe("4, 6");
    expect(balloonOf({ numbers: [4, 6, 9] }).words).toBe("4 +2");
  });

  it("is as wide as what stands in it", () => {
    expect(balloonOf({ numbers: [11, 12] }).half).toBeGreaterThan(balloonOf({ numbers: [7] }).half);
  });
});

describe("balloons on a small drawing", () => {
  const size = { width: 358, height: 180 };
  const crowded = Array.from({ length: 38 }, (_, n) => ({ x: 12 + ((n * 61) % 330), y: n % 2 ? 50 : 120, half: 13 }));

  it("never lie on each other", () => {
    const found = spread(crowded, size);
    found.forEach((one, n) => {
      const clash = found.slice(0, n).find((other) => Math.abs(one.x - other.x) < 26 && Math.abs(one.y - other.y) < 24);
      expect(clash, `balloon ${n}`).toBeUndefined();
    });
  });

  it("stand within the drawing where something hangs at its lower edge", () => {
    const size = { width: 400, height: 200 };
    expect(spread([{ x: 100, y: 210, half: 12 }], size)[0]).toEqual({ x: 100, y: 188 });
  });
  it("stay in their own middle where there is room, and on the wall where not", () => {
    const own = [
      { x: 40, y: 50, half: 13 },
      { x: 90, y: 50, half: 13 },
      { x: 42, y: 50, half: 13 },
    ];
    const [a, b, c] = spread(own, size);
    expect([a, b]).toEqual([
      { x: 40, y: 50 },
      { x: 90, y: 50 },
    ]);
    expect(c).not.toEqual({ x: 42, y: 50 });
    for (const { x, y } of spread(crowded, size)) {
      expect(x).toBeGreaterThan(0);
      expect(x).toBeLessThan(size.width);
      expect(y).toBeGreaterThan(0);
      expect(y).toBeLessThan(size.height);
    }
  });
});

describe("a ruler in inches", () => {
  it("has numbers that are whole in inches", () => {
    expect(ticks(96 * 25.4, "in").map((mm) => Math.round((mm / 25.4) * 100) / 100)).toEqual([0, 12, 24, 36, 48, 60, 72, 84, 96]);
  });
});

describe("names on the drawing", () => {
  const at = (key: string, x: number, y: number, words = "hammers (2)") => ({ key, x, y, words });

  it("stand under their balloons where there is room", () => {
    expect([...labels([at("a", 100, 100), at("b", 300, 100)], 800).keys()]).toEqual(["a", "b"]);
  });

  it("lie on no other name and on no other balloon", () => {
    const found = labels([at("a", 100, 100), at("b", 140, 100), at("c", 400, 100), at("d", 400, 122)], 800);
    expect([...found.keys()]).toEqual(["a", "d"]);
  });

  it("is there for what is chosen, and the others keep off it", () => {
    expect([...labels([at("a", 100, 100), at("b", 140, 100)], 800, "b").keys()]).toEqual(["b"]);
  });
  it("stay on the drawing", () => {
    const found = labels([at("a", 10, 100)], 800).get("a");
    expect(found && found.x - (found.words.length * 6.3) / 2).toBeGreaterThanOrEqual(0);
  });
});

describe("the numbers of one thing", () => {
  it("are a span where they follow each other", () => {
    expect(numbersOf({ numbers: [4, 5, 6] })).toBe("4-6");
    expect(numbersOf({ numbers: [4, 6] })).toBe("4, 6");
    expect(numbersOf({ numbers: [7] })).toBe("7");
  });
});
