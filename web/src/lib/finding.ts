/** Finding things by what is typed: tools, holders, rails, papers. No page here. */

export interface Thing {
  /** What sort of thing it is, for people. */
  sort: "tool" | "holder" | "rail" | "paper" | "bed";
  /** The balloon of a holder, or "". */
  number: string;
  name: string;
  /** What else is said of it. */
  words: string;
  /** What else it is found by: its mark, its kind, its group, its family. */
  also: readonly string[];
  go: () => void;
}

/** As people type: without capitals, and with one space between words. */
function plain(text: string): string {
  return text.trim().toLowerCase().replace(/[\s_-]+/g, " ");
}

/** How well a thing is meant by a text: 0 for best; null for not at all. Each typed word must be met. */
function rank(thing: Thing, wanted: string): number | null {
  const name = plain(thing.name);
  const also = thing.also.map(plain);
  if (thing.number.toLowerCase() === wanted || also.includes(wanted) || name === wanted) return 0;
  const all = [name, ...also].join(" ");
  let worst = name.startsWith(wanted) ? 1 : 2;
  for (const word of wanted.split(" ")) {
    if (!all.includes(word)) return null;
    if (!` ${all}`.includes(` ${word}`)) worst = 3;
  }
  return worst;
}

/** The things that are meant by a text, the best first; all sorts mixed, in their order where equal. */
export function found(things: readonly Thing[], text: string, most = 12): Thing[] {
  const wanted = plain(text);
  if (!wanted) return [];
  return things
    .flatMap((thing, at) => {
      const how = rank(thing, wanted);
      return how === null ? [] : [{ thing, how, at }];
    })
    .sort((a, b) => a.how - b.how || a.at - b.at)
    .slice(0, most)
    .map((one) => one.thing);
}
