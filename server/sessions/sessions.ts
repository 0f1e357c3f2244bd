import { canonical } from "../../shared/evidence/canonical.ts";
import { genesis, type Sealed, seal } from "../../shared/evidence/chain.ts";
import { readSealed } from "../../shared/evidence/read.ts";
import { fieldFor } from "../../shared/field/fieldFor.ts";
import { leavesBrief } from "../../shared/plan/leavesBrief.ts";
import { postHeld } from "../../shared/posts/postHeld.ts";
import { takesPost } from "../../shared/posts/takesPost.ts";
import type { Command, Send } from "../../shared/protocol/commands.ts";
import type { FactOf, SessionEvent } from "../../shared/protocol/events.ts";
import type { Field } from "../../shared/protocol/field.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { CommandResult } from "../../shared/protocol/refusal.ts";
import type { Stage } from "../../shared/protocol/stages.ts";
import type { Unrecorded } from "../../shared/protocol/wire.ts";
import { nextDeadline } from "../../shared/session/deadline.ts";
import { isOver, type SessionState } from "../../shared/session/state.ts";
import {
  act,
  type Outside,
  type Person,
  type Step,
  tell,
  tellField,
  tick,
  unsettle,
} from "../../shared/session/step.ts";
import type { PostElsewhere } from "../../shared/session/verdict.ts";
import { isStop } from "../../shared/signals/isStop.ts";
import { sameStop } from "../../shared/stops/sameStop.ts";
import type { AircraftRecords } from "../aircraft/records.ts";
import type { Clock, Timers } from "../clock.ts";
import type { Pseudonyms } from "../evidence/names.ts";
import type { Bus } from "../many/bus.ts";
import { sha256 } from "../sha256.ts";
import { type EventStore, type SessionHead, type SessionRow, StoreFailure } from "../store/events.ts";
import { TRACES, traced } from "../telemetry/trace.ts";
import { appendTraced } from "./append-traced.ts";
import { type Audience, nobody } from "./audience.ts";
import { Deadlines } from "./deadlines.ts";
import { FieldReports, reportingAt } from "./field-reports.ts";
import { LiveSession } from "./live-session.ts";
import { type Answered, firstAnswer, noteAnswers, repeatAnswer } from "./recorded.ts";
import { type Replayed, replay } from "./replay.ts";
import { type RowBase, rowOf } from "./row.ts";

/** Sessions that are over stay in memory up to this number after somebody read them. */
const OVER_KEPT = 40;

/**
 * A stop not recorded within this time is broadcast without a record. It is still recorded when possible.
 * Milliseconds.
 */
const STOP_WAITS_MS = 1_000;

/** Longer events are left out of announcements; the other servers read them from the store. */
const TOLD_CHARACTERS = 32_000;

/** Log lines for the server's operator. */
export interface SessionLog {
  error(detail: object, message: string): void;
  info(detail: object, message: string): void;
}

export interface SessionsDeps {
  store: EventStore;
  clock: Clock & { recorded(at: number): void };
  timers: Timers;
  log: SessionLog;
  names: Pseudonyms;
  /** Asked to sign a checkpoint of the record so far. Never awaited. */
  notary: { due(session: string, size: number): void };
  bus: Bus;
  /** Keeps what stands at each aircraft across its sessions. */
  records: AircraftRecords;
  /** Runs `work` while no other server runs work with a common key. */
  inTurn<T>(keys: readonly string[], work: () => Promise<T>): Promise<T>;
}

/** No session has this id. */
export class NoSuchSession extends Error {
  override readonly name = "NoSuchSession";
}

/** The command sets a condition aside, and the person did not enter their PIN for it. */
export class PinNeeded extends Error {
  override readonly name = "PinNeeded";
}

/** All start sessions of this server: loads them, passes them commands, and wakes them at deadlines. */
export class Sessions {
  readonly #deps: SessionsDeps;
  readonly #deadlines: Deadlines;
  readonly #held = new Map<string, Promise<LiveSession>>();
  readonly #field = new FieldReports();
  /** Ids of sessions in memory that are over, least recently used first. */
  readonly #over = new Set<string>();
  #audience: Audience = nobody;
  #leaving: Promise<unknown> = Promise.resolve();
  /** The last attempt of each person to take a post. */
  readonly #taking = new Map<string, Promise<unknown>>();

