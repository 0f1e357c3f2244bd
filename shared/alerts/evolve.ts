import { withEngine, withLife } from "../engine/evolve.ts";
import { plain } from "../engine/life.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import { POSTS, type Post } from "../protocol/posts.ts";
import type { Alert, SessionState, VoidedClearance } from "../session/state.ts";
import { ALERTS } from "./kinds.ts";
import { type AlertInput, type AlertState, alertNext } from "./machine.ts";

type AlertFact = FactOf<
  | "alertRaised"
  | "alertAcknowledged"
  | "alertEnded"
  | "alertReset"
  | "alertShelved"
  | "alertUnshelved"
  | "alertUnsuppressed"
  | "alertAgain"
  | "alertWidened"
>;

/**
 * Returns the state after an event of an alert. The alert has one state machine for each post that it is addressed to.
 */
export function evolveAlert(state: SessionState, event: SessionEvent, fact: AlertFact): SessionState {
  switch (fact.type) {
    case "alertRaised":
      return raised(state, event, fact);
    case "alertAcknowledged":
      return settled(change(state, fact.alert, (a) => move(a, "acknowledge", [fact.post])));
    case "alertEnded":
      return settled(change(state, fact.alert, ended));
    case "alertReset":
      return settled(change(state, fact.alert, (a) => move(a, "reset", POSTS)));
    case "alertShelved":
      return change(state, fact.alert, (a) => ({
        ...move(a, "shelve", [fact.post]),
        shelvedUntil: { ...a.shelvedUntil, [fact.post]: fact.until },
      }));
    case "alertUnshelved":
      return settled(
        change(state, fact.alert, (a) => ({
          ...offShelf(a, fact.post),
          againAt: event.at + resoundMs(state),
        })),
      );
    case "alertUnsuppressed":
      return settled(
        change(state, fact.alert, (a) => ({
          ...move(a, "unsuppress", POSTS),
          againAt: event.at + resoundMs(state),
        })),
      );
    case "alertWidened":
      return change(state, fact.alert, (a) => widened(a, fact.to, event.at + resoundMs(state)));
    case "alertAgain":
      return change(state, fact.alert, (a) => ({ ...a, againAt: event.at + resoundMs(state) }));
  }
}

/** Returns an alert after its cause ended. The post whose act ended the cause knows of it. */
function ended(alert: Alert): Alert {
  const { acts } = ALERTS[alert.kind];
  const known = acts ? move(alert, "acknowledge", [acts.post]) : alert;
  return move({ ...known, active: false }, "clear", POSTS);
}

/** Returns an alert that goes to more posts. One that a fire suppresses is suppressed at those too. */
function widened(alert: Alert, to: readonly Post[], againAt: number): Alert {
  const suppressed = Object.values(alert.posts).includes("suppressed");
  const as: AlertState = suppressed ? "suppressed" : "activeUnacknowledged";
  return { ...alert, againAt, posts: { ...alert.posts, ...Object.fromEntries(to.map((p) => [p, as])) } };
}

/** Returns the state after a post answered a signal: this acknowledges any alert about that signal. */
export function acknowledgeFor(state: SessionState, ref: number, post: Post): SessionState {
  const alert = state.alerts.find((a) => a.ref === ref && a.kind !== "unanswered");
  return alert ? settled(change(state, alert.id, (a) => move(a, "acknowledge", [post]))) : state;
}

/** Returns the state in which every post has acknowledged that earlier clearances of this engine ended. */
export function acknowledgeEnds(state: SessionState, engine: number): SessionState {
  return state.alerts
    .filter((a) => a.kind === "clearanceVoid" && a.engine === engine)
    .reduce((next, { id }) => settled(change(next, id, (a) => move(a, "acknowledge", POSTS))), state);
}

