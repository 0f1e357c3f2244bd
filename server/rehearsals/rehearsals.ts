import { randomInt, randomUUID } from "node:crypto";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { isPartner, isRehearsalId } from "../../shared/protocol/rehearsal.ts";
import type { FaultKind } from "../../shared/protocol/rehearsalFaults.ts";
import { beginCourse, tellCourse } from "../../shared/rehearsal/course.ts";
import type { RehearsalScript } from "../../shared/rehearsal/script.ts";
import { scriptFaults } from "../../shared/rehearsal/scriptFaults.ts";
import { isOver } from "../../shared/session/state.ts";
import { noteRehearsal, type Person } from "../../shared/session/step.ts";
import { rehearsalWords } from "../../shared/words/rehearsed.ts";
import { postsToVacate, recordRetold, retoldFrom } from "./back.ts";
import type { HouseScripts } from "./house-scripts.ts";
import { type LoopMeasure, LoopShare } from "./loop-share.ts";
import { planRehearsal, type RehearsalPlanDeps } from "./plan.ts";
import { eventsOf, type RecordDeps, rebuilt } from "./records.ts";
import { NoRehearsal } from "./refused.ts";
import { type RunningDeps, RunningRehearsal } from "./running.ts";

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
  /** The post it befalls, where it befalls one; absent for the usual one. */
  | { do: "throw"; fault: FaultKind; engine: number; post?: Post | undefined }
  | { do: "mark"; words: string }
  | { do: "say"; post: Post; words: string };

/** Rehearsals that run at the same time on one server. */
const MOST = 50;
/** Of one person. */
const MOST_OWN = 3;
/** A rehearsal is ended when nothing was recorded in it for this time, looked at as often as that. Milliseconds. */
const QUIET_MS = 30 * 60_000;
const LOOK_MS = 5 * 60_000;

/** The reason given for a rehearsal that a restart of the server broke off. */
const NOT_TAKEN_UP = "The server was started again, and this rehearsal could not be taken up";

type RehearsalsDeps = RehearsalPlanDeps &
  Omit<RunningDeps, "share"> &
  RecordDeps & { scripts: Pick<HouseScripts, "usable">; loop: LoopMeasure };

/** The rehearsals of this server. */
export class Rehearsals {
  readonly #deps: RehearsalsDeps & RunningDeps;
  readonly #share: LoopShare;
  /** The rehearsals that are played here, and who began each. */
  readonly #running = new Map<string, { by: string; rehearsal: RunningRehearsal }>();
  /** The people who begin one at this moment, once for each. */
  readonly #beginning: string[] = [];
  #stopLooking: () => void;
  readonly #stopHearing: () => void;

