/** The open workshop as this page knows it: one revision, its rows, and what happens to it. */
import { tick } from "svelte";

import {
  get,
  NotReached,
  Refusal,
  send,
  type Change,
  type Fault,
  type Kind,
  type Standing,
  type State,
  type Tools,
} from "./api";

export const SHEETS = ["tools", "holders", "wall", "make"] as const;
export type SheetName = (typeof SHEETS)[number];

interface Event {
  event: string;
  instance?: string;
  number?: number;
  [key: string]: unknown;
}

export interface StationWords {
  words: string;
  settled: boolean;
}

/** What opens over a sheet, as a note at its side. */
export type Panel = "" | "settings" | "help" | "outside" | "setting out";

/** A change that was refused since something else stands there now, until somebody decides. */
export interface Conflict {
  changes: Change[];
  label: string;
  standing: Standing[];
  decide: (mine: boolean[]) => void;
}

export interface NextStep {
  words: string;
  title: string;
  key?: string;
  act: () => void;
}

const OPEN_STATION: StationWords = { words: "", settled: false };

class Project {
  /** Undefined before the first answer, null when no workshop is open. */
  state = $state.raw<State | null | undefined>(undefined);
  tools = $state.raw<Tools | null>(null);
  kinds = $state.raw<Kind[]>([]);
  reached = $state(true);
  sheet = $state<SheetName>("tools");
  /** Spoken to those who do not see it: positions, faults, the end of work. */
  spoken = $state("");
  /** A dark line that tells what was taken away, and can bring it again. */
  told = $state.raw<{ text: string; undo: boolean } | null>(null);
  refused = $state.raw<Fault | null>(null);
  conflict = $state.raw<Conflict | null>(null);
  panel = $state<Panel>("");
  /** Whether everything is being searched. */
  finding = $state(false);
  /** What the sheet Tools opens beside it when it is next shown. */
  beside = $state<"" | "paste">("");
  /** True when another start of the program answers, which does not know this page. */
  anew = $state(false);
  /** The number of the holder, and of the tool, that is chosen on every sheet. */
  holder = $state<number | null>(null);
  tool = $state<number | null>(null);

  /** What the stations of the rod say; each sheet keeps its own. */
  words = $state.raw<Record<"holders" | "wall" | "make", StationWords>>({
    holders: OPEN_STATION,
    wall: OPEN_STATION,
    make: OPEN_STATION,
  });
  /** The one thing to do next. */
  next = $state.raw<NextStep | null>(null);

  readonly unit = $derived(this.state?.unit ?? "mm");
  /** By how much something on the wall is moved at a time. */
  readonly moving = $derived(this.state?.moving ?? { fine_mm: 1, fine: "", coarse_mm: 10, coarse: "" });
  readonly kindOf = $derived(new Map(this.kinds.map((kind) => [kind.name, kind])));

  /** What is asked before a panel is closed: whether nothing of it waits. */
  private leaves = new Set<() => Promise<boolean>>();
  private listeners = new Set<(event: Event) => void>();
  private asking = 0;
  private settling: Promise<unknown> = Promise.resolve();
  private changing: Promise<unknown> = Promise.resolve();
  private waiting = 0;
  /** The newest asking for everything of a revision, which never fails. */
  private knowing: Promise<void> = Promise.resolve();
  /** What is asked before all else of a revision; the rest waits until it is here. */
  private first: Promise<unknown> = Promise.resolve();
  /** How many changes of this page are under way, and which revision was told of meanwhile. */
  private sending = 0;
  private heard: Event | null = null;
  private hides: ReturnType<typeof setTimeout> | undefined;

  /** Ask before a panel is closed, until what is returned is called. */
  leaving(ask: () => Promise<boolean>): () => void {
    this.leaves.add(ask);
    return () => this.leaves.delete(ask);
  }

  /** True when a panel may be closed; what waits in it is written first. */
  async mayLeave(): Promise<boolean> {
    for (const ask of this.leaves) if (!(await ask())) return false;
    return true;
  }

  /** Show a panel, or none, once nothing waits in the one that is shown. */
  async show(panel: Panel): Promise<void> {
    if (await this.mayLeave()) this.panel = panel;
  }

  async begin(): Promise<void> {
    this.listen();
    await this.refresh();
  }

  /** Ask for everything of the revision at which the document is now. */
  refresh(): Promise<void> {
    this.knowing = this.learn();
    return this.knowing;
  }

