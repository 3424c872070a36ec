/** What was typed while a workshop is set out; the program says what is wrong with it. */
import { get, send, Refusal, type Fault, type Field, type Rows, type State } from "./api";
import { project } from "./project.svelte";
import { leadsTo } from "./words";

export type Begin = Rows["BeginRow"];
export type Seen = Rows["SeenRow"];
export type Example = Rows["ExampleRow"];
export type FolderWords = Rows["FolderWordsRow"];
type SetOut = Rows["SetOutRow"];

export const STEPS = ["wall", "rail", "printer", "tool"] as const;
export type StepName = (typeof STEPS)[number];

export function pathKey(path: readonly (string | number)[]): string {
  return path.join("/");
}

class SettingOut {
  begin = $state.raw<Begin | null>(null);
  unit = $state<"mm" | "in">("mm");
  name = $state("");
  folder = $state("");
  folderWords = $state.raw<FolderWords | null>(null);
  step = $state<StepName>("wall");
  kind = $state("");
  typed = $state<Record<string, string>>({});
  /** The fields that were left once, whose faults are worth telling. */
  left = $state<Record<string, boolean>>({});
  faults = $state.raw<Fault[]>([]);
  seen = $state.raw<Seen | null>(null);
  refused = $state.raw<Fault | null>(null);
  busy = $state(false);

  readonly steps = $derived(new Map((this.begin?.steps ?? []).map((one) => [one.name, one.fields])));
  private asking: AbortController | null = null;

  async load(): Promise<void> {
    try {
      const begin = await get<Begin>(`setting-out?unit=${this.unit}`);
      if (!this.folder) this.folder = begin.folder;
      this.begin = begin;
      for (const step of begin.steps) {
        for (const field of step.fields) {
          // what has an ordinary value stands there from the start; the wall is measured
          const key = pathKey(field.path);
          if (!(key in this.typed)) this.typed[key] = field.path[0] === "wall" ? "" : field.usual;
        }
      }
      await Promise.all([this.check(), this.lookAtFolder()]);
    } catch (error) {
      project.notReached(error);
    }
  }

  async setUnit(unit: "mm" | "in"): Promise<void> {
    if (unit === this.unit) return;
    const before = this.begin;
    this.unit = unit;
    const begin = await get<Begin>(`setting-out?unit=${unit}`);
    for (const [number, step] of begin.steps.entries()) {
      for (const [at, field] of step.fields.entries()) {
        // an ordinary value that nobody touched is shown in the other unit; what was typed keeps its own
        const old = before?.steps[number]?.fields[at];
        const key = pathKey(field.path);
        const text = this.typed[key] ?? "";
        if (text === old?.usual) this.typed[key] = field.path[0] === "wall" ? "" : field.usual;
        else if (field.takes === "length" && /^[\d.,]+$/.test(text.trim())) {
          this.typed[key] = `${text.trim()} ${unit === "in" ? "mm" : "in"}`;
        }
      }
    }
    this.begin = begin;
    await this.check();
  }

  type(field: Field, text: string): void {
    this.typed[pathKey(field.path)] = text;
    void this.check();
  }

  leave(field: Field): void {
    this.left[pathKey(field.path)] = true;
  }

  /** Ask the program what is wrong with what was typed, and what can be drawn of it. */
  async check(): Promise<void> {
    this.asking?.abort();
    const asking = (this.asking = new AbortController());
    try {
      const found = await send<SetOut>("setting-out/check", this.started(), { signal: asking.signal });
      this.faults = found.faults;
      this.seen = found.seen;
      project.reached = true;
    } catch (error) {
      if (!asking.signal.aborted) this.refuse(error);
    }
  }

  /** The fault of a field, or null. */
  faultOf(field: Field): Fault | null {
    return this.faults.find((fault) => fault.paths.some((path) => leadsTo(path, field.path))) ?? null;
  }

  /** True when nothing of a step is wrong or missing. */
  done(step: StepName): boolean {
    if (step === "tool") return this.kind !== "";
    return !!this.begin && (this.steps.get(step) ?? []).every((field) => !this.faultOf(field));
  }

  async lookAtFolder(): Promise<void> {
    try {
      this.folderWords = await send<FolderWords>("setting-out/folder", { folder: this.folder });
      this.refused = null;
    } catch (error) {
      this.folderWords = null;
      this.refuse(error);
    }
  }

  start(): Promise<boolean> {
    project.tool = this.kind ? 0 : null;
    return this.opening("setting-out/own", { folder: this.folder, started: this.started() });
  }

  copy(example: string, folder: string): Promise<boolean> {
    return this.opening("setting-out/example", { folder, example });
  }

  open(folder: string): Promise<boolean> {
    return this.opening("setting-out/open", { folder });
  }

  private async opening(path: string, body: unknown): Promise<boolean> {
    this.busy = true;
    try {
      await send<State>(path, body);
      this.refused = null;
      project.panel = "";
      location.hash = "tools";
      await project.refresh();
      return true;
    } catch (error) {
      this.refuse(error);
      return false;
    } finally {
      this.busy = false;
    }
  }

  private refuse(error: unknown): void {
    if (error instanceof Refusal) {
      this.refused = error.fault;
      project.spoken = error.fault.sentence;
    } else project.notReached(error);
  }

  private started(): unknown {
    const typed = Object.entries(this.typed).map(([key, text]) => ({ path: key.split("/"), text }));
    return { name: this.name, unit: this.unit, typed, kind: this.kind };
  }
}

export const settingOut = new SettingOut();
