import { describe, expect, it } from "vitest";

import { beside } from "./words";

const fault = { code: "", paths: [], sentence: "", given: "", allowed: "", todo: "", line: "" };

describe("a fault beside its field", () => {
  it("ends every sentence once", () => {
    expect(beside({ ...fault, given: "-4 is out of bounds", allowed: "from 1 to 200" })).toBe("-4 is out of bounds. It can be from 1 to 200.");
    expect(beside({ ...fault, given: 'there is no obstacle "snk"', todo: 'Did you mean "sink"?' })).toBe(
      'There is no obstacle "snk". Did you mean "sink"?',
    );
  });
});