  constructor(deps: SessionsDeps) {
    this.#deps = deps;
    this.#deadlines = new Deadlines(deps.clock, deps.timers, (id, at) => void this.#due(id, at));
    deps.records.listen(
      (aircraft) => void this.#tellOf(aircraft),
      () => this.#audience.ramp(),
    );
  }

  /** Sets the audience that receives everything recorded from now on. */
  tell(audience: Audience): void {
    this.#audience = audience;
  }

  /** Returns how many sessions are open, and how many holds stand in them. */
  async overview(): Promise<{ live: number; holds: number }> {
    const heads = await this.#deps.store.openHeads();
    const states = await Promise.all(
      heads.map(({ id }) =>
        this.get(id).then(
          (live) => live.state,
          () => null,
        ),
      ),
    );
    return { live: heads.length, holds: states.reduce((sum, state) => sum + (state?.holds.length ?? 0), 0) };
  }

  /**
   * Takes over what another server recorded up to `seq`. An unknown session is loaded, so that its deadlines run here
   * too.
   * @param said the announced events, if any came along
   */
  async follow(id: string, seq: number, said: readonly Sealed[] = []): Promise<void> {
    try {
      const held = this.#held.get(id);
      if (held) return await (await held).follow(seq, said);
      await this.get(id);
      this.#audience.ramp();
    } catch (error) {
      this.#deps.log.error({ err: error, session: id }, "what another server recorded could not be read");
    }
  }

