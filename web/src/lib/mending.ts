/** Where a fault is mended: the sheet, and the tool or the table of a holder that it is about. */
import type { Fault } from "./api";
import { project, type SheetName } from "./project.svelte";

const OF_HOLDERS = ["holder", "bundle", "carrier", "printer"];

/** The number of the first row of a table that a fault names; null for none. */
export function rowOf(fault: Fault, table: "tool" | "holder"): number | null {
  for (const [first, number] of fault.paths) {
    if (first === table && typeof number === "number") return number;
  }
  return null;
}

export function sheetOf(fault: Fault | undefined): SheetName {
  const first = fault?.paths[0]?.[0];
  if (typeof first === "string" && OF_HOLDERS.includes(first)) return "holders";
  return first === "tool" || first === undefined ? "tools" : "wall";
}

/** Go to where a fault is mended, with its tool in hand. */
export function mend(fault: Fault | undefined): void {
  const sheet = sheetOf(fault);
  if (fault && sheet === "tools") project.tool = rowOf(fault, "tool") ?? project.tool;
  location.hash = sheet;
}

/** Show the tool that a fault is about. */
export function showTool(number: number): void {
  project.tool = number;
  location.hash = "tools";
}

/** Let the program choose what a table of a holder says that it would choose itself. */
export async function leaveToProgram(number: number): Promise<void> {
  try {
    await project.act(`entries/holder/${number}/free`);
    project.tell("It is left to the program.");
  } catch (error) {
    project.notReached(error);
  }
}