  private async learn(): Promise<void> {
    const asking = ++this.asking;
    try {
      const state = await get<State | null>("state");
      const tools = state ? await get<Tools>("tools") : null;
      if (state) this.know(state);
      if (asking !== this.asking) return;
      this.state = state;
      this.tools = tools;
      this.reached = true;
      this.anew = false;
    } catch (error) {
      this.notReached(error);
    }
  }

  /** Ask for what a person looks at before anything else: one such thing after the other. */
  ahead<Found>(ask: () => Promise<Found>): Promise<Found> {
    const made = this.first.then(ask);
    this.first = made.catch(() => undefined);
    return made;
  }

  /** Wait until what a person looks at is here. */
  async rest(): Promise<void> {
    // what is on the screen asks as soon as it has the state
    await tick();
    let last: Promise<unknown>;
    do {
      last = this.first;
      await last;
    } while (last !== this.first);
  }

  /** Ask for the tools of a revision of which the state is here already. */
  private async follow(): Promise<void> {
    const asking = ++this.asking;
    await this.rest();
    if (asking !== this.asking) return;
    try {
      const tools = await get<Tools>("tools");
      if (asking !== this.asking) return;
      this.tools = tools;
      this.reached = true;
    } catch (error) {
      this.notReached(error);
    }
  }

  private know(state: State): void {
    if (this.kinds.length && this.state?.unit === state.unit) return;
    void this.learnKinds(state.unit);
  }

  /** Change the document: one step of undo. Returns the fault that stands in its way, or null. */
  change(changes: Change[], label: string, key = ""): Promise<Fault | null> {
    this.waiting += 1;
    const made = this.inTurn(() => this.changeNow(changes, label, key));
    return made.then(async (fault) => {
      // what waits for a person keeps no other change waiting
      if (fault === MEANWHILE) return this.settle(changes, label, key);
      // those that wait will ask again
      if (!fault && !this.waiting) await this.follow();
      return fault;
    });
  }

  /** Change the document where no field can show what stands in the way: it is said at the foot. */
  async changeOrSay(changes: Change[], label: string, key = ""): Promise<boolean> {
    const fault = await this.change(changes, label, key);
    if (fault?.code) this.refused = fault;
    return !fault;
  }

  /**
   * Do what makes a revision: one after the other, in the order in which a person did it. Undo is
   * no exception, so that it takes back what was done last and not what was there before.
   */
  private inTurn<Found>(act: () => Promise<Found>): Promise<Found> {
    const made = this.changing.then(act);
    this.changing = made.catch(() => undefined);
    return made;
  }

  /** Send what makes a revision, in its turn, and follow it; `taken` is told as soon as it is written. */
  async act(path: string, body?: unknown, taken?: () => void): Promise<void> {
    await this.inTurn(() => this.sent(path, body));
    taken?.();
    await this.follow();
  }

  /** Send what makes a revision and answers with something else, in its turn, and learn of it. */
  say<Found>(path: string, body: unknown): Promise<Found> {
    return this.inTurn(() =>
      this.quietly(async () => {
        const found = await send<Found>(path, body);
        this.refused = null;
        await this.refresh();
        return found;
      }),
    );
  }

  private async changeNow(changes: Change[], label: string, key: string): Promise<Fault | null> {
    this.waiting -= 1;
    try {
      await this.sent("changes", { changes, label, key });
      return null;
    } catch (error) {
      if (error instanceof Refusal) return error.status === 409 ? MEANWHILE : error.fault;
      this.notReached(error);
      return { ...NOTHING, sentence: "The program does not answer. What you type is kept here." };
    }
  }

  /** Send what makes a revision and take over its state. */
  private sent(path: string, body?: unknown): Promise<void> {
    return this.quietly(async () => {
      const state = await send<State>(path, body);
      // what is asked already is of what was there before
      this.asking += 1;
      this.know(state);
      this.state = state;
      this.refused = null;
    });
  }

  /** Do what makes a revision, so that what is told of it is no news. */
  private async quietly<Found>(act: () => Promise<Found>): Promise<Found> {
    this.sending += 1;
    try {
      return await act();
    } finally {
      this.sending -= 1;
      const heard = this.heard;
      this.heard = null;
      if (heard && this.isNews(heard)) void this.refresh();
    }
  }

