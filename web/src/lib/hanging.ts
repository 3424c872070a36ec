/** The steps of whoever hangs a wall by the papers: rails first, then what hangs, by its numbers. No page here. */
import type { Rows } from "./api";

type Hung = Rows["WhatHangsRow"];
type WallStep = Rows["WallStepRow"];
export type HungPiece = Hung["papers"][number];

export interface HangStep {
  key: string;
  /** Of the rail, or of what hangs; of a change that is neither none. */
  name: string;
  title: string;
  done: boolean;
  /** What is measured off, from where, and how much. */
  measures: [what: string, from: string, value: string][];
  words: string;
  failing: readonly string[];
  piece: HungPiece | null;
}

function where(panel: string): string {
  return panel === "wall" ? "the wall" : `the panel ${panel}`;
}

export function stepsOf(hung: Hung, changes: readonly WallStep[] = [], unit = "mm"): HangStep[] {
  const rails = hung.paper_rails.map((rail): HangStep => {
    const own = hung.papers.filter((one) => one.panel === rail.panel && one.rail === rail.name);
    return {
      key: `rail ${rail.panel} ${rail.name}`,
      name: rail.name,
      title: `Rail ${rail.name}${rail.panel === "wall" ? "" : ` on ${rail.panel}`}`,
      done: rail.hangs || own.some((one) => one.hangs),
      measures: [
        ["height of its top edge", `above the lower edge of ${where(rail.panel)}`, rail.top],
        ["left end", `from the left edge of ${where(rail.panel)}`, rail.left],
        ["length", "", rail.length],
      ],
      words: rail.words,
      failing: [],
      piece: null,
    };
  });
  const pieces = hung.papers.map(
    (one): HangStep => ({
      key: `piece ${one.numbers.join()}`,
      name: one.name,
      title: one.rail ? `On rail ${one.rail}${one.panel === "wall" ? "" : ` of ${one.panel}`}` : `On ${where(one.panel)} itself`,
      done: one.hangs,
      measures: [
        ["left edge", `from the left edge of ${where(one.panel)}`, one.left],
        ...(one.rail ? [] : ([["hang height", `above the lower edge of ${where(one.panel)}`, one.height]] as [string, string, string][])),
      ],
      words: one.rail ? `It hooks onto the rail; its hang height is ${one.height} ${unit}.` : "",
      failing: one.failing,
      piece: one,
    }),
  );
  const papers = [...rails, ...pieces];
  // on a wall that hangs already its own order goes first; what is hung in it has its measures here
  const first = changes.map((change, at): HangStep => {
    const named = change.action === "hang" ? pieces : change.action === "screw on" ? rails : [];
    const found = named.find((one) => !one.done && one.name === change.name);
    return found ?? { ...PLAIN, key: `change ${at}`, title: change.sentence };
  });
  return [...first, ...papers.filter((one) => !first.includes(one))];
}

const PLAIN: HangStep = { key: "", name: "", title: "", done: false, measures: [], words: "", failing: [], piece: null };
