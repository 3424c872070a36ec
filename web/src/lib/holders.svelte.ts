/** The list of holders, asked for anew with each revision while somebody looks. */
import { get, type Rows } from "./api";
import { project } from "./project.svelte";

class Holders {
  row = $state.raw<Rows["HoldersRow"] | null>(null);
  busy = $state(false);
  private asked: AbortController | null = null;

  /** Ask for the holders of a revision; a newer request takes the place of an older one. */
  async refresh(): Promise<void> {
    this.asked?.abort();
    const asked = new AbortController();
    this.asked = asked;
    this.busy = true;
    try {
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
    const words = !row.holders.length
      ? "wait for a tool"
      : `${row.holders.length}, ${fails ? `${fails} fail` : "all hold"}`;
    const settled = row.holders.length > 0 && !fails && !row.faults.length;
    project.words = { ...project.words, holders: { words, settled } };
  }
}

export const holders = new Holders();
