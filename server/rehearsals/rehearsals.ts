import { randomInt, randomUUID } from "node:crypto";
import type { Post } from "../../shared/protocol/posts.ts";
import { isRehearsalId } from "../../shared/protocol/rehearsal.ts";
import type { FaultKind } from "../../shared/protocol/rehearsalFaults.ts";
import type { RehearsalScript } from "../../shared/rehearsal/script.ts";
import { isOver } from "../../shared/session/state.ts";
import { noteRehearsal, type Person } from "../../shared/session/step.ts";
import { planRehearsal, type RehearsalPlanDeps } from "./plan.ts";
import { NoRehearsal } from "./refused.ts";
import { type RunningDeps, RunningRehearsal } from "./running.ts";
import { SCRIPTS } from "./scripts.ts";

/** A rehearsal as a person begins it. */
export interface BeginInput {
  /** The registration of the aircraft to rehearse. */
  aircraft: string;
  /** The id of a script that comes with the program, or a script of their own. */
  script: string | RehearsalScript;
  /** Drawn anew unless given: the same seed rehearses the same. */
  seed?: number | undefined;
  /** The post that who begins it takes; null to watch. */
  post: Post | null;
}

/** What an instructor does at their desk. */
export type DeskAction =
  | { do: "pace"; frozen: boolean; speed: number }
  | { do: "throw"; fault: FaultKind; engine: number }
  | { do: "mark"; words: string }
  | { do: "say"; post: Post; words: string };

/** Rehearsals that run at the same time on one server. */
const MOST = 50;
/** Of one person. */
const MOST_OWN = 3;
/** A rehearsal is ended when nothing was recorded in it for this time, looked at as often as that. Milliseconds. */
const QUIET_MS = 30 * 60_000;
const LOOK_MS = 5 * 60_000;

type RehearsalsDeps = RehearsalPlanDeps & RunningDeps;

/** The rehearsals of this server. */
export class Rehearsals {
  readonly #deps: RehearsalsDeps;
  /** The rehearsals that are played here, and who began each. */
  readonly #running = new Map<string, { by: string; rehearsal: RunningRehearsal }>();
  #stopLooking: () => void;

  constructor(deps: RehearsalsDeps) {
    this.#deps = deps;
    this.#stopLooking = deps.timers.after(LOOK_MS, () => void this.#look());
  }

  /**
   * Begins a rehearsal. Returns its session's id and code.
   * @throws NoRehearsal
   */
  async begin(
    person: Person,
    { aircraft, script, seed, post }: BeginInput,
  ): Promise<{ id: string; code: string }> {
    for (const [id, { rehearsal }] of this.#running) if (rehearsal.isOver) this.#running.delete(id);
    const played = typeof script === "string" ? SCRIPTS.find((s) => s.id === script) : script;
    if (!played)
      throw new NoRehearsal("faultyPlan", `no such script: ${SCRIPTS.map((s) => s.id).join(", ")}`);
    const own = [...this.#running.values()].filter(({ by }) => by === person.id).length;
    if (own >= MOST_OWN) throw new NoRehearsal("tooMany", `You have ${own} rehearsals open: end one first`);
    if (this.#running.size >= MOST)
      throw new NoRehearsal("tooMany", `${MOST} rehearsals run already: watch one, or wait until one ends`);
    const planned = await planRehearsal(this.#deps, person, {
      commandId: randomUUID(),
      aircraft,
      script: played.id,
      seed: seed ?? randomInt(0xffff_ffff),
    });
    const { state } = await this.#deps.sessions.get(planned.id);
    const rehearsal = new RunningRehearsal(this.#deps, state, played, post);
    this.#running.set(planned.id, { by: person.id, rehearsal });
    return planned;
  }

  /**
   * Returns a rehearsal that is played here.
   * @throws NoRehearsal when there is none with this id
   */
  running(id: string): RunningRehearsal {
    const found = this.#running.get(id)?.rehearsal;
    if (!found || found.isOver) throw new NoRehearsal("notFound", "No rehearsal with this id is played here");
    return found;
  }

  /**
   * Does what an instructor asks of a rehearsal.
   * @throws NoRehearsal when none is played here under this id, or the person is no instructor of it
   */
  async atDesk(id: string, person: Person, asked: DeskAction): Promise<void> {
    const rehearsal = this.running(id);
    this.#asInstructor(id, person);
    const by = { id: person.id, name: person.name };
    switch (asked.do) {
      case "pace":
        return rehearsal.pace(asked.frozen, asked.speed);
      case "throw":
        return rehearsal.throwNow(asked.fault, asked.engine);
      case "mark":
        return rehearsal.note({ is: "mark", words: asked.words, by });
      case "say":
        return rehearsal.sayTo(asked.post, asked.words, by);
    }
  }

  /** @throws NoRehearsal unless the person began it, or is a supervisor */
  #asInstructor(id: string, person: Person): void {
    if (this.#running.get(id)?.by !== person.id && !person.mayHold.includes("supervisor"))
      throw new NoRehearsal("notQualified", "Who began a rehearsal, or a supervisor, may do this");
  }

  /**
   * Ends a rehearsal at once, whatever stands in it: nothing real does.
   * @throws NoRehearsal when none is open under this id, or the person neither began it nor is a supervisor
   */
  async end(id: string, person: Person): Promise<void> {
    const live = isRehearsalId(id) ? await this.#deps.sessions.get(id).catch(() => null) : null;
    if (live === null || isOver(live.state))
      throw new NoRehearsal("notFound", "No open rehearsal has this id");
    this.#asInstructor(id, person);
    await this.#abandon(id, `Ended by ${person.name}`);
  }

  /** Stops every rehearsal's clock. Their sessions stay as they are. */
  close(): void {
    this.#stopLooking();
    for (const { rehearsal } of this.#running.values()) rehearsal.stop();
    this.#running.clear();
  }

  async #abandon(id: string, reason: string): Promise<void> {
    const live = await this.#deps.sessions.get(id);
    const fact = { type: "stageReached", stage: "abandoned", reason } as const;
    await live.run((draft) => draft.take(noteRehearsal(draft.state, fact, this.#deps.clock.now())));
    this.#running.get(id)?.rehearsal.stop();
    this.#running.delete(id);
  }

  /** Ends the rehearsals in which nothing happens any more, such as those of a server that was stopped. */
  async #look(): Promise<void> {
    try {
      const before = this.#deps.clock.now() - QUIET_MS;
      for (const { id, headAt } of await this.#deps.store.openSessions())
        if (isRehearsalId(id) && headAt < before)
          await this.#abandon(id, "Nothing happened for half an hour");
    } catch (error) {
      this.#deps.log.error({ err: error }, "quiet rehearsals could not be ended");
    }
    this.#stopLooking = this.#deps.timers.after(LOOK_MS, () => void this.#look());
  }
}
