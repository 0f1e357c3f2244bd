import { canonical } from "../../shared/evidence/canonical.ts";
import { readSealed } from "../../shared/evidence/read.ts";
import { leavesBrief } from "../../shared/plan/leavesBrief.ts";
import { postHeld } from "../../shared/posts/postHeld.ts";
import { takesPost } from "../../shared/posts/takesPost.ts";
import type { Action, Command, Send } from "../../shared/protocol/commands.ts";
import type { RecordAction } from "../../shared/protocol/recordEvents.ts";
import type { CommandResult } from "../../shared/protocol/refusal.ts";
import type { Stage } from "../../shared/protocol/stages.ts";
import type { Unrecorded } from "../../shared/protocol/wire.ts";
import { isOver, type SessionState } from "../../shared/session/state.ts";
import { act, type Outside, type Person } from "../../shared/session/step.ts";
import { signalOf } from "../../shared/signals/all.ts";
import { isStop } from "../../shared/signals/isStop.ts";
import { sameStop } from "../../shared/stops/sameStop.ts";
import { sha256 } from "../sha256.ts";
import { TRACES, traced } from "../telemetry/trace.ts";
import { kept, type SessionsDeps } from "./deps.ts";
import { NoSuchSession, PinNeeded } from "./errors.ts";
import type { FieldReports } from "./field-reports.ts";
import type { HeldSessions } from "./held-sessions.ts";
import { type Answered, firstAnswer, noteAnswers, repeatAnswer } from "./recorded.ts";
import type { Supervised } from "./supervised.ts";
import { Turns } from "./turns.ts";

/**
 * A stop not recorded within this time is broadcast without a record. It is still recorded when possible.
 * Milliseconds.
 */
const STOP_WAITS_MS = 1_000;

/** Sources of what other sessions of this server tell a session. */
interface Around {
  field: FieldReports;
  supervised: Supervised;
  /** Resolves once all of them were read after the server's start. */
  whole(): Promise<void>;
}

/** Answers the commands of people. */
export class Commands {
  readonly #deps: SessionsDeps;
  readonly #held: HeldSessions;
  readonly #around: Around;
  readonly #turns: Turns;
  readonly #unrecorded: (notice: Unrecorded) => void;

  /** @param unrecorded broadcasts a stop that could not be recorded */
  constructor(
    deps: SessionsDeps,
    held: HeldSessions,
    around: Around,
    unrecorded: (notice: Unrecorded) => void,
  ) {
    this.#deps = deps;
    this.#held = held;
    this.#around = around;
    this.#turns = new Turns(deps, held);
    this.#unrecorded = unrecorded;
  }

  /** Answers and fails as `Sessions.command` says. */
  answer(
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
    const outlives = stop || (command.action.type === "send" && command.action.kind === "fireAt");
    const inTime = stop ? timers.after(STOP_WAITS_MS, () => void passOn()) : () => {};
    try {
      // A stop, and a word of where a fire burns, goes on to the aircraft's record, which needs the session.
      const over = outlives ? null : await this.#overAnswer(command, digest);
      if (over) return over;
      if (!goesAtOnce(command.action)) await this.#around.whole();
      const live = await this.#held.get(command.session);
      if (isOver(live.state) && command.action.type === "send" && outlives)
        return await this.#stopAfterwards(live.state, command.action, person, command.id);
      const old = live.hasOldAnswers ? await this.#storedAnswer(command) : undefined;
      if (old) return repeatAnswer(old, digest);
      const answer = (outside: Outside = {}, who: Person = person) =>
        kept(
          this.#deps,
          live.run((draft): CommandResult => {
            const before = draft.answeredBefore(command.id);
            if (before) return repeatAnswer(before, digest);
            if (command.action.type === "override" && !confirmed)
              throw new PinNeeded("enter your PIN again and give it anew: nothing was set aside");
            const same = flood ? sameStop(draft.state, command.action, person) : null;
            if (same !== null) return { status: "duplicate", seq: same };
            const step = act(draft.state, command.action, who, mark, clock.now(), {
              ...outside,
              standing: this.#deps.records.news(draft.state),
              field: this.#around.field.news(draft.state),
              supervisesAlso: this.#around.supervised.news(draft.state),
            });
            draft.take(step);
            const answered = draft.answeredBefore(command.id);
            if (answered) return firstAnswer(answered);
            // Nothing was recorded: the session is over, or a device's report came too late.
            return { status: "refused", seq: null, refusal: step.refusal ?? { reason: "sessionOver" } };
          }),
        );
      if (takesPost(command.action)) {
        // A rehearsal asks for no currency, and none is recorded there.
        const { lapsed, until } = live.state.rehearsal
          ? { lapsed: null, until: null }
          : await this.#deps.currencies.standing(person.id, command.action.post);
        const who = { ...person, currentUntil: until };
        return await this.#turns.takePost(live, person, (outside) =>
          answer({ ...outside, lapsed: lapsed ?? undefined }, who),
        );
      }
      if (command.action.type === "showEquipment") {
        // The register's equipment is never taken to a rehearsal.
        const found = live.state.rehearsal ? null : await this.#deps.equipment.shown(command.action.label);
        const equipment = found ?? undefined;
        return await answer({ equipment });
      }
      return await (leavesBrief(command.action) ? this.#turns.leaveBrief(live, answer) : answer());
    } catch (error) {
      if (!(error instanceof NoSuchSession)) await passOn();
      throw error;
    } finally {
      inTime();
    }
  }