  constructor(deps: RehearsalsDeps) {
    const { sessions, timers, loop } = deps;
    this.#share = new LoopShare({ timers, loop, startsWait: () => sessions.startsWait });
    this.#deps = { ...deps, share: this.#share };
    this.#stopHearing = deps.sessions.tell({
      recorded: (id, events) => this.#running.get(id)?.rehearsal.told(events),
      unrecorded() {},
      ramp() {},
    });
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
    const played = await this.#played(script);
    const open = [...[...this.#running.values()].map(({ by }) => by), ...this.#beginning];
    const own = open.filter((by) => by === person.id).length;
    if (own >= MOST_OWN) throw new NoRehearsal("tooMany", `You have ${own} rehearsals open: end one first`);
    if (open.length >= MOST)
      throw new NoRehearsal("tooMany", `${MOST} rehearsals run already: watch one, or wait until one ends`);
    this.#beginning.push(person.id);
    try {
      const begun = await this.#begun(person, { aircraft, seed, post }, played);
      if (post !== null) await this.#endOwn(person, begun.id);
      return begun;
    } finally {
      this.#beginning.splice(this.#beginning.indexOf(person.id), 1);
    }
  }

  async #begun(
    person: Person,
    { aircraft, seed, post }: Omit<BeginInput, "script">,
    played: RehearsalScript,
  ): Promise<{ id: string; code: string }> {
    const planned = await planRehearsal(this.#deps, person, {
      commandId: randomUUID(),
      aircraft,
      script: played,
      seed: seed ?? randomInt(0xffff_ffff),
    });
    const live = await this.#deps.sessions.get(planned.id);
    const [first, ...rest] = live.after(0) ?? [];
    if (!first) throw new Error("a rehearsal that was planned has its plan");
    const course = rest.reduce(tellCourse, beginCourse(played, first));
    const rehearsal = new RunningRehearsal(this.#deps, course, post === null ? [] : [post]);
    this.#running.set(planned.id, { by: person.id, rehearsal });
    return planned;
  }

  /**
   * Ends the rehearsals that this person began and in which they play with partners alone, but for the one of this id:
   * they could take no post of that one.
   */
  async #endOwn(person: Person, but: string): Promise<void> {
    for (const [id, { by }] of this.#running) {
      if (id === but || by !== person.id) continue;
      const { state } = await this.#deps.sessions.get(id);
      const people = POSTS.flatMap((post) => state.posts[post]?.id ?? []).filter((who) => !isPartner(who));
      if (people.length > 0 && people.every((who) => who === person.id))
        await this.#abandon(id, `${person.name} began another one`);
    }
  }

  /** @throws NoRehearsal when there is no such script, or it says what cannot be meant */
  async #played(script: BeginInput["script"]): Promise<RehearsalScript> {
    const usable = typeof script === "string" ? await this.#deps.scripts.usable() : [];
    const played = typeof script === "string" ? usable.find(({ id }) => id === script) : script;
    if (!played)
      throw new NoRehearsal("faultyPlan", `no such script: ${usable.map(({ id }) => id).join(", ")}`);
    const [fault] = scriptFaults(played);
    if (fault)
      throw new NoRehearsal("faultyPlan", `${fault.path}: ${rehearsalWords("en").scriptFaults[fault.is]}`);
    return played;
  }

  /**
   * Ends a rehearsal and begins another one at a moment of it. Returns the new one's id and code.
   * @param seq the event after which it goes on
   * @throws NoRehearsal
   */
  async back(id: string, person: Person, seq: number): Promise<{ id: string; code: string }> {
    const source = this.running(id);
    this.#asInstructor(id, person);
    const by = { id: person.id, name: person.name };
    const retold = await retoldFrom(this.#deps, id, seq);
    const { state } = await this.#deps.sessions.get(id);
    const rehearsal = new RunningRehearsal(this.#deps, retold.course, []);
    const of = this.#running.get(id)?.by ?? person.id;
    this.#running.set(retold.id, { by: of, rehearsal });
    try {
      await recordRetold(this.#deps, retold);
      await rehearsal.note({ is: "goesOn", from: id, seq: retold.seq, by });
    } catch (error) {
      rehearsal.stop();
      this.#running.delete(retold.id);
      throw error;
    }
    const { frozen, speed } = source.view;
    await rehearsal.pace(frozen, speed, by);
    await rehearsal.vacate(postsToVacate(retold.course.state, state));
    await source.note({ is: "takenBack", to: retold.id, seq: retold.seq, by });
    await this.#abandon(id, `Taken back by ${person.name}`);
    return { id: retold.id, code: retold.code };
  }

  /**
   * Takes up every rehearsal that was played when the server stopped: its world is rebuilt from its record. One that
   * cannot be rebuilt is ended, and says so. Only for a server that is alone: it played them all.
   */
  async takeUp(): Promise<void> {
    for (const { id } of await this.#deps.store.openSessions()) {
      if (!isRehearsalId(id) || this.#running.has(id)) continue;
      try {
        if (!(await this.#tookUp(id))) await this.#abandon(id, NOT_TAKEN_UP);
      } catch (error) {
        this.#deps.log.error({ err: error, session: id }, "a rehearsal could not be taken up");
      }
    }
  }

  async #tookUp(id: string): Promise<boolean> {
    const { sessions } = this.#deps;
    const live = await sessions.get(id);
    const events = await eventsOf(this.#deps, id);
    const world = await rebuilt(events);
    if (!world.ok) return false;
    // Much may have been recorded while it was rebuilt.
    const more = live.after(world.course.state.seq);
    if (more === null) return false;
    const course = more.reduce(tellCourse, world.course);
    if (isOver(course.state)) return true;
    const posts = POSTS.filter((post) => !isPartner(course.state.posts[post]?.id ?? ""));
    const rehearsal = new RunningRehearsal(this.#deps, course, posts);
    const by = events[0]?.actor;
    this.#running.set(id, { by: by?.kind === "person" ? by.id : "", rehearsal });
    for (const said of world.unrecorded) await rehearsal.note(said);
    await rehearsal.goOn();
    return true;
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

  /** Ids of the rehearsals that are played on this server. */
  get playing(): Iterable<string> {
    return this.#running.keys();
  }

  /**
   * Returns whether a fault has cut this panel off in a rehearsal: it holds a post there whose tablet is dead, or whose
   * network is gone. No panel is ever cut off from a start.
   */
  isCutOff(session: string, panel: { id: string; device: string }): boolean {
    const found = isRehearsalId(session) ? this.#running.get(session)?.rehearsal : undefined;
    return found !== undefined && !found.isOver && found.isCutOff(panel);
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
        return rehearsal.pace(asked.frozen, asked.speed, by);
      case "throw":
        return rehearsal.throwNow(asked.fault, asked.engine, asked.post, by);
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
    this.#stopHearing();
    this.#share.close();
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
