/** The settings as this page has them: what is there, what was typed, and what was refused. */
import { get, Refusal, send, type Fault, type Field, type Form, type Rows, type Settings } from "./api";
import { NOTHING, project } from "./project.svelte";
import { pathKey } from "./settingOut.svelte";
import { beside, leadsTo } from "./words";

/** A row that is being added to a table. */
export interface Adding {
  path: string;
  name: string;
  typed: Record<string, string>;
  /** What was in it when it was begun: nobody means to add what nobody typed. */
  began: string;
  fault: Fault | null;
}

/** A form of its own, or a table whose rows are such forms. */
export interface Group {
  form: Form;
  rows: Form[];
}

/** Put the rows that have room in one line into their table. */
export function grouped(tables: readonly Form[]): Group[] {
  const found: Group[] = [];
  for (const form of tables) {
    const last = found.at(-1);
    if (last?.form.flat && leadsTo(form.path, last.form.path)) last.rows.push(form);
    else found.push({ form, rows: [] });
  }
  return found;
}

/** True when something of a form has these words in it. */
export function speaksOf(form: Form, wanted: string): boolean {
  const fields = [...form.fields, ...form.row].map((one) => `${one.title} ${one.words}`);
  return `${form.path.join(" ")} ${form.title} ${form.words} ${fields.join(" ")}`.toLowerCase().includes(wanted);
}

/** What is known of a field that is typed into. */
type Typed = Pick<Field, "path" | "shown" | "raw">;

export class SettingsEdit {
  settings = $state.raw<Settings | null>(null);
  /** What was typed and is not taken yet, by place; it stays when the program does not answer. */
  drafts = $state<Record<string, string>>({});
  refused = $state<Record<string, Fault>>({});
  adding = $state<Adding | null>(null);
  private writing = new Set<string>();
  private asked = 0;

  /** `follow` asks for the fields again once one is written; those of the settings when it is left out. */
  constructor(private readonly follow: () => Promise<void> = () => this.load()) {}

  async load(): Promise<void> {
    const mine = ++this.asked;
    try {
      const found = await get<Settings>("settings");
      if (mine === this.asked) this.settings = found;
    } catch (error) {
      project.notReached(error);
    }
  }

  faultOf(field: Typed): Fault | null {
    const own = this.refused[pathKey(field.path)];
    return own ?? this.settings?.faults.find((fault) => fault.paths.some((path) => leadsTo(path, field.path))) ?? null;
  }

  textOf(field: Typed): string {
    return this.drafts[pathKey(field.path)] ?? field.shown;
  }

  type(field: Typed, text: string): void {
    this.drafts[pathKey(field.path)] = text;
  }

  escape(field: Typed): void {
    delete this.drafts[pathKey(field.path)];
    delete this.refused[pathKey(field.path)];
  }

  async leave(field: Typed): Promise<void> {
    const key = pathKey(field.path);
    const text = this.drafts[key];
    // a box is left once more while a person decides what shall stand
    if (text === undefined || this.writing.has(key)) return;
    this.writing.add(key);
    const fault =
      text.trim() === field.shown ? null : await write("settings/typed", { path: field.path, text, was: field.raw });
    if (!fault) await this.follow();
    this.writing.delete(key);
    const again = this.drafts[key] !== undefined && this.drafts[key] !== text;
    if (fault && !again) {
      this.refused[key] = fault;
      project.spoken = beside(fault);
      return;
    }
    delete this.refused[key];
    if (!again) delete this.drafts[key];
    // typed on while the program was writing: on the ground of what stands there now
    else await this.leave(this.fields().find((one) => pathKey(one.path) === key) ?? field);
  }

  /** Begin a row; one like another one starts with what stands there. */
  begin(form: Form, like: Form | null = null): void {
    const typed = Object.fromEntries((like?.fields ?? []).map((one) => [String(one.path.at(-1)), this.textOf(one)]));
    this.adding = { path: pathKey(form.path), name: "", typed, began: JSON.stringify(typed), fault: null };
  }

  /** Add the row that was begun before its table is left; false where something of it is missing. */
  async settle(): Promise<boolean> {
    const adding = this.adding;
    const form = this.settings?.tables.find((one) => pathKey(one.path) === adding?.path);
    if (!adding || !form || (!adding.name.trim() && JSON.stringify(adding.typed) === adding.began)) return true;
    return this.add(form);
  }

  /** The same where nothing can be kept open: what is missing is said at the foot. */
  async gone(): Promise<void> {
    const adding = this.adding;
    if (!(await this.settle())) project.refused = adding?.fault ?? null;
  }

  /** Add the row that was begun; returns whether it is there. */
  async add(form: Form): Promise<boolean> {
    const adding = this.adding;
    if (!adding) return false;
    const fault = await write("settings/added", { path: form.path, name: adding.name, typed: adding.typed });
    if (fault) {
      adding.fault = fault;
      project.spoken = beside(fault);
      return false;
    }
    this.adding = null;
    await this.load();
    return true;
  }

  /** The fault of what is being added, as far as it is about one key of it. */
  faultOfAdded(key: string): Fault | null {
    const fault = this.adding?.fault ?? null;
    return fault?.paths.some((path) => path.at(-1) === key || path.at(-2) === key) ? fault : null;
  }

  async remove(form: Form): Promise<void> {
    const fault = await write("settings/removed", { path: form.path, title: form.title });
    if (fault) project.spoken = beside(fault);
    else project.tell(`${form.title} is taken away.`);
  }

  private fields(): Field[] {
    return (this.settings?.tables ?? []).flatMap((form) => form.fields);
  }
}

/** Let the program make changes of what was typed, and make them in the document. */
async function write(path: string, body: unknown): Promise<Fault | null> {
  try {
    const made = await send<Rows["ChangesRow"]>(path, body);
    return await project.change(made.changes, made.label);
  } catch (error) {
    if (error instanceof Refusal) return error.fault;
    project.notReached(error);
    return { ...NOTHING, given: "The program does not answer", todo: "What you type is kept here" };
  }
}
