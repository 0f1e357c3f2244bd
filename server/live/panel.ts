import type { z } from "zod";
import { signalKindSchema } from "../../shared/protocol/enums.ts";
import type { CommandResult } from "../../shared/protocol/refusal.ts";
import { idSchema } from "../../shared/protocol/text.ts";
import { type Sync, sentSchema, type Trouble, watchSchema } from "../../shared/protocol/wire.ts";
import { signalOf } from "../../shared/signals/all.ts";
import type { Refusals } from "../audit.ts";
import { type Identity, personOf } from "../auth/identity.ts";
import type { Clock } from "../clock.ts";
import { NoSuchSession, PinNeeded } from "../sessions/errors.ts";
import type { LiveSession } from "../sessions/live-session.ts";
import type { Sessions } from "../sessions/sessions.ts";
import { StoreFailure } from "../store/events.ts";
import { type PanelSocket, sessionRoom, trouble } from "./io.ts";
import type { Bounds } from "./person-bounds.ts";
import type { Turnstile } from "./turnstile.ts";

export interface PanelDeps {
  sessions: Sessions;
  clock: Clock;
  bounds: Bounds;
  /** Panels that begin to watch a session wait here for their turn. */
  arrivals: Turnstile;
  log: { error(detail: object, message: string): void };
  refusals: Refusals;
  /** Called when a person exceeds a message limit. */
  flooded(identity: Identity): void;
  /** Called when a person does something. */
  used(identity: Identity): void;
  /** Whether a fault of a rehearsal has cut this panel off in it: what it sends there does not arrive. */
  cutOff(session: string): boolean;
  /** Called when a panel watches a session no more. */
  unwatched(session: string): void;
  /** Called when a panel begins to watch a session. */
  watched(live: LiveSession, panel: PanelSocket): void;
}

const TOO_MANY = trouble("tooMany", "too many messages: wait a moment");
const SIGN_IN = trouble("signInNeeded", "the sign-in has ended");

/** Answers one panel's messages. No message can make it throw. */
export function servePanel(socket: PanelSocket, deps: PanelDeps): void {
  const { clock } = deps;
  const { data } = socket;
  const bounds = () => deps.bounds.of(data.identity.person.id, clock.now());
  const mayGo = () => data.bucket.take(clock.now()) && bounds().all.take(clock.now());
  const tooMany = (tell: (trouble: Trouble) => void) => {
    deps.flooded(data.identity);
    tell(TOO_MANY);
  };
  let garbled = false;
  /** Logs only the first malformed message of a socket, so that nobody can flood the log. */
  const notUnderstood = (error: z.ZodError): Trouble => {
    const { person, device } = data.identity;
    if (!garbled) deps.refusals.refused("malformed", { person: person.id, device: device.id });
    garbled = true;
    return malformed(error);
  };
  const expired = () => clock.now() >= data.identity.expiresAt;
  socket.conn.on("packet", () => {
    data.heard = clock.now();
  });

  socket.on("command", async (raw, answer) => {
    const tell = callable<CommandResult | Trouble>(answer);
    if (expired()) return tell(SIGN_IN);
    // Hold, cut, fire and an engine seen turning are exempt from rate limits.
    const stop = looksLikeStop(raw);
    if (!stop && !mayGo()) return tooMany(tell);
    const flood = stop && !bounds().stops.take(clock.now());
    const sent = sentSchema.safeParse(raw);
    if (!sent.success) return tell(notUnderstood(sent.error));
    const { permit, ...command } = sent.data;
    // As over a dead network, no answer comes: the panel keeps it, and sends it again.
    if (deps.cutOff(command.session)) return;
    if (command.action.type !== "delivered") deps.used(data.identity);
    const confirmed = data.permitted(command, permit);
    try {
      tell(await deps.sessions.command(personOf(data.identity), command, { flood, confirmed }));
    } catch (error) {
      if (error instanceof PinNeeded) {
        const { person, device } = data.identity;
        deps.refusals.refused("pinNeeded", { person: person.id, device: device.id });
      }
      tell(asTrouble(error, deps));
    }
  });

  socket.on("watch", async (raw, answer) => {
    const tell = callable<Sync | Trouble>(answer);
    if (expired()) return tell(SIGN_IN);
    if (!mayGo()) return tooMany(tell);
    const watch = watchSchema.safeParse(raw);
    if (!watch.success) return tell(notUnderstood(watch.error));
    try {
      const { session } = watch.data;
      if (deps.cutOff(session)) return;
      await deps.arrivals.enter();
      if ((await deps.sessions.isPutAway(session)) && !bounds().readings.take(clock.now()))
        return tooMany(tell);
      const live = await deps.sessions.get(session);
      if (!socket.connected) return;
      // Keep everything from here to the end synchronous: no event can be recorded between the answer and the join,
      // so the panel misses none and receives none twice.
      const { state } = live;
      const head = state.seq;
      const base = { session: state.id, head, serverNow: clock.now() };
      const events = watch.data.since === 0 ? null : live.after(watch.data.since);
      tell(events ? { ...base, events } : { ...base, state });
      void socket.join(sessionRoom(state.id));
      deps.watched(live, socket);
    } catch (error) {
      tell(asTrouble(error, deps));
    }
  });

  socket.on("unwatch", (raw) => {
    if (!mayGo()) return;
    const session = idSchema.safeParse(raw);
    if (!session.success) return;
    void socket.leave(sessionRoom(session.data));
    deps.unwatched(session.data);
  });

  socket.on("time", (_t1, answer) => {
    const t2 = clock.now();
    if (mayGo()) callable<{ t2: number; t3: number }>(answer)({ t2, t3: clock.now() });
  });
}

/** Reads only as much of a message as it needs to recognise a stop. */
function looksLikeStop(raw: unknown): boolean {
  const action = (raw as { action?: { type?: unknown; kind?: unknown } } | null)?.action;
  if (action?.type !== "send") return false;
  const kind = signalKindSchema.safeParse(action.kind);
  return kind.success && signalOf(kind.data).class === "stop";
}

/** Returns a function that does nothing when the panel asked for no answer. */
function callable<T>(answer: unknown): (value: T) => void {
  return typeof answer === "function" ? (answer as (value: T) => void) : () => {};
}

function malformed(error: z.ZodError): Trouble {
  const issue = error.issues[0];
  return trouble("malformed", `${issue?.path.join(".") || "message"}: ${issue?.message ?? "not understood"}`);
}

function asTrouble(error: unknown, { log }: PanelDeps): Trouble {
  if (error instanceof NoSuchSession) return trouble("noSuchSession", error.message);
  if (error instanceof PinNeeded) return trouble("pinNeeded", error.message);
  if (!(error instanceof StoreFailure)) log.error({ err: error }, "a command failed");
  return trouble("notAvailable", "not recorded: use hand signals");
}
