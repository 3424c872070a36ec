/** What a person types for a length, and what it means; the program has the last word. */

export type Unit = "mm" | "in";

export interface Typed {
  /** What is written in the document: a bare number in its unit, or the text with its unit. */
  value: number | string;
  mm: number;
}

const MM: Record<string, number> = { mm: 1, cm: 10, m: 1000, in: 25.4, '"': 25.4 };
const NUMBER = /^(\d+(?:\.\d+)?|\.\d+)$/;
const FRACTION = /^(?:(\d+)[ -])?(\d+)\/(\d+)$/;

function amount(text: string): number | null {
  if (NUMBER.test(text)) return Number(text);
  const found = FRACTION.exec(text);
  if (!found) return null;
  const [, whole = "0", over = "0", under = "1"] = found;
  return Number(under) === 0 ? null : Number(whole) + Number(over) / Number(under);
}

/**
 * Reads a typed length: 27.5, 27,5, 1 3/8 in, 2 cm. Null where nothing can be made of it.
 *
 * A comma counts as a point where only one stands there.
 */
export function readTyped(text: string, unit: Unit): Typed | null {
  const plain = text.trim().replace(/^(\d*),(\d+)/, "$1.$2").replace(/\s+/g, " ");
  const found = /^(.*?) ?(mm|cm|m|in|")?$/.exec(plain);
  if (!found) return null;
  const [, written = "", name] = found;
  const number = amount(written);
  if (number === null) return null;
  const mm = number * (MM[name ?? unit] ?? 1);
  const bare = name === undefined || name === unit;
  if (bare && NUMBER.test(written)) return { value: number, mm };
  return { value: `${written} ${(name ?? unit).replace('"', "in")}`, mm };
}

/** What is said of a text that is no length. */
export function unread(text: string): string {
  return `${text.trim()} is no length. Write 27.5, 1 3/8 in or 2 cm.`;
}

/** Writes a length for a person, as the program does: see ``measured_length``. */
export function shown(mm: number, unit: Unit): string {
  if (unit === "mm") return String(Number(mm.toFixed(2)));
  const parts = (mm / 25.4) * 32;
  if ((Math.abs(parts - Math.round(parts)) * 25.4) / 32 > 0.005) return (mm / 25.4).toFixed(3);
  return inches(Math.round(parts));
}

function inches(parts: number): string {
  const whole = Math.floor(parts / 32);
  let over = parts % 32;
  let under = 32;
  while (over && over % 2 === 0) {
    over /= 2;
    under /= 2;
  }
  if (!over) return String(whole);
  return whole ? `${whole}-${over}/${under}` : `${over}/${under}`;
}

/** Writes where something is, for a person: whole mm, or inches to the nearest 1/32. */
export function length(mm: number, unit: Unit): string {
  if (unit === "mm") return String(Math.round(mm * 10) / 10);
  const parts = Math.round((Math.abs(mm) / 25.4) * 32);
  return `${mm < 0 ? "-" : ""}${inches(parts)}`;
}
