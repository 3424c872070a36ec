import { describe, expect, it } from "vitest";

import type { Tool } from "./api";
import { massWords, written } from "./cells";

describe("a mass", () => {
  it("is in grams up to a kilogram", () => {
    expect(massWords([0.0854, 0.0854], "mm")).toBe("85.4 g");
    expect(massWords([1.234, 1.234], "mm")).toBe("1.23 kg");
  });

  it("is in ounces up to a pound of 0.45359237 kg where lengths are in inches", () => {
    expect(massWords([0.0854, 0.0854], "in")).toBe("3 oz");
    expect(massWords([0.45359237, 0.45359237], "in")).toBe("1 lb");
  });

  it("has one unit from the least to the most of a set", () => {
    expect(massWords([0.25, 1.5], "mm")).toBe("0.25 to 1.5 kg");
    expect(massWords([0.1556, 0.7167], "in")).toBe("0.34 to 1.58 lb");
  });

  it("that nobody knows is nothing", () => {
    expect(massWords(null, "mm")).toBe("");
  });
});

describe("a mass that is typed", () => {
  const tool = { number: 3, name: "Awl", mass_raw: null } as unknown as Tool;
  const value = (text: string, unit: "mm" | "in") => {
    const made = written(tool, null, null, text, unit);
    return made && "changes" in made ? (made.changes[0] as { value?: unknown }).value : made;
  };

  it("counts as grams beside millimetres and as ounces beside inches", () => {
    expect(value("14", "mm")).toBe("14 g");
    expect(value("14", "in")).toBe("14 oz");
    expect(value("397 g", "in")).toBe("397 g");
  });

  it("may be in pounds and ounces", () => {
    expect(value("1 lb 7 oz", "in")).toBe("1 lb 7 oz");
  });

  it("that is none is told with what may be written", () => {
    expect(value("heavy", "in")).toEqual({ fault: "heavy is no weight. Write 12, 12 oz, 1 lb 4 oz or 340 g." });
  });
});
