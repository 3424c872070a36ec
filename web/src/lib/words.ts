/** What is said in one way on every sheet. */
import type { Fault } from "./api";

/** A fault beside the thing it is about, which needs no name there: what is, what may be, what to do. */
export function beside(fault: Fault): string {
  const parts = [fault.given.charAt(0).toUpperCase() + fault.given.slice(1)];
  if (fault.allowed) parts.push(`It can be ${fault.allowed}`);
  if (fault.todo) parts.push(fault.todo);
  return `${parts.join(". ")}.`;
}

/** True when a path leads to a place, or into it. */
export function leadsTo(path: readonly (string | number)[], place: readonly (string | number)[]): boolean {
  return place.length <= path.length && place.every((step, number) => step === path[number]);
}
