/** The cells of the tool sheets: their order, and the change that writes one. No page here. */
import type { Change, Column, Fault, Sheet, Size, Tool } from "./api";
import { readTyped, unread, type Unit } from "./measure";

/** A measure of a tool, or of one of its sizes, by its label. */
export interface At {
  tool: number;
  size: string | null;
  /** The name of a measure, or "mass". */
  measure: string;
}

export const MASS = "mass";

export function cellKey(at: At): string {
  return `${at.tool}/${at.size ?? ""}/${at.measure}`;
}

/** A row of a sheet: a tool with its own measures, a set, or one size of a set. */
export interface Line {
  tool: Tool;
  size: Size | null;
  /** True for the line of a set that stands for its sizes. */
  set: boolean;
}

export function lines(sheet: Sheet, opened: ReadonlySet<number>): Line[] {
  return sheet.rows.flatMap((tool): Line[] => {
    if (!tool.sizes.length) return [{ tool, size: null, set: false }];
    const head: Line = { tool, size: null, set: true };
    if (!opened.has(tool.number)) return [head];
    return [head, ...tool.sizes.map((size): Line => ({ tool, size, set: false }))];
  });
}

/** Every cell in measuring order: along a tool, then the next tool. */
export function cellsInOrder(
  sheets: readonly Sheet[],
  opened: ReadonlySet<number>,
): At[] {
  return sheets.flatMap((sheet) => {
    const names = sheet.columns.map((column) => column.name);
    return lines(sheet, opened).flatMap((line) => {
      if (line.set) return [];
      const size = line.size?.label ?? null;
      const measures = line.size ? names : [...names, MASS];
      return measures.map((measure): At => ({ tool: line.tool.number, size, measure }));
    });
  });
}

export function besides(order: readonly At[], at: At, step: 1 | -1): At | null {
  const index = order.findIndex((one) => cellKey(one) === cellKey(at));
  return index < 0 ? null : (order[index + step] ?? null);
}

export type Written = { changes: Change[]; label: string } | { fault: string } | null;

/** What stands in the document for a cell now. */
export function rawOf(tool: Tool, size: Size | null, measure: string): unknown {
  if (measure === MASS) return tool.mass_raw;
  return (size ?? tool).cells[measure]?.raw ?? null;
}

/** The change that writes what was typed into a cell; null when nothing would change. */
export function written(
  tool: Tool,
  size: Size | null,
  column: Column | null,
  text: string,
  unit: Unit,
): Written {
  if (!column) return writtenMass(tool, text, unit);
  const cell = (size ?? tool).cells[column.name];
  const before = cell?.raw ?? null;
  const whole = text.trim();
  const label = `${column.title} of ${size ? `${tool.name} ${size.label}` : tool.name}`;
  if (!whole) {
    if (before === null) return null;
    const path = pathOf(tool, size, column.name);
    return { changes: [{ operation: "unset", path, was: before, name: tool.name, guarded: true }], label };
  }
  const typed = readTyped(whole, unit);
  if (!typed) {
    return { fault: unread(whole) };
  }
  if (typed.value === before || whole === (cell?.given ?? "")) return null;
  if (size && size.number === null) {
    const entry = { label: size.label, [column.name]: typed.value };
    const path = ["tool", tool.number, "sizes"];
    return {
      changes: [{ operation: "insert", path, value: entry, name: tool.name, guarded: true }],
      label,
    };
  }
  const path = pathOf(tool, size, column.name);
  return {
    changes: [
      { operation: "set", path, value: typed.value, was: before, name: tool.name, guarded: true },
    ],
    label,
  };
}

function pathOf(tool: Tool, size: Size | null, measure: string): (string | number)[] {
  if (!size) return ["tool", tool.number, "measures", measure];
  return ["tool", tool.number, "sizes", size.number ?? 0, measure];
}

const MASS_TEXT = /^(\d+(?:[.,]\d+)?)\s*(g|kg|oz|lb)?$/;
const POUNDS_TEXT = /^(\d+)\s*lb\s*(\d+(?:\.\d+)?)\s*oz$/;

/** What a mass without a unit counts as. */
export function massUnit(unit: Unit): string {
  return MASSES[unit].small;
}

function writtenMass(tool: Tool, text: string, unit: Unit): Written {
  const whole = text.trim();
  const path = ["tool", tool.number, MASS];
  const label = `weight of ${tool.name}`;
  const guard = { was: tool.mass_raw, name: tool.name, guarded: true };
  if (!whole) {
    return tool.mass_raw === null
      ? null
      : { changes: [{ operation: "unset", path, ...guard }], label };
  }
  const pounds = POUNDS_TEXT.exec(whole);
  const found = MASS_TEXT.exec(whole);
  if (!found && !pounds) {
    const few = unit === "in" ? "12, 12 oz, 1 lb 4 oz or 340 g" : "340, 340 g, 1.2 kg or 12 oz";
    return { fault: `${whole} is no weight. Write ${few}.` };
  }
  const value = pounds
    ? `${pounds[1]} lb ${pounds[2]} oz`
    : `${(found?.[1] ?? "").replace(",", ".")} ${found?.[2] ?? massUnit(unit)}`;
  if (value === tool.mass_raw) return null;
  return { changes: [{ operation: "set", path, value, ...guard }], label };
}

/** The faults of the cells, by their keys; what is wrong with a whole tool stands under its key. */
export function faultsByCell<F extends Fault>(
  faults: readonly F[],
  sheets: readonly Sheet[],
): Map<string, F> {
  const tools = new Map(sheets.flatMap((sheet) => sheet.rows.map((row) => [row.number, row])));
  const found = new Map<string, F>();
  for (const fault of faults) {
    for (const path of fault.paths) {
      const at = addressed(path, tools);
      if (at && !found.has(cellKey(at))) found.set(cellKey(at), fault);
    }
  }
  return found;
}

function addressed(path: readonly (string | number)[], tools: ReadonlyMap<number, Tool>): At | null {
  const [table, number, key, ...rest] = path;
  if (table !== "tool" || typeof number !== "number") return null;
  const tool = tools.get(number);
  if (!tool) return null;
  if (key === "measures") return { tool: number, size: null, measure: String(rest[0] ?? "") };
  if (key === "sizes" && typeof rest[0] === "number") {
    const size = tool.sizes.find((one) => one.number === rest[0]);
    const measure = rest[1] === "measures" ? rest[2] : rest[1];
    return { tool: number, size: size?.label ?? null, measure: String(measure ?? "") };
  }
  return { tool: number, size: null, measure: key === MASS ? MASS : "" };
}

const MASSES = {
  mm: { large: "kg", small: "g", kg: 1, many: 1000, words: (value: number) => Number(value.toPrecision(3)) },
  in: { large: "lb", small: "oz", kg: 0.45359237, many: 16, words: (value: number) => Number(value.toFixed(value < 100 ? 1 : 0)) },
};

/** How a mass is shown: grams up to a kilogram, or ounces up to a pound where lengths are in inches. */
export function massWords(kg: readonly [number, number] | null | undefined, unit: "mm" | "in"): string {
  if (!kg) return "";
  const [low, high] = kg;
  const known = MASSES[unit];
  const whole = high >= known.kg;
  const one = (value: number) => (whole ? Number((value / known.kg).toFixed(2)) : known.words((value / known.kg) * known.many));
  const name = whole ? known.large : known.small;
  return high - low < 0.0005 ? `${one(high)} ${name}` : `${one(low)} to ${one(high)} ${name}`;
}
