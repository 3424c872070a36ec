/** What is said in one way on every sheet. */
import type { Fault } from "./api";

/** A fault beside the thing it is about, which needs no name there: what is, what may be, what to do. */
export function beside(fault: Fault): string {
  const parts = [sentence(fault.given)];
  if (fault.allowed) parts.push(ended(`It can be ${fault.allowed}`));
  if (fault.todo) parts.push(ended(fault.todo));
  return parts.join(" ");
}

/** What is said somewhere, as a sentence of its own. */
export function sentence(words: string): string {
  return words ? ended(`${words.charAt(0).toUpperCase()}${words.slice(1)}`) : "";
}

/** A sentence with its point, unless it ends in one or asks. */
function ended(words: string): string {
  return /[.?!]$/.test(words) ? words : `${words}.`;
}

/** True when a path leads to a place, or into it. */
export function leadsTo(path: readonly (string | number)[], place: readonly (string | number)[]): boolean {
  return place.length <= path.length && place.every((step, number) => step === path[number]);
}