  /** Show what was typed and what stands there now, and do what the person decides. */
  private async settle(changes: Change[], label: string, key: string): Promise<Fault | null> {
    // one question at a time
    const turn = this.settling.then(() => this.ask(changes, label));
    this.settling = turn.then(() => undefined);
    const kept = await turn;
    if (!kept) return { ...NOTHING, given: "Something else stands there", sentence: "Something else stands there." };
    return kept.length ? this.change(kept, label, key) : null;
  }

  /** The changes that a person keeps, on the ground of what stands there now; null if nobody can be asked. */
  private async ask(changes: Change[], label: string): Promise<Change[] | null> {
    await this.refresh();
    let standing: Standing[];
    try {
      standing = await send<Standing[]>("standing", { changes, label });
    } catch (error) {
      this.notReached(error);
      return null;
    }
    this.spoken = `${label}: something else stands there since you began.`;
    const mine = await new Promise<boolean[]>((decide) => {
      this.conflict = { changes, label, standing, decide };
    });
    this.conflict = null;
    return changes.flatMap((change, number) => {
      const was = standing[number]?.raw ?? null;
      return mine[number] ? [{ ...change, was }] : [];
    });
  }

  /** One table of a row as it stands in the document; null where it is not there. */
  async entry(table: string, number: number): Promise<Record<string, unknown> | null> {
    try {
      return await get<Record<string, unknown>>(`entries/${table}/${number}`);
    } catch (error) {
      this.notReached(error);
      return null;
    }
  }

  async undo(): Promise<void> {
    await this.step("undo");
  }

  async redo(): Promise<void> {
    await this.step("redo");
  }

  /** Say for eight seconds what was taken away. */
  tell(text: string, undo = true): void {
    clearTimeout(this.hides);
    this.told = { text, undo };
    this.spoken = text;
    this.hides = setTimeout(() => (this.told = null), 8000);
  }

  /** Keep the dark line while somebody points at it. */
  hold(): void {
    clearTimeout(this.hides);
  }

  on(listener: (event: Event) => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  notReached(error: unknown): void {
    if (error instanceof NotReached) {
      this.reached = false;
      this.anew = error.status === 401 || error.status === 421;
    }
    else if (error instanceof Refusal) this.refused = error.fault;
    else throw error;
  }

  async learnKinds(unit: string): Promise<void> {
    try {
      this.kinds = await get<Kind[]>(`kinds?unit=${unit}`);
    } catch (error) {
      this.notReached(error);
    }
  }

  private async step(what: "undo" | "redo"): Promise<void> {
    try {
      if (await this.inTurn(() => this.stepNow(what))) await this.follow();
    } catch (error) {
      this.notReached(error);
    }
  }

  private async stepNow(what: "undo" | "redo"): Promise<boolean> {
    // what happened is seen before the page has its revision
    let last: Promise<void>;
    do {
      last = this.knowing;
      await last;
    } while (last !== this.knowing);
    const label = what === "undo" ? this.state?.undoes : this.state?.redoes;
    if (!label) return false;
    await this.sent(what);
    this.told = null;
    this.spoken = what === "undo" ? `Undone: ${label}` : `Done again: ${label}`;
    return true;
  }

  private listen(): void {
    const socket = new WebSocket(`ws://${location.host}/api/live`);
    socket.onopen = () => {
      if (!this.reached) void this.refresh();
      this.reached = true;
      this.anew = false;
    };
    socket.onmessage = (message: MessageEvent<string>) => {
      const event = JSON.parse(message.data) as Event;
      if (event.event === "reload") void this.refresh();
      if (event.event === "revision" && this.isNews(event)) {
        // the answer to what this page sends is on its way
        if (this.sending) this.heard = event;
        else void this.refresh();
      }
      for (const listener of this.listeners) listener(event);
    };
    socket.onclose = () => {
      this.reached = false;
      // says whether nothing answers, or another start of the program
      void this.refresh();
      setTimeout(() => this.listen(), 1000);
    };
  }

  private isNews(event: Event): boolean {
    const state = this.state;
    return !state || event.instance !== state.instance || (event.number ?? 0) > state.number;
  }
}

export const NOTHING: Fault = {
  code: "",
  paths: [],
  sentence: "",
  given: "",
  allowed: "",
  todo: "",
  line: "",
};

/** Stands for a change that was refused since something else stands there now. */
const MEANWHILE: Fault = { ...NOTHING, code: "changed-meanwhile" };

export const project = new Project();
