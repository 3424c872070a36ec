import { describe, expect, it } from "vitest";

import cases from "./typed-lengths.json";
import { length, readTyped, shown } from "./measure";

describe("a typed length", () => {
  // the same cases are read by the program: tests/web/test_typed_lengths.py
  it.each(cases.read)("reads $text in $unit", ({ text, unit, mm }) => {
    expect(readTyped(text, unit as "mm" | "in")?.mm).toBeCloseTo(mm, 6);
  });

  it.each(cases.refused)("does not read %s", (text) => {
    expect(readTyped(text, "mm")).toBeNull();
  });

  it.each(cases.shown)("shows $mm in $unit as $text", ({ mm, unit, text }) => {
    expect(shown(mm, unit as "mm" | "in")).toBe(text);
  });

  it("is written as a bare number in its own unit, and else with its unit", () => {
    expect(readTyped("27,5", "mm")?.value).toBe(27.5);
    expect(readTyped("27.5 mm", "mm")?.value).toBe(27.5);
    expect(readTyped("2 cm", "mm")?.value).toBe("2 cm");
    expect(readTyped("1 3/8", "in")?.value).toBe("1 3/8 in");
    expect(readTyped('3/4"', "mm")?.value).toBe("3/4 in");
  });
});

describe("a place on the wall", () => {
  it("is whole tenths of a mm, or thirty-seconds of an inch", () => {
    expect(length(1234.56, "mm")).toBe("1234.6");
    expect(length(25.4 * 2.5, "in")).toBe("2-1/2");
    expect(length(-12.7, "in")).toBe("-1/2");
  });
});
