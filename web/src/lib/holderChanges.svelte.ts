/** Changes of the holder that is open: they wait until the holder of this revision is here. */
import { type Change, type Rows } from "./api";
import { holders } from "./holders.svelte";
import { project } from "./project.svelte";

type Holder = Rows["ShownHolderRow"];
type Path = (string | number)[];

export class HolderChanges {
  /** What is shown, which may be that of an older revision. */
  shown = $state.raw<Holder | null>(null);
  /** What waits until the holder of this revision is here: the newest wins. */
  waits = $state.raw<(() => Promise<void>) | null>(null);
  readonly stale = $derived(this.shown !== null && this.shown.revision !== project.state?.number);

  /** Do what waits, once the holder is here. */
  settle(): void {
    if (this.stale || !this.waits) return;
    const go = this.waits;
    this.waits = null;
    void go();
  }

  /** Write a key of the table that makes this holder; the table is added where there is none. */
  async write(path: Path, value: unknown, label: string, key = ""): Promise<void> {
    const { shown } = this;
    if (!shown) return;
    if (this.stale) {
      this.waits = () => this.write(path, value, label, key);
      return;
    }
    const entry = shown.entry;
    if (entry) {
      const change: Change = { operation: "set", path: [...entry, ...path], value, guarded: false, name: "" };
      await project.changeOrSay([change], label, key);
      return;
    }
    const [first = "", second] = path;
    // the sizes of a family hold for that one alone; all else leaves the family to the program
    const own = first === "params" ? { family: shown.family } : {};
    const table = { ...shown.new_entry, ...own, [first]: second === undefined ? value : { [second]: value } };
    const change: Change = { operation: "insert", path: ["holder"], value: table, guarded: true, name: "" };
    await project.changeOrSay([change], label, key);
  }

  async unset(path: Path, label: string): Promise<void> {
    if (!this.shown?.entry) return;
    const change: Change = { operation: "unset", path: [...this.shown.entry, ...path], guarded: false, name: "" };
    await project.changeOrSay([change], label);
  }

  async use(family: string): Promise<void> {
    const { shown } = this;
    if (!shown) return;
    // the parameters of one family are not those of another
    if (shown.entry && shown.entry_raw?.["params"]) {
      const changes: Change[] = [
        { operation: "unset", path: [...shown.entry, "params"], guarded: false, name: "" },
        { operation: "set", path: [...shown.entry, "family"], value: family, guarded: false, name: "" },
      ];
      await project.changeOrSay(changes, `${family} for ${shown.name}`);
      return;
    }
    await this.write(["family"], family, `${family} for ${shown.name}`);
  }

  /** Let the program choose family, sizes and place again. */
  async free(): Promise<void> {
    const { shown } = this;
    const tool = shown?.seats.find((one) => !one.empty)?.tool;
    if (!shown || tool === undefined) return;
    try {
      await project.act(holders.place(shown.number, tool, "/free"));
      project.tell(`${shown.name} is left to the program.`);
    } catch (error) {
      project.notReached(error);
    }
  }
}
