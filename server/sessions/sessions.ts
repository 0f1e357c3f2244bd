import { genesis, type Sealed, seal } from "../../shared/evidence/chain.ts";
import { fieldFor } from "../../shared/field/fieldFor.ts";
import { offeredTo } from "../../shared/posts/offeredTo.ts";
import type { Command } from "../../shared/protocol/commands.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { Field } from "../../shared/protocol/field.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { CommandResult } from "../../shared/protocol/refusal.ts";
import { isRehearsalId } from "../../shared/protocol/rehearsal.ts";
import { FROM_SECURE } from "../../shared/protocol/stages.ts";
import type { Unrecorded } from "../../shared/protocol/wire.ts";
import { nextDeadline } from "../../shared/session/deadline.ts";
import { isOver } from "../../shared/session/state.ts";
import { type Person, type Step, tick, voidPermissions } from "../../shared/session/step.ts";
import { sha256 } from "../sha256.ts";
import type { SessionHead } from "../store/events.ts";
import { TRACES } from "../telemetry/trace.ts";
import { appendTraced } from "./append-traced.ts";
import { type Audience, Audiences } from "./audience.ts";
import { Commands } from "./commands.ts";
import { Contributions } from "./contributions.ts";
import { Deadlines } from "./deadlines.ts";
import { kept, type SessionsDeps } from "./deps.ts";
import { FieldReports, reportingAt } from "./field-reports.ts";
import { HeldSessions } from "./held-sessions.ts";
import type { LiveSession } from "./live-session.ts";
import { News } from "./news.ts";
import { type Answered, noteAnswers } from "./recorded.ts";
import { Reopening } from "./reopening.ts";
import { type RowBase, rowOf } from "./row.ts";
import { Supervised } from "./supervised.ts";

/** Longer events are left out of announcements; the other servers read them from the store. */
const TOLD_CHARACTERS = 32_000;

/** All start sessions of this server: loads them, passes them commands, and wakes them at deadlines. */
export class Sessions {
  readonly #deps: SessionsDeps;
  readonly #deadlines: Deadlines;
  readonly #held: HeldSessions;
  readonly #reopening: Reopening;
  readonly #commands: Commands;
  readonly #contributions: Contributions;
  readonly #news: News;
  readonly #field = new FieldReports();
  readonly #supervised = new Supervised();
  readonly #audience = new Audiences();
  /** Commands in starts that are not answered yet. */
  #answering = 0;

