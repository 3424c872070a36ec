/** The list of holders, asked for anew with each revision while somebody looks. */
import { tick } from "svelte";

import { get, Refusal, type Rows } from "./api";
import { project } from "./project.svelte";

class Holders {
  row = $state.raw<Rows["HoldersRow"] | null>(null);
  busy = $state(false);
  private asked: AbortController | null = null;
  private listed: Promise<void> = Promise.resolve();

  /** Ask for the holders of a revision; a newer request takes the place of an older one. */
  refresh(): Promise<void> {
    this.listed = this.list();
    return this.listed;
  }

  private async list(): Promise<void> {
    this.asked?.abort();
    const asked = new AbortController();
    this.asked = asked;
    this.busy = true;
    try {
      // the one that is open goes first
      await project.rest();
      asked.signal.throwIfAborted();
      const row = await get<Rows["HoldersRow"]>("holders", asked.signal);
      this.follow(row);
      this.row = row;
      this.tell(row);
    } catch (error) {
      if (!(error instanceof DOMException)) project.notReached(error);
    } finally {
      if (this.asked === asked) this.busy = false;
    }
  }

  /** Where a holder is asked for: by its first tool, which keeps it when its number changes. */
  place(number: number, tool: string, what = ""): string {
    return `holders/${number}${what}?tool=${encodeURIComponent(tool)}`;
  }

  /**
   * Ask for something of the open holder before all else. Whether it is still there, the list
   * tells, so that a refusal is shown when that is here and has it. Returns what stops asking.
   */
  ahead<Found>(
    place: string,
    ask: (place: string, signal: AbortSignal) => Promise<Found>,
    take: (found: Found) => void,
  ): () => void {
    const asked = new AbortController();
    const goes = project.ahead(() => ask(place, asked.signal)).then(take);
    goes.catch(async (error: unknown) => {
      if (error instanceof Refusal) await this.listed.then(tick);
      if (!asked.signal.aborted) project.notReached(error);
    });
    return () => asked.abort();
  }

  /** Keep the same holder chosen when its number changes: it is the one with the same tool. */
  private follow(row: Rows["HoldersRow"]): void {
    const chosen = this.row?.holders.find((one) => one.number === project.holder);
    const tool = chosen?.tools[0];
    if (tool === undefined) return;
    const now = row.holders.find((one) => one.tools.includes(tool));
    if (now) project.holder = now.number;
  }

  private tell(row: Rows["HoldersRow"]): void {
    const fails = row.holders.filter((one) => one.state === "fails").length;
    const stand = [fails ? `${fails} fail` : "", row.faults.length ? `${row.faults.length} to mend` : ""].filter(Boolean);
    const words =
      row.holders.length || row.faults.length
        ? `${row.holders.length}, ${stand.join(", ") || "all hold"}`
        : "wait for a tool";
    const settled = row.holders.length > 0 && !fails && !row.faults.length;
    project.words = { ...project.words, holders: { words, settled } };
  }
}

export const holders = new Holders();
