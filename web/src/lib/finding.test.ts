import { describe, expect, it } from "vitest";

import { found, type Thing } from "./finding";

const thing = (sort: Thing["sort"], name: string, also: string[] = [], number = ""): Thing => ({
  sort,
  name,
  also,
  number,
  words: "",
  go: () => undefined,
});
const THINGS = [
  thing("tool", "Long-nose pliers", ["pliers"]),
  thing("tool", "Hammer 17 oz", ["hammer"]),
  thing("holder", "pliers (3)", ["7K2M9QX", "straddle-bar", "Long-nose pliers"], "17"),
  thing("rail", "R3"),
  thing("paper", "Elevation of the wall", ["wall/elevation.svg"]),
];
const names = (text: string) => found(THINGS, text).map((one) => one.name);

describe("what is found", () => {
  it("goes by number before a number within a name", () => expect(names("17")).toEqual(["pliers (3)", "Hammer 17 oz"]));
  it("goes by mark in any case", () => expect(names("7k2m9qx")).toEqual(["pliers (3)"]));
  it("goes by family, with a space for a hyphen", () => expect(names("straddle bar")).toEqual(["pliers (3)"]));
  it("has what begins so before what only holds it", () => expect(names("pl")[0]).toBe("pliers (3)"));
  it("has a rail and a paper", () => {
    expect(names("r3")).toEqual(["R3"]);
    expect(names("elevation")).toEqual(["Elevation of the wall"]);
  });
  it("meets every word that is typed, in any order", () => expect(names("nose long")).toEqual(["Long-nose pliers", "pliers (3)"]));
  it("is nothing for nothing, and for what is nowhere", () => {
    expect(names("  ")).toEqual([]);
    expect(names("anvil")).toEqual([]);
  });
});