function raised(state: SessionState, event: SessionEvent, fact: FactOf<"alertRaised">): SessionState {
  const suppressed = fact.suppressedBy !== undefined;
  // A cause that comes back before the alert was settled continues the same alert: its shelf stays, and alerts do not
  // pile up.
  const before = state.alerts.find(
    (a) => a.kind === fact.kind && a.engine === (fact.engine ?? null) && fact.ref === undefined && !a.active,
  );
  if (before) {
    const again = move({ ...before, active: true }, "raise", POSTS);
    const alert = {
      ...(suppressed ? move(again, "suppress", POSTS) : again),
      at: event.at,
      againAt: event.at + resoundMs(state),
    };
    // The drill of the last time does not count for this one.
    const drillsOpened = state.drillsOpened.filter((ref) => ref !== alert.id);
    return remembered({ ...change(state, alert.id, () => alert), drillsOpened }, alert);
  }
  const first: AlertState = suppressed ? "suppressed" : "activeUnacknowledged";
  const voided = fact.kind === "clearanceVoid" ? state.voided?.find((v) => v.id === fact.ref) : undefined;
  const by = voided ? voided.by : fact.ref === undefined ? null : raiserOf(state, fact.ref);
  const posts = Object.fromEntries(
    // The person who raised a stop knows of it, so that post has acknowledged it already.
    fact.to.map((p): [Post, AlertState] => [p, p === by ? "activeAcknowledged" : first]),
  );
  const alert: Alert = {
    id: event.seq,
    kind: fact.kind,
    engine: fact.engine ?? null,
    ref: fact.ref ?? null,
    at: event.at,
    active: true,
    posts,
    shelvedUntil: {},
    againAt: event.at + resoundMs(state),
    ...(voided ? { voided: { cause: voided.cause, unmet: voided.unmet } } : {}),
  };
  return remembered(saidOf({ ...state, alerts: [...state.alerts, alert] }, voided), alert);
}

/** Returns the state in which the end of this clearance is said. */
function saidOf(state: SessionState, clearance: VoidedClearance | undefined): SessionState {
  if (clearance === undefined) return state;
  const { voided = [], ...rest } = state;
  const left = voided.filter((v) => v !== clearance);
  return left.length === 0 ? rest : { ...rest, voided: left };
}

/** Returns the post from which a person raised the stop. Nobody raised the system's own hold for a silent post. */
function raiserOf(state: SessionState, ref: number): Post | null {
  const byPerson = state.holds.filter((h) => h.person !== null);
  return [...byPerson, ...state.cuts, ...state.fires].find((s) => s.id === ref)?.by.post ?? null;
}

function resoundMs(state: SessionState): number {
  return state.type.timing.resound.value * 1000;
}

function change(state: SessionState, id: number, how: (a: Alert) => Alert): SessionState {
  return { ...state, alerts: state.alerts.map((a) => (a.id === id ? how(a) : a)) };
}

function move(alert: Alert, input: AlertInput, posts: readonly Post[]): Alert {
  const nature = { latching: ALERTS[alert.kind].latching, active: alert.active };
  const moved = { ...alert.posts };
  for (const post of posts) {
    const from = moved[post];
    if (from === undefined) continue;
    const next = alertNext(from, input, nature);
    if (next !== "same" && next !== "refused") moved[post] = next;
  }
  return { ...alert, posts: moved };
}

/** Returns the state without the shelves of a post: a shelf belongs to the person who made it, and ends with them. */
export function unshelved(state: SessionState, post: Post): SessionState {
  return { ...state, alerts: state.alerts.map((a) => offShelf(a, post)) };
}

function offShelf(alert: Alert, post: Post): Alert {
  const { [post]: _over, ...rest } = alert.shelvedUntil;
  return { ...move(alert, "unshelve", [post]), shelvedUntil: rest };
}

/** Returns the state without the alerts that are normal at every post somebody holds and whose cause is gone. */
export function settled(state: SessionState): SessionState {
  const over = (a: Alert) =>
    !a.active && POSTS.every((p) => state.posts[p] === null || (a.posts[p] ?? "normal") === "normal");
  return { ...state, alerts: state.alerts.filter((a) => !over(a)) };
}

/** Marks the engine of an alert that is raised once per attempt. */
function remembered(state: SessionState, { kind, engine }: Alert): SessionState {
  const definition = ALERTS[kind];
  if (engine === null || definition.about !== "engine" || definition.remember === null) return state;
  const { remember } = definition;
  return withEngine(state, engine, (e) => withLife(e, remember(plain(e.life))));
}
