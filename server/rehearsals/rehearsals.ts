import { randomInt, randomUUID } from "node:crypto";
import { isRehearsalId } from "../../shared/protocol/rehearsal.ts";
import { isOver } from "../../shared/session/state.ts";
import { noteRehearsal, type Person } from "../../shared/session/step.ts";
import { planRehearsal, type RehearsalPlanDeps } from "./plan.ts";
import { NoRehearsal } from "./refused.ts";

/** A rehearsal as a person begins it. */
export interface BeginInput {
  /** The registration of the aircraft to rehearse. */
  aircraft: string;
  script: string;
  /** Drawn anew unless given: the same seed rehearses the same. */
  seed?: number | undefined;
}

/** Rehearsals that run at the same time on one server. */
const MOST = 50;
/** Of one person. */
const MOST_OWN = 3;

/** The rehearsals of this server. */
export class Rehearsals {
  readonly #deps: RehearsalPlanDeps;
  /** Who began each rehearsal that is not over. */
  readonly #begun = new Map<string, string>();

  constructor(deps: RehearsalPlanDeps) {
    this.#deps = deps;
  }

  /**
   * Begins a rehearsal. Returns its session's id and code.
   * @throws NoRehearsal
   */
  async begin(person: Person, { aircraft, script, seed }: BeginInput): Promise<{ id: string; code: string }> {
    await this.#forgetOver();
    const own = [...this.#begun.values()].filter((by) => by === person.id).length;
    if (own >= MOST_OWN) throw new NoRehearsal("tooMany", `You have ${own} rehearsals open: end one first`);
    if (this.#begun.size >= MOST)
      throw new NoRehearsal("tooMany", `${MOST} rehearsals run already: watch one, or wait until one ends`);
    const planned = await planRehearsal(this.#deps, person, {
      commandId: randomUUID(),
      aircraft,
      script,
      seed: seed ?? randomInt(0xffff_ffff),
    });
    this.#begun.set(planned.id, person.id);
    return planned;
  }

  /**
   * Ends a rehearsal at once, whatever stands in it: nothing real does.
   * @throws NoRehearsal when none is open under this id, or the person neither began it nor is a supervisor
   */
  async end(id: string, person: Person): Promise<void> {
    const live = isRehearsalId(id) ? await this.#deps.sessions.get(id) : null;
    if (live === null || isOver(live.state))
      throw new NoRehearsal("notFound", "No open rehearsal has this id");
    if (this.#begun.get(id) !== person.id && !person.mayHold.includes("supervisor"))
      throw new NoRehearsal("notQualified", "Who began a rehearsal, or a supervisor, ends it");
    const fact = { type: "stageReached", stage: "abandoned", reason: `Ended by ${person.name}` } as const;
    await live.run((draft) => draft.take(noteRehearsal(draft.state, fact, this.#deps.clock.now())));
    this.#begun.delete(id);
  }

  async #forgetOver(): Promise<void> {
    for (const id of this.#begun.keys())
      if (isOver((await this.#deps.sessions.get(id)).state)) this.#begun.delete(id);
  }
}