  /**
   * Returns the answer to a command on a session that is over and not in memory, from its row and from what the same
   * command led to before; null for any other session.
   */
  async #overAnswer(command: Command, digest: string): Promise<CommandResult | null> {
    const { store } = this.#deps;
    const { session } = command;
    if (this.#held.inMemory(session)) return null;
    const row = await store.session(session);
    if (!row || row.closedAt === null) return null;
    const before = await this.#storedAnswer(command);
    if (before) return repeatAnswer(before, digest);
    return { status: "refused", seq: null, refusal: { reason: "sessionOver", found: row.stage as Stage } };
  }

  /** Returns what the store has of a command's answer. */
  async #storedAnswer({ id, session }: Command): Promise<Answered | undefined> {
    const answered = new Map<string, Answered>();
    const led = await this.#deps.store.ofCommand(session, id);
    noteAnswers(
      answered,
      led.map(({ body }) => readSealed(body).event),
    );
    return answered.get(id);
  }

  /**
   * Takes a stop, or a word of where a fire burns, that was given in a session that is over into the aircraft's record,
   * which every open session hears.
   */
  async #stopAfterwards(
    state: SessionState,
    send: Send,
    person: Person,
    command: string,
  ): Promise<CommandResult> {
    const { kind, engine, place, note } = send;
    const where = {
      ...(kind === "cutAll" || engine === undefined ? {} : { engine }),
      ...(place === undefined ? {} : { place }),
    };
    const is = kind === "fire" ? "fire" : kind === "cut" || kind === "cutAll" ? "cut" : "hold";
    const action: RecordAction =
      kind === "fireAt"
        ? { type: "fireAt", ...where }
        : { type: "stop", is, ...where, ...(note === undefined ? {} : { note }) };
    const aircraft = { id: state.aircraft, engines: state.engines.length };
    return kept(this.#deps, this.#deps.records.act(aircraft, action, person, command));
  }

  /** Passes on a stop that could not be recorded. */
  async #passOn(person: Person, { session, action }: Command): Promise<void> {
    if (action.type !== "send" || !isStop(action)) return;
    // Do not await loading: it may be what blocks the stop.
    const now = new Promise<null>((resolve) => setImmediate(resolve, null));
    const live = await Promise.race([this.#held.inMemory(session)?.catch(() => null), now]);
    const post = live ? postHeld(live.state, person) : null;
    const by = { id: person.id, name: person.name, post };
    const notice = { session, action, by, at: this.#deps.clock.now() };
    this.#unrecorded(notice);
  }
}

/** Returns true for what must not wait for other sessions to be read: a stop, and a report that lowers confidence. */
function goesAtOnce(action: Action): boolean {
  return action.type === "send" && signalOf(action.kind).class !== "raises";
}
