/** The walls as they were last arranged, and the work on a newer plan. */
import { get, Refusal, send, type Fault, type Rows } from "./api";
import { project } from "./project.svelte";

type Work = Rows["WorkRow"];

class Walls {
  row = $state.raw<Rows["WallsRow"] | null>(null);
  work = $state.raw<Work | null>(null);
  /** The fault that stood in the way before the work could begin. */
  stands = $state.raw<Fault | null>(null);
  private listening = false;
  private asking = 0;
  private folder = "";

  /** Ask for a plan of the revision that is open; what is under way for it goes on. */
  async arrange(): Promise<void> {
    this.listen();
    const folder = project.state?.folder ?? "";
    // the plan of another workshop is no plan of this one
    if (folder !== this.folder) [this.folder, this.row, this.work] = [folder, null, null];
    const asking = ++this.asking;
    try {
      this.work = await send<Work>("walls");
      this.stands = null;
      await this.take(asking);
    } catch (error) {
      if (error instanceof Refusal) this.stands = error.fault;
      else project.notReached(error);
      this.tell();
    }
  }

  /** Search twice as long from now on: the document says so, and the plan follows. */
  async longer(): Promise<void> {
    try {
      await project.act("walls/longer");
    } catch (error) {
      project.notReached(error);
    }
  }

  async stop(): Promise<void> {
    try {
      this.work = await send<Work | null>("work/wall/stop");
    } catch (error) {
      project.notReached(error);
    }
  }

  private listen(): void {
    if (this.listening) return;
    this.listening = true;
    project.on((event) => {
      // what hangs stays where it is, and rails keep their names
      if (event.event === "hung") void this.arrange();
      if (event.event !== "work" || event["name"] !== "wall") return;
      if (this.work && event["key"] !== this.work.key) return;
      const { state, stage, done, total } = event as unknown as Work;
      if (this.work) this.work = { ...this.work, state, stage, done, total };
      if (state !== "running") void this.take(this.asking);
    });
  }

  private async take(asking: number): Promise<void> {
    try {
      const [row, work] = await Promise.all([
        get<Rows["WallsRow"] | null>("walls"),
        get<Work | null>("work/wall"),
      ]);
      if (asking !== this.asking) return;
      if (row) this.row = row;
      this.work = work;
      if (work?.state === "done") project.spoken = "The walls are arranged.";
      this.tell();
    } catch (error) {
      project.notReached(error);
    }
  }

  private tell(): void {
    const panels = this.row?.panels ?? [];
    const rails = panels.reduce((sum, panel) => sum + panel.rails.length, 0);
    const failing = panels.reduce((sum, panel) => sum + panel.failing.length, 0);
    const blocked = panels.reduce((sum, panel) => sum + panel.hung.filter((one) => one.blocked.length).length, 0);
    const fresh = this.row?.revision === project.state?.number;
    const faults = this.stands ? 1 : (this.work?.faults.length ?? 0);
    let words = `${rails} ${rails === 1 ? "rail" : "rails"}`;
    if (faults) words = "something in the way";
    else if (blocked) words += `, ${blocked} in the way`;
    else if (failing) words += ", not all holds";
    else if (!this.row) words = "being set out";
    const settled = fresh && !failing && !faults && panels.length > 0;
    project.words = { ...project.words, wall: { words, settled } };
  }
}

export const walls = new Walls();
