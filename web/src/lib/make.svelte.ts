/** What is to be made, what was written, and what hangs; the work on a newer revision goes on behind it. */
import { get, Newest, Refusal, send, type Fault, type Rows } from "./api";
import { choices } from "./choices.svelte";
import { project } from "./project.svelte";

type Work = Rows["WorkRow"];
export type Sheet = Rows["MakeSheetRow"];
export type Bed = Rows["BedRow"];
export type Paper = Rows["ShownPaperRow"];
export type Hung = Rows["WhatHangsRow"];
export type Piece = Hung["papers"][number];
export type Part = Piece["parts"][number];
export type PartState = Part["state"];
export type Files = Rows["FilesRow"];

const NAMES = ["make", "files"];

class Make {
  row = $state.raw<Rows["MakeRow"] | null>(null);
  files = $state.raw<Files | null>(null);
  hung = $state.raw<Hung | null>(null);
  /** Why what was said to hang was not taken. */
  refused = $state.raw<Fault | null>(null);
  /** Says it again for somebody who has seen to what does not hold. */
  anyway = $state.raw<(() => Promise<void>) | null>(null);
  work = $state.raw<Work | null>(null);
  writing = $state.raw<Work | null>(null);
  /** The paper that is shown. */
  paper = $state("wall/elevation.svg");
  private listening = false;
  private readonly newest = { row: new Newest(), files: new Newest(), hung: new Newest() };

  readonly sheet = $derived(this.row?.sheet ?? null);
  readonly running = $derived(this.work?.state === "running");
  readonly faults = $derived(this.work?.state === "failed" ? this.work.faults : []);
  readonly stale = $derived(
    this.row !== null &&
      (this.row.stale || this.row.revision !== project.state?.number || this.row.plan !== choices.chosen || this.running),
  );
  /** Everything is written as it would be made now, but for what is told of it since it is printed or hangs. */
  readonly made = $derived.by(() => {
    const sheet = this.sheet;
    if (!sheet || this.stale) return false;
    return sheet.since.same || (sheet.since.placed && (sheet.changes.hangs || sheet.ready > 0));
  });

  /** Begin what is new, and take what is there. */
  async begin(again = false): Promise<void> {
    this.listen();
    try {
      await this.askRow(() => send(`make?again=${again}`));
      await this.askFiles(() => get("make/files"));
      await this.lookAtWall();
    } catch (error) {
      project.notReached(error);
    }
    this.tell();
  }

  /** What the ledger says is known at once, before anything is computed. */
  async lookAtWall(): Promise<void> {
    try {
      await this.newest.hung.ask(
        () => get<Hung>("hung"),
        (found) => (this.hung = found),
      );
    } catch (error) {
      if (error instanceof Refusal) this.refused = error.fault;
      else project.notReached(error);
    }
    this.tell();
  }

  async write(): Promise<void> {
    try {
      await this.askFiles(() => send("make/files"));
    } catch (error) {
      project.notReached(error);
    }
  }

  async stop(name: "make" | "files"): Promise<void> {
    try {
      const work = await send<Work | null>(`work/${name}/stop`);
      if (name === "make") this.work = work;
      else this.writing = work;
    } catch (error) {
      project.notReached(error);
    }
  }

  /** Say that all of what was made hangs. */
  async sayAll(words: string, anyway = false): Promise<void> {
    await this.keep("hung", { numbers: null, anyway, label: words }, words, () => this.sayAll(words, true));
  }

  /** Say in which state parts are: by their marks, or by their numbers in all drawings. */
  async say(state: PartState | "spare", parts: readonly string[], words: string, anyway = false): Promise<void> {
    const again = () => this.say(state, parts, words, true);
    await this.keep("parts", { state, parts, anyway, label: words }, words, again);
  }

  /** Forget rails, or all that hangs. */
  async forget(rails: string[] | null, words: string): Promise<void> {
    await this.keep("hung/forget", { rails, label: words }, words, null);
  }

  private async keep(path: string, body: unknown, words: string, anyway: (() => Promise<void>) | null): Promise<void> {
    try {
      await this.newest.hung.ask(
        () => project.say<Hung>(path, body),
        (found) => (this.hung = found),
      );
      this.refused = null;
      project.tell(`${words.charAt(0).toUpperCase()}${words.slice(1)}.`);
      await this.begin();
    } catch (error) {
      if (error instanceof Refusal) {
        this.refused = error.fault;
        this.anyway = error.fault.code === "design" ? anyway : null;
        project.spoken = error.fault.sentence;
      } else project.notReached(error);
    }
  }

  private listen(): void {
    if (this.listening) return;
    this.listening = true;
    project.on((event) => {
      if (event.event === "hung") void this.lookAtWall();
      const name = String(event["name"]);
      if (event.event !== "work" || !NAMES.includes(name)) return;
      const { state, stage, done, total, key } = event as unknown as Work;
      const before = name === "make" ? this.work : this.writing;
      const work = { name, key, state, stage, done, total, faults: before?.faults ?? [] };
      if (name === "make") this.work = work;
      else this.writing = work;
      if (state !== "running") void this.take(name, state);
    });
  }

  private async take(name: string, state: Work["state"]): Promise<void> {
    try {
      await this.askRow(() => get("make"));
      if (name === "files") {
        await this.askFiles(() => get("make/files"));
        if (state === "done") {
          project.spoken = this.files?.summary[0] ?? "";
          // what was written stands in the ledger, and the next plan goes by it
          await this.begin();
        }
      } else if (state === "done") project.spoken = "Beds, boards and papers are those of this revision.";
    } catch (error) {
      project.notReached(error);
    }
    this.tell();
  }

  private askRow(ask: () => Promise<Rows["MakeRow"]>): Promise<void> {
    return this.newest.row.ask(ask, (row) => {
      this.row = row;
      this.work = row.work;
    });
  }

  private askFiles(ask: () => Promise<Files>): Promise<void> {
    return this.newest.files.ask(ask, (files) => {
      this.files = files;
      this.writing = files.work;
    });
  }

  private tell(): void {
    const sheet = this.sheet;
    let words = project.tools?.tools ? "not made yet" : "waits for a tool";
    let settled = false;
    if (this.faults.length) words = "something in the way";
    else if (sheet) {
      const boards = sheet.wood.boards.length;
      words = `${count(sheet.beds.length, "bed")}, ${count(boards || sheet.rails, boards ? "board" : "rail")}`;
      if (sheet.failing.length) words += ", not all holds";
      else if (this.made) words += ", made";
      settled = this.made && !sheet.failing.length;
    } else if (this.running) words = "being worked out";
    else if (this.hung?.made) words = "made before";
    project.words = { ...project.words, make: { words, settled } };
  }
}

export function count(number: number, name: string): string {
  return `${number} ${name}${number === 1 ? "" : "s"}`;
}

/** Say that all of a bed is printed. */
export function sayPrinted(bed: Bed): Promise<void> {
  return make.say("printed", bed.parts.map((one) => one.mark), `${bed.name} is printed`);
}

/** The address of a file of the set. */
export function fileAddress(path: string, save = false): string {
  return `/api/make/file?path=${encodeURIComponent(path)}${save ? "&save=true" : ""}`;
}

export const make = new Make();