  constructor(deps: SessionsDeps) {
    this.#deps = deps;
    this.#deadlines = new Deadlines(deps.clock, deps.timers, (id, at) => void this.#due(id, at));
    this.#reopening = new Reopening(deps, (id) => this.#held.get(id));
    this.#held = new HeldSessions(
      deps,
      this.#field,
      this.#supervised,
      (live) => this.#reopening.record(live),
      (state) => this.#deadlines.set(state.id, nextDeadline(state)),
      (live, events, sealed) => this.#published(live, events, sealed),
    );
    this.#commands = new Commands(
      deps,
      this.#held,
      { field: this.#field, supervised: this.#supervised, whole: () => this.whole },
      (notice) => {
        this.#audience.unrecorded(notice);
        deps.bus.send({ is: "unrecorded", notice });
      },
    );
    this.#contributions = new Contributions(deps, this.#held);
    this.#news = new News(deps, this.#held, this.#field, this.#supervised);
    deps.records.listen(
      (aircraft) => void this.#news.ofAircraft(aircraft),
      () => this.#audience.ramp(),
    );
  }

  /** Tells an audience everything that is recorded from now on. Returns a function that stops this. */
  tell(audience: Audience): () => void {
    return this.#audience.add(audience);
  }

  /** Returns how many starts are open in memory, and how many holds stand in them. It asks no database. */
  overview(): { live: number; holds: number } {
    const open = this.#held.allOpen().filter(({ state }) => !state.rehearsal);
    return { live: open.length, holds: open.reduce((sum, { state }) => sum + state.holds.length, 0) };
  }

  /**
   * Takes over what another server recorded up to `seq`. An unknown session is loaded, so that its deadlines run here
   * too.
   * @param said the announced events, if any came along
   */
  async follow(id: string, seq: number, said: readonly Sealed[] = []): Promise<void> {
    try {
      const held = this.#held.inMemory(id);
      if (held) return await (await held).follow(seq, said);
      const begun = await this.get(id);
      this.#audience.recorded(id, begun.after(0) ?? []);
      this.#audience.ramp();
    } catch (error) {
      this.#deps.log.error({ err: error, session: id }, "what another server recorded could not be read");
    }
  }

  /** Takes over the latest events of every open session, and the last events of those that are over now. */
  async followAll(heads: readonly SessionHead[]): Promise<void> {
    const open = new Map(heads.map((head) => [head.id, head.headSeq]));
    const ended = this.#held.openIds().filter((id) => !open.has(id));
    await Promise.all([
      ...[...open].map(([id, seq]) => this.follow(id, seq)),
      ...ended.map((id) => this.follow(id, Number.POSITIVE_INFINITY)),
    ]);
  }

  /** Broadcasts a stop that another server could not record. */
  passedOn(notice: Unrecorded): void {
    this.#audience.unrecorded(notice);
  }

  /** Tells every panel, here and on the other servers, that people, aircraft or types of the house changed. */
  houseChanged(): void {
    this.houseMoved();
    this.#deps.bus.send({ is: "houseMoved" });
  }

  /** Tells the panels of this server alone: another server changed something of the house. */
  houseMoved(): void {
    this.#audience.ramp();
  }

  /**
   * Begins to read every open session and to record the server's start in it. That voids clearances; holds stand. Each
   * session can be used as soon as its own restart is recorded.
   */
  reopen(): Promise<void> {
    return this.#reopening.begin(() => this.contributeAll());
  }

  /**
   * Resolves once every session that was open at the server's start is in memory. What raises confidence waits for it:
   * it may depend on another session, of the same aircraft, field or supervisor.
   */
  get whole(): Promise<void> {
    return this.#reopening.whole;
  }

  /** Records in every open session that the wall clock was set by `by` milliseconds. That voids clearances. */
  async clockStepped(by: number): Promise<void> {
    this.#deps.log.error({ by }, "the machine's clock was set: clearances are void");
    const rows = await this.#deps.store.openSessions();
    await Promise.all(rows.map((row) => this.#clockStepped(row.id, by)));
  }

  /**
   * Returns the session, loaded from the store if need be.
   * @throws NoSuchSession
   * @throws StoreFailure when its events cannot be read, or are not what was recorded
   */
  get(id: string): Promise<LiveSession> {
    return this.#held.get(id);
  }

  /**
   * Begins a session with the step that planned it.
   * @throws ConcurrencyError when its code or its plan's command id is taken
   * @throws StoreFailure
   */
  async begin(base: RowBase, step: Step): Promise<void> {
    const [event] = step.events;
    if (!event) throw new Error("a plan is an event");
    const sealed = seal(this.#deps.names.pseudonymise(event), genesis(event.session, sha256), sha256);
    const row = rowOf(base, step.state, sealed.hash);
    const { at, command, fact } = event;
    const stored = [{ ...sealed, at, command, type: fact.type }];
    await kept(this.#deps, appendTraced(this.#deps.store, { expected: 0, events: stored, row }));
    const answered = new Map<string, Answered>();
    noteAnswers(answered, step.events);
    // Follow may have found it in the store meanwhile and loaded it.
    this.#held.add(row, { state: step.state, headHash: sealed.hash, answered, tail: step.events });
    this.#deps.clock.recorded(at);
    await this.#contributions.add(step.state);
    this.#deps.bus.send({ is: "moved", session: row.id, seq: step.state.seq });
    this.#audience.recorded(row.id, step.events);
    this.#audience.ramp();
  }

  /**
   * Decides a person's command. Resolves once the answer is durable. On any error except NoSuchSession, or after 1 s,
   * a stop was broadcast without being recorded.
   * @param flood the person exceeds the limit for stops: a stop that already stands is not recorded again, and the
   * answer has the number under which it stands
   * @param confirmed the person entered their PIN again for this command
   * @throws NoSuchSession
   * @throws StoreFailure when nothing could be recorded
   * @throws PinNeeded when an override is not confirmed; nothing is recorded
   */
  command(
    person: Person,
    command: Command,
    said: { flood?: boolean; confirmed?: boolean } = {},
  ): Promise<CommandResult> {
    const answer = this.#commands.answer(person, command, said);
    if (isRehearsalId(command.session)) return answer;
    this.#answering += 1;
    return answer.finally(() => {
      this.#answering -= 1;
    });
  }

  /** Whether somebody in a start waits for the answer to a command. */
  get startsWait(): boolean {
    return this.#answering > 0;
  }

  /** Returns the open session of an aircraft that has left its brief; undefined when there is none. */
  underWay(aircraft: string): LiveSession | undefined {
    return this.#openStarts().find(
      ({ state }) => state.aircraft === aircraft && FROM_SECURE.includes(state.stage),
    );
  }

  /** Returns the open sessions at a place, without rehearsals. */
  openAtPlace(place: string): LiveSession[] {
    return this.#openStarts().filter(({ state }) => state.place === place);
  }

  #openStarts(): LiveSession[] {
    return this.#held.allOpen().filter(({ state }) => !isRehearsalId(state.id));
  }

  /** Returns the posts that are offered to a person in open sessions, by session. */
  offersTo(person: string): ReadonlyMap<string, Post[]> {
    return new Map(this.#held.allOpen().map(({ state }) => [state.id, offeredTo(state, person)]));
  }

  /** Returns the posts that are held in starts that are not over by whom `is` names, with each session's aircraft. */
  async postsHeld(
    is: (holder: { id: string; device: string }) => boolean,
  ): Promise<{ post: Post; aircraft: string }[]> {
    const heads = (await this.#deps.store.openHeads()).filter(({ id }) => !isRehearsalId(id));
    const open = await Promise.all(heads.map(({ id }) => this.get(id)));
    return open.flatMap(({ state }) =>
      POSTS.filter((post) => {
        const holder = state.posts[post];
        return holder !== null && is(holder);
      }).map((post) => ({ post, aircraft: state.aircraft })),
    );
  }

  /** Returns true when `get` would have to read all events of a session that is over. */
  async isPutAway(id: string): Promise<boolean> {
    return !this.#held.inMemory(id) && typeof (await this.#deps.store.session(id))?.closedAt === "number";
  }

  /** Stops every timer. */
  close(): void {
    this.#deadlines.clearAll();
  }

  #published({ state }: LiveSession, events: SessionEvent[], ours: readonly Sealed[] | null): void {
    this.#deps.clock.recorded(state.at);
    this.#audience.recorded(state.id, events);
    if (ours) void this.#contributions.add(state);
    if (this.#field.published(state, events)) void this.#news.ofField(state.place);
    const moved = this.#supervised.published(state);
    if (moved.length > 0) void this.#news.ofSupervisor(moved);
    if (ours) this.#deps.bus.send({ is: "moved", session: state.id, seq: state.seq, ...toldWith(ours) });
    this.#deadlines.set(state.id, isOver(state) ? null : nextDeadline(state));
    if (isOver(state)) this.#held.ended(state);
    if (events.some((e) => changesList(e))) this.#audience.ramp();
    if (events.some((e) => e.fact.type === "stageReached")) this.#deps.notary.due(state.id, state.seq);
  }

  /** Records what a deadline changed. */
  async #due(id: string, at: number): Promise<void> {
    const { clock, log } = this.#deps;
    try {
      const live = await this.get(id);
      const events = await kept(
        this.#deps,
        live.run((draft) => {
          const step = tick(draft.state, clock.now());
          draft.take(step);
          return step.events.length;
        }),
      );
      if (events > 0) TRACES.deadline.publish({ session: id, lateMs: clock.now() - at });
      else this.#deadlines.again(id, isOver(live.state) ? null : nextDeadline(live.state));
    } catch (error) {
      log.error({ err: error, session: id }, "a deadline could not be recorded");
      this.#deadlines.again(id, at);
    }
  }

  /** Returns what was reported of a field lately, by sessions that are over too, for a plan there. */
  async fieldOf(place: string, id: string): Promise<Field> {
    const rows = await reportingAt(this.#deps.store, place, this.#deps.clock.now());
    const states = await Promise.all(rows.map(async (row) => (await this.get(row.id)).state));
    return fieldFor(states, place, id);
  }

  /**
   * Reads on an aircraft's record that another server moved, and tells its open sessions.
   */
  async followRecord(aircraft: string): Promise<void> {
    try {
      await this.#deps.records.follow(aircraft);
    } catch (error) {
      this.#deps.log.error({ err: error, aircraft }, "the aircraft's record could not be read");
    }
  }

  /** Brings every open session's part into its aircraft's record, after a start. */
  contributeAll(): Promise<void> {
    return this.#contributions.addAll();
  }

  async #clockStepped(id: string, by: number): Promise<void> {
    try {
      const live = await this.get(id);
      const fact = { type: "clockStepped", by } as const;
      await kept(
        this.#deps,
        live.run((draft) => draft.take(voidPermissions(draft.state, fact, this.#deps.clock.now()))),
      );
    } catch (error) {
      // Go on with the other sessions.
      this.#deps.log.error({ err: error, session: id }, "a step of the clock could not be recorded");
    }
  }
}

/** Returns the events to send with an announcement, unless they are long. */
function toldWith(sealed: readonly Sealed[]): { events?: Sealed[] } {
  const size = sealed.reduce((sum, { body }) => sum + body.length, 0);
  return size > TOLD_CHARACTERS ? {} : { events: sealed.map(({ seq, body, hash }) => ({ seq, body, hash })) };
}

/** Returns true if the event changes the list of sessions, or what is offered to a person. */
function changesList({ fact }: SessionEvent): boolean {
  if (fact.type === "postTaken") return fact.how === "accepted";
  return fact.type === "stageReached" || fact.type === "postOffered" || fact.type === "postLeft";
}
