import { describe, expect, it } from "vitest";

import { massWords } from "./cells";

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
