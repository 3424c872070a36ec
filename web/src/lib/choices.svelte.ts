/** The plans among which a person chooses, and the one that is chosen. */
import { get, Newest, Refusal, send, type Fault, type Rows } from "./api";
import { project } from "./project.svelte";

type Row = Rows["ChoicesRow"];
export type Plan = Rows["PlanRow"];
export type PlanWall = Rows["PlanWallRow"];

class Choices {
  row = $state.raw<Row | null>(null);
  work = $state.raw<Rows["WorkRow"] | null>(null);
  refused = $state.raw<Fault | null>(null);
  /** Whether a person wants to see plans that nobody must choose from. */
  asked = $state(false);
  private listening = false;
  private readonly newest = new Newest();

  readonly plans = $derived(this.row?.plans ?? []);
  readonly chosen = $derived(this.row?.chosen ?? null);
  readonly shown = $derived(this.plans.length > 0 && (this.asked || this.chosen !== null || this.row?.due === true));
  readonly running = $derived(this.work?.state === "running");

  /** Ask how the choice stands; plans are found at once where a person must choose. */
  async look(): Promise<void> {
    this.listen();
    try {
      await this.ask(() => get<Row>("choices"));
      if (this.row?.due && !this.row.plans.length && !this.row.work) await this.begin();
    } catch (error) {
      project.notReached(error);
    }
  }

  /** Show the plans, and find them first where they are not known. */
  async show(): Promise<void> {
    this.asked = true;
    if (!this.plans.length) await this.begin(true);
  }

  async begin(again = false): Promise<void> {
    try {
      await this.ask(() => send<Row>(`choices?again=${again}`));
    } catch (error) {
      project.notReached(error);
    }
  }

  /** Choose a plan to be seen and made; null leaves the one that was chosen. */
  async choose(plan: Plan["name"] | null): Promise<void> {
    this.refused = null;
    try {
      await this.ask(() => send<Row>("choices/choose", { plan }));
      project.spoken = plan ? `The plan ${plan} is shown.` : "The plan that was chosen is left.";
    } catch (error) {
      if (error instanceof Refusal) this.refused = error.fault;
      else project.notReached(error);
    }
  }

  async stop(): Promise<void> {
    try {
      this.work = await send<Rows["WorkRow"] | null>("work/plans/stop");
    } catch (error) {
      project.notReached(error);
    }
  }

  private listen(): void {
    if (this.listening) return;
    this.listening = true;
    project.on((event) => {
      if (event.event === "plan" || event.event === "hung") void this.look();
      if (event.event !== "work") return;
      const { name, state, stage, done, total, key } = event as unknown as Rows["WorkRow"];
      if (name === "plans") this.work = { name, key, state, stage, done, total, faults: [] };
      if (["plans", "make", "wall", "files"].includes(name) && state !== "running") void this.look();
    });
  }

  private ask(ask: () => Promise<Row>): Promise<void> {
    return this.newest.ask(ask, (row) => {
      this.row = row;
      this.work = row.work;
    });
  }
}

export const choices = new Choices();