  /** Takes over the latest events of every open session, and the last events of those that are over now. */
  async followAll(heads: readonly SessionHead[]): Promise<void> {
    const open = new Map(heads.map((head) => [head.id, head.headSeq]));
    const ended = [...this.#held.keys()].filter((id) => !open.has(id) && !this.#over.has(id));
    await Promise.all([
      ...[...open].map(([id, seq]) => this.follow(id, seq)),
      ...ended.map((id) => this.follow(id, Number.POSITIVE_INFINITY)),
    ]);
  }

  /** Broadcasts a stop that another server could not record. */
  passedOn(notice: Unrecorded): void {
    this.#audience.unrecorded(notice);
  }

  /** Records the server's start in every open session. That voids clearances; holds stand. */
  async restart(): Promise<void> {
    const rows = await this.#deps.store.openSessions();
    await Promise.all(rows.map((row) => this.#unsettle(row.id, { type: "restarted" })));
  }

  /** Records in every open session that the wall clock was set by `by` milliseconds. That voids clearances. */
  async clockStepped(by: number): Promise<void> {
    this.#deps.log.error({ by }, "the machine's clock was set: clearances are void");
    const rows = await this.#deps.store.openSessions();
    await Promise.all(rows.map((row) => this.#unsettle(row.id, { type: "clockStepped", by })));
  }

  /**
   * Returns the session, loaded from the store if need be.
   * @throws NoSuchSession
   * @throws StoreFailure when its events cannot be read, or are not what was recorded
   */
  async get(id: string): Promise<LiveSession> {
    let held = this.#held.get(id);
    if (!held) {
      held = this.#load(id);
      this.#held.set(id, held);
      held.catch(() => this.#held.delete(id));
    }
    return held;
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
    await this.#kept(appendTraced(this.#deps.store, { expected: 0, events: stored, row }));
    const answered = new Map<string, Answered>();
    noteAnswers(answered, step.events);
    const held = { state: step.state, headHash: sealed.hash, answered, tail: step.events };
    // Follow may have found it in the store meanwhile and loaded it.
    if (!this.#held.has(row.id)) this.#held.set(row.id, Promise.resolve(this.#wake(row, held)));
    this.#deps.clock.recorded(at);
    await this.#contribute(step.state);
    this.#deps.bus.send({ is: "moved", session: row.id, seq: step.state.seq });
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
    const { id, session, action } = command;
    return traced(
      TRACES.command,
      () => this.#answer(person, command, said),
      (outcome) => {
        const result = "value" in outcome ? outcome.value : null;
        const reason = result?.status === "refused" ? result.refusal.reason : null;
        const { type } = action;
        return { session, command: id, action: type, outcome: result?.status ?? ("failed" as const), reason };
      },
    );
  }

  async #answer(
    person: Person,
    command: Command,
    { flood = false, confirmed = false }: { flood?: boolean; confirmed?: boolean },
  ): Promise<CommandResult> {
    const { clock, timers } = this.#deps;
    const { clientAt, ...rest } = command;
    const digest = sha256(canonical(rest));
    const { validUntil } = command;
    const mark = { id: command.id, digest, clientAt, ...(validUntil === undefined ? {} : { validUntil }) };
    let passed = false;
    const passOn = async () => {
      if (passed) return;
      passed = true;
      await this.#passOn(person, command);
    };
    const stop = command.action.type === "send" && isStop(command.action);
    const inTime = stop ? timers.after(STOP_WAITS_MS, () => void passOn()) : () => {};
    try {
      // A stop goes on to the aircraft's record, which needs the session.
      const over = stop ? null : await this.#overAnswer(command, digest);
      if (over) return over;
      const live = await this.get(command.session);
      if (isOver(live.state) && command.action.type === "send" && stop)
        return await this.#stopAfterwards(live.state, command.action, person, command.id);
      const answer = (outside: Outside = {}) =>
        this.#kept(
          live.run((draft): CommandResult => {
            const before = draft.answeredBefore(command.id);
            if (before) return repeatAnswer(before, digest);
            if (command.action.type === "override" && !confirmed)
              throw new PinNeeded("enter your PIN again and give it anew: nothing was set aside");
            const same = flood ? sameStop(draft.state, command.action, person) : null;
            if (same !== null) return { status: "duplicate", seq: same };
            const step = act(draft.state, command.action, person, mark, clock.now(), {
              ...outside,
              standing: this.#deps.records.news(draft.state),
              field: this.#field.news(draft.state),
            });
            draft.take(step);
            const answered = draft.answeredBefore(command.id);
            if (answered) return firstAnswer(answered);
            // Nothing was recorded: the session is over, or a device's report came too late.
            return { status: "refused", seq: null, refusal: step.refusal ?? { reason: "sessionOver" } };
          }),
        );
      if (takesPost(command.action)) return await this.#onePostEach(live, person, answer);
      return await (leavesBrief(command.action) ? this.#oneByOne(live, answer) : answer());
    } catch (error) {
      if (!(error instanceof NoSuchSession)) await passOn();
      throw error;
    } finally {
      inTime();
    }
  }

  /** Returns the posts that are held in sessions that are not over by whom `is` names, with each session's aircraft. */
  async postsHeld(
    is: (holder: { id: string; device: string }) => boolean,
  ): Promise<{ post: Post; aircraft: string }[]> {
    const heads = await this.#deps.store.openHeads();
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
    return !this.#held.has(id) && typeof (await this.#deps.store.session(id))?.closedAt === "number";
  }

  /**
   * Returns the answer to a command on a session that is over and not in memory, from its row and from what the same
   * command led to before; null for any other session.
   */
  async #overAnswer(command: Command, digest: string): Promise<CommandResult | null> {
    const { store } = this.#deps;
    const { id, session } = command;
    if (this.#held.has(session)) return null;
    const row = await store.session(session);
    if (!row || row.closedAt === null) return null;
    const answered = new Map<string, Answered>();
    const led = await store.ofCommand(session, id);
    noteAnswers(
      answered,
      led.map(({ body }) => readSealed(body).event),
    );
    const before = answered.get(id);
    if (before) return repeatAnswer(before, digest);
    return { status: "refused", seq: null, refusal: { reason: "sessionOver", found: row.stage as Stage } };
  }

  /** Lets sessions leave the brief one at a time: of two with the same aircraft, the second must find the first. */
  #oneByOne<T>({ state }: LiveSession, answer: (outside: Outside) => Promise<T>): Promise<T> {
    const { store, inTurn } = this.#deps;
    const look = async () => {
      const open = await store.openSessions();
      const other = open.find(
        ({ id, aircraft, stage }) =>
          aircraft === state.aircraft && id !== state.id && stage !== "plan" && stage !== "brief",
      );
      return answer({ elsewhere: other?.code });
    };
    const turn = this.#leaving.then(() => inTurn([`aircraft:${state.aircraft}`], look));
    this.#leaving = turn.catch(() => undefined);
    return turn;
  }

  /** Gives a person one post at a time: of two sessions, the second must find what the first one gave. */
  #onePostEach<T>(live: LiveSession, { id }: Person, answer: (outside: Outside) => Promise<T>): Promise<T> {
    const look = async () => {
      const held = await this.#heldElsewhere(live.state.id, id);
      // Any other post weighs more than the supervisor's, which may be held at several aircraft.
      return answer({ postElsewhere: held.find((h) => h.post !== "supervisor") ?? held[0] });
    };
    const before = this.#taking.get(id) ?? Promise.resolve();
    const turn = before.then(() => this.#deps.inTurn([`person:${id}`], look));
    this.#taking.set(
      id,
      turn.catch(() => undefined),
    );
    return turn;
  }

  /** Returns the posts that a person holds in open sessions but one, up to the newest event of each. */
  async #heldElsewhere(session: string, person: string): Promise<PostElsewhere[]> {
    const heads = await this.#deps.store.openHeads();
    const others = heads.filter(({ id }) => id !== session);
    const open = await Promise.all(
      others.map(async ({ id, headSeq }) => {
        try {
          const live = await this.get(id);
          if (headSeq > live.state.seq) await live.follow(headSeq);
          return [live];
        } catch (error) {
          // Nobody can act in a session that cannot be read, and it must not keep posts of all others from everybody.
          this.#deps.log.error({ err: error, session: id }, "posts held in a session could not be read");
          return [];
        }
      }),
    );
    return open
      .flat()
      .flatMap(({ code, state }) =>
        POSTS.filter((post) => state.posts[post]?.id === person).map((post) => ({ code, post })),
      );
  }

  /** Stops every timer. */
  close(): void {
    this.#deadlines.clearAll();
  }

  async #load(id: string): Promise<LiveSession> {
    const row = await this.#deps.store.session(id);
    if (!row) throw new NoSuchSession(`there is no session ${id}`);
    const live = this.#wake(row, await replay(this.#deps.store, row, this.#deps.names));
    if (isOver(live.state)) this.#forgetOneOver(id);
    else this.#deadlines.set(id, nextDeadline(live.state));
    return live;
  }

  #wake(row: SessionRow, held: Replayed): LiveSession {
    this.#field.published(held.state, []);
    return new LiveSession(this.#deps.store, row, held, this.#deps.names, (live, events, sealed) =>
      this.#published(live, events, sealed),
    );
  }

  #published({ state }: LiveSession, events: SessionEvent[], ours: readonly Sealed[] | null): void {
    this.#deps.clock.recorded(state.at);
    this.#audience.recorded(state.id, events);
    if (ours) void this.#contribute(state);
    if (this.#field.published(state, events)) void this.#tellField(state.place);
    if (ours) this.#deps.bus.send({ is: "moved", session: state.id, seq: state.seq, ...toldWith(ours) });
    this.#deadlines.set(state.id, isOver(state) ? null : nextDeadline(state));
    if (isOver(state)) this.#forgetOneOver(state.id);
    if (!events.some((e) => e.fact.type === "stageReached")) return;
    this.#audience.ramp();
    this.#deps.notary.due(state.id, state.seq);
  }

  /** Records what a deadline changed. */
  async #due(id: string, at: number): Promise<void> {
    const { clock, log } = this.#deps;
    try {
      const live = await this.get(id);
      const events = await this.#kept(
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

  /** Adds what a session changed to its aircraft's record. */
  async #contribute(state: SessionState): Promise<void> {
    try {
      await this.#deps.records.contribute(state);
      this.#deps.bus.send({ is: "recordMoved", aircraft: state.aircraft });
    } catch (error) {
      // The session's own events are durable: it contributes again with its next change, or when it is next loaded.
      this.#deps.log.error({ err: error, session: state.id }, "the aircraft's record could not be kept");
    }
  }

  /** Tells every open session on a field of its lightning and weather. */
  async #tellField(place: string): Promise<void> {
    for (const { id } of this.#field.openAt(place)) {
      try {
        const live = await this.get(id);
        if (!this.#field.news(live.state)) continue;
        await live.run((draft) => {
          const field = this.#field.news(draft.state);
          if (field) draft.take(tellField(draft.state, field, this.#deps.clock.now()));
        });
      } catch (error) {
        this.#deps.log.error({ err: error, session: id }, "a session could not be told of its field");
      }
    }
  }

  /** Returns what was reported of a field lately, by sessions that are over too, for a plan there. */
  async fieldOf(place: string, id: string): Promise<Field> {
    const rows = await reportingAt(this.#deps.store, place, this.#deps.clock.now());
    const states = await Promise.all(rows.map(async (row) => (await this.get(row.id)).state));
    return fieldFor(states, place, id);
  }

  /** Tells every open session of an aircraft what its record says from elsewhere. */
  async #tellOf(aircraft: string): Promise<void> {
    const { clock, log, records } = this.#deps;
    for (const held of this.#held.values()) {
      try {
        const live = await held;
        const { state } = live;
        if (state.aircraft !== aircraft || isOver(state) || !records.news(state)) continue;
        await live.run((draft) => {
          const standing = records.news(draft.state);
          if (standing) draft.take(tell(draft.state, standing, clock.now()));
        });
      } catch (error) {
        log.error({ err: error, aircraft }, "a session could not be told what stands at its aircraft");
      }
    }
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
  async contributeAll(): Promise<void> {
    const { store } = this.#deps;
    for (const record of await store.records()) await this.#contributeEnded(record.aircraft);
    for (const { id } of await store.openSessions()) await this.#contributeOf(id);
  }

  /** A session that ended just before a crash may not have told its aircraft's record. */
  async #contributeEnded(aircraft: string): Promise<void> {
    const { log, records, store } = this.#deps;
    try {
      const record = await records.read(aircraft);
      for (const id of Object.keys(record?.open ?? {}))
        if ((await store.session(id))?.closedAt != null) await this.#contributeOf(id);
    } catch (error) {
      log.error({ err: error, aircraft }, "the aircraft's record could not be read");
    }
  }

  async #contributeOf(id: string): Promise<void> {
    try {
      await this.#contribute((await this.get(id)).state);
    } catch (error) {
      // Go on with the other sessions. This one answers that it is not available until it can be read again.
      this.#deps.log.error(
        { err: error, session: id },
        "a session could not be read for its aircraft's record",
      );
    }
  }

  async #unsettle(id: string, fact: FactOf<"restarted" | "clockStepped">): Promise<void> {
    try {
      const live = await this.get(id);
      await this.#kept(live.run((draft) => draft.take(unsettle(draft.state, fact, this.#deps.clock.now()))));
    } catch (error) {
      // Go on with the other sessions. This one answers that it is not available until it can be read and written
      // again.
      this.#deps.log.error({ err: error, session: id }, `${fact.type} could not be recorded`);
    }
  }

