/** Another arrangement beside the one that is, and room made where others hang. */
import { get, Newest, Refusal, send, type Fault, type Rows } from "./api";
import { project } from "./project.svelte";

export type Again = Rows["AgainRow"];
export type Room = Rows["RoomRow"];
export type Asked = Rows["AskedRow"];
type Event = { event: string; name?: unknown; state?: unknown; found?: unknown; done?: unknown; total?: unknown };

class Plans {
  again = $state.raw<Again | null>(null);
  room = $state.raw<Room | null>(null);
  wanted = $state.raw<Rows["PreferenceRow"][]>([]);
  /** Why something was not taken. */
  refused = $state.raw<Fault | null>(null);
  private listening = false;
  private readonly newest = { again: new Newest(), room: new Newest() };
  private counts = { again: 0, room: 0 };

  /** Ask for what is under way, and hear of it from now on. */
  async look(): Promise<void> {
    this.listen();
    try {
      if (!this.wanted.length) this.wanted = await get<Rows["PreferenceRow"][]>("again/wanted");
    } catch (error) {
      project.notReached(error);
    }
    await Promise.all([this.lookAgain(), this.lookRoom()]);
  }

  /** Begin to look for another one; returns whether that goes on. */
  async begin(asked: Asked): Promise<boolean> {
    return this.act(async () => {
      this.again = null;
      await send("again", asked);
      await this.lookAgain();
    });
  }

  /** Stop, and keep the best so far. */
  async stop(): Promise<void> {
    await this.act(() => send("work/again/stop"));
  }

  async drop(): Promise<void> {
    await this.act(() => send("again/drop"));
    this.again = null;
  }

  /** Take what was found; returns whether it was taken. */
  async take(): Promise<boolean> {
    return this.act(async () => {
      await project.act("again/take", undefined, () => (this.again = null));
      project.tell("The other arrangement is taken.");
    });
  }

  async makeRoom(key: string, x_mm: number, z_mm: number): Promise<void> {
    await this.act(async () => {
      this.room = null;
      await send("room", { key, x_mm, z_mm });
      await this.lookRoom();
    });
  }

  /** Put it there; `taken` is told as soon as that is written. */
  async takeRoom(taken: () => void): Promise<void> {
    await this.act(async () => {
      await project.act("room/take", undefined, () => {
        taken();
        this.room = null;
      });
    });
  }

  async dropRoom(): Promise<void> {
    this.room = null;
    await this.act(() => send("room/drop"));
  }

  private async act(what: () => Promise<unknown>): Promise<boolean> {
    this.refused = null;
    try {
      await what();
      return true;
    } catch (error) {
      if (error instanceof Refusal) {
        this.refused = error.fault;
        project.spoken = error.fault.sentence;
      } else project.notReached(error);
      return false;
    }
  }

  private listen(): void {
    if (this.listening) return;
    this.listening = true;
    project.on((event: Event) => {
      if (event.event !== "work") return;
      const { name, state, done, total } = event;
      const found = Number(event.found ?? 0);
      if (name === "again") {
        if (state !== this.again?.state || found !== this.counts.again) void this.lookAgain();
        else if (this.again) this.again = { ...this.again, done: Number(done), total: Number(total) };
        this.counts.again = found;
      }
      if (name === "room" && (state !== this.room?.state || found !== this.counts.room)) {
        this.counts.room = found;
        void this.lookRoom();
      }
    });
  }

  private async lookAgain(): Promise<void> {
    try {
      await this.newest.again.ask(
        () => get<Again | null>("again"),
        (found) => {
          // while the wall is planned anew, what was seen last stays
          const kept = found && !found.two && found.tried ? (this.again?.two ?? null) : null;
          this.again = found && kept ? { ...found, two: kept } : found;
          if (found?.state === "done") project.spoken = "The search for another arrangement is done.";
        },
      );
    } catch (error) {
      project.notReached(error);
    }
  }

  private async lookRoom(): Promise<void> {
    try {
      await this.newest.room.ask(
        () => get<Room | null>("room"),
        (found) => (this.room = found),
      );
    } catch (error) {
      project.notReached(error);
    }
  }
}

export const plans = new Plans();
