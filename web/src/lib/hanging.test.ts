import { describe, expect, it } from "vitest";

import { stepsOf } from "./hanging";

const piece = (number: number, rail: string, hangs = false) => ({
  numbers: [number],
  name: `Holder ${number}`,
  mark: "0000000",
  panel: "wall",
  rail,
  hangs,
  since: "",
  failing: [],
  tools: ["Awl"],
  left: "640",
  height: "300",
  parts: [],
});
const rail = (name: string, hangs = false) => ({ panel: "wall", name, top: "260", left: "50", length: "900", words: "", hangs });
const hung = (papers: unknown[], rails: unknown[]) => ({ papers, paper_rails: rails }) as unknown as Parameters<typeof stepsOf>[0];

describe("the steps at the wall", () => {
  it("go rails first, then holders by their numbers", () => {
    const steps = stepsOf(hung([piece(1, "R1"), piece(2, "")], [rail("R1"), rail("R2")]));
    expect(steps.map((one) => one.title)).toEqual(["Rail R1", "Rail R2", "On rail R1", "On the wall itself"]);
    expect(steps.some((one) => one.done)).toBe(false);
  });
  it("count a rail as done once something on it hangs", () => {
    const steps = stepsOf(hung([piece(1, "R1", true), piece(2, "R2")], [rail("R1"), rail("R2")]));
    expect(steps.map((one) => one.done)).toEqual([true, false, true, false]);
  });
  it("measure the height of what hangs on no rail, and not of what the rail gives its height", () => {
    const steps = stepsOf(hung([piece(1, "R1"), piece(2, "")], [rail("R1")]));
    expect(steps[1]?.measures.map(([what]) => what)).toEqual(["left edge"]);
    expect(steps[2]?.measures.map(([what]) => what)).toEqual(["left edge", "hang height"]);
  });
  it("keep the order of what changes on a wall that hangs, and measure what is hung in it", () => {
    const step = (action: "take down" | "screw on" | "hang", name: string) => ({ action, name, sentence: `${action} ${name}` });
    const steps = stepsOf(hung([piece(1, "R1"), piece(2, "R2", true)], [rail("R1"), rail("R2", true)]), [
      step("take down", "Holder 1"),
      step("screw on", "R1"),
      step("hang", "Holder 1"),
    ]);
    expect(steps.map((one) => one.title)).toEqual(["take down Holder 1", "Rail R1", "On rail R1", "Rail R2", "On rail R2"]);
    expect(steps[2]?.measures.length).toBe(1);
    expect(new Set(steps.map((one) => one.key)).size).toBe(steps.length);
  });
});