  async #kept<T>(append: Promise<T>): Promise<T> {
    try {
      return await append;
    } catch (error) {
      if (error instanceof StoreFailure) this.#deps.log.error({ err: error }, "events could not be kept");
      throw error;
    }
  }

  /** Takes a stop that was given in a session that is over into the aircraft's record, which every open session hears. */
  async #stopAfterwards(
    state: SessionState,
    send: Send,
    person: Person,
    command: string,
  ): Promise<CommandResult> {
    const { kind, engine, place, note } = send;
    const is = kind === "fire" ? "fire" : kind === "cut" || kind === "cutAll" ? "cut" : "hold";
    const action = {
      type: "stop",
      is,
      ...(kind === "cutAll" || engine === undefined ? {} : { engine }),
      ...(place === undefined ? {} : { place }),
      ...(note === undefined ? {} : { note }),
    } as const;
    const aircraft = { id: state.aircraft, engines: state.engines.length };
    return this.#kept(this.#deps.records.act(aircraft, action, person, command));
  }

  /** Broadcasts a stop that could not be recorded. */
  async #passOn(person: Person, { session, action }: Command): Promise<void> {
    if (action.type !== "send" || !isStop(action)) return;
    // Do not await loading: it may be what blocks the stop.
    const now = new Promise<null>((resolve) => setImmediate(resolve, null));
    const live = await Promise.race([this.#held.get(session)?.catch(() => null), now]);
    const post = live ? postHeld(live.state, person) : null;
    const by = { id: person.id, name: person.name, post };
    const notice = { session, action, by, at: this.#deps.clock.now() };
    this.#audience.unrecorded(notice);
    this.#deps.bus.send({ is: "unrecorded", notice });
  }

  #forgetOneOver(id: string): void {
    this.#over.delete(id);
    this.#over.add(id);
    const [oldest] = this.#over;
    if (this.#over.size <= OVER_KEPT || oldest === undefined) return;
    this.#over.delete(oldest);
    this.#held.delete(oldest);
    this.#field.forget(oldest);
  }
}

/** Returns the events to send with an announcement, unless they are long. */
function toldWith(sealed: readonly Sealed[]): { events?: Sealed[] } {
  const size = sealed.reduce((sum, { body }) => sum + body.length, 0);
  return size > TOLD_CHARACTERS ? {} : { events: sealed.map(({ seq, body, hash }) => ({ seq, body, hash })) };
}
