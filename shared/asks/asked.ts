import { ALERTS } from "../alerts/kinds.ts";
import { needsPerson } from "../alerts/machine.ts";
import { checks } from "../checks/asks.ts";
import { drillSteps } from "../drills/asks.ts";
import { askedOfCockpit } from "../engine/asks.ts";
import { askedOfFireGuard, askedOfGroundPower } from "../guard/asks.ts";
import { neededPosts } from "../posts/needed.ts";
import { silence } from "../posts/presence.ts";
import type { Post } from "../protocol/posts.ts";
import type { SessionState } from "../session/state.ts";
import { askedBySignals } from "../signals/asks.ts";
import { stillTurning } from "../stops/cut.ts";
import { holdsAnyPost } from "../stops/hold.ts";
import { type Ask, ask, choice } from "./ask.ts";
import { inOrder, PRESENT } from "./inOrder.ts";
import { askedOfSupervisor } from "./supervisor.ts";

/**
 * Everything asked of one post now, most pressing first. The panels show the first one large; a scripted partner
 * answers the same list. Pure: the server's estimated time comes with the call.
 */
export function askedOf(state: SessionState, post: Post, now: number): Ask[] {
  if (state.stage === "closed" || state.stage === "abandoned") return [];
  const own = {
    cockpit: askedOfCockpit,
    fireGuard: askedOfFireGuard,
    groundPower: askedOfGroundPower,
    supervisor: askedOfSupervisor,
  }[post](state, now);
  const all = [
    ...askedBySignals(state, post, now),
    ...alerts(state, post),
    ...own,
    ...drillSteps(state, post),
    ...overrides(state, post),
    ...presence(state, post, now),
    ...brief(state, post),
    ...checks(state, post, now),
    ...ownStops(state, post, now),
  ];
  return inOrder(all);
}

function alerts(state: SessionState, post: Post): Ask[] {
  // A stop's own signal asks for the same answer while it is open.
  const asked = new Set(
    state.signals.filter((s) => s.due.includes(post) && !s.answers[post]).map((s) => s.id),
  );
  return state.alerts
    .filter((a) => needsPerson(a.posts[post] ?? "normal"))
    .filter((a) => a.ref === null || a.kind === "unanswered" || !asked.has(a.ref))
    .map((a) =>
      ask({
        key: `alert:${a.id}`,
        say: `alert.${a.kind}`,
        weight: 1,
        engine: a.engine,
        since: a.at,
        choices: [
          choice("acknowledge", "plain", { type: "acknowledgeAlert", alert: a.id }),
          ...(ALERTS[a.kind].latching
            ? []
            : [choice("shelve", "plain", { type: "shelveAlert", alert: a.id, minutes: 5 })]),
        ],
      }),
    );
}

function brief(state: SessionState, post: Post): Ask[] {
  const holder = state.posts[post];
  if (!holder || holder.briefed || state.stage === "plan") return [];
  return [
    ask({
      key: "brief",
      say: "brief",
      weight: 3,
      choices: [choice("briefed", "yes", { type: "confirmBrief" })],
    }),
  ];
}

/** The second of two people is asked, with the engine to be entered again and a reason of their own. */
function overrides(state: SessionState, post: Post): Ask[] {
  if (post !== "cockpit" && post !== "supervisor") return [];
  const me = state.posts[post];
  return state.overrides
    .filter((o) => o.second === null && o.first.person !== me?.id && o.first.device !== me?.device)
    .map((o) =>
      ask({
        key: `override:${o.id}`,
        say: "override",
        weight: 2,
        engine: o.engine,
        from: o.first.name,
        since: o.first.at,
        dueAt: o.first.at + state.type.timing.override.value * 1000,
        detail: { is: "condition", condition: o.condition },
        choices: [
          choice(
            "override",
            "no",
            { type: "override", condition: o.condition, engine: o.engine, reason: o.first.reason },
            { is: "engineAndReason" },
          ),
        ],
      }),
    );
}

/** A touch is wanted before silence becomes a hold. */
function presence(state: SessionState, post: Post, now: number): Ask[] {
  if (!neededPosts(state).includes(post)) return [];
  const silent = silence(state, post, now);
  const { presenceSeen, presenceHold } = state.type.timing;
  if (silent === null || silent < presenceSeen.value * 1000) return [];
  return [
    ask({
      key: PRESENT,
      say: "present",
      weight: 2,
      since: now - silent,
      dueAt: now - silent + presenceHold.value * 1000,
      choices: [choice("present", "yes", { type: "present" })],
    }),
  ];
}

/** Whoever holds the post has not been heard yet: the hold for their silence would only come again. */
function stillSilent(state: SessionState, post: Post | null, now: number): boolean {
  const silent = post === null ? null : silence(state, post, now);
  return silent !== null && silent >= state.type.timing.presenceHold.value * 1000;
}

/** Stops this post can end, and a fire whose second word is still missing. */
function ownStops(state: SessionState, post: Post, now: number): Ask[] {
  const me = state.posts[post]?.id;
  // One of two people on one device is not a second pair of eyes.
  const device = state.posts[post]?.device;
  const holds = state.holds.flatMap((h) => {
    const release = { type: "send", kind: "release", ref: h.id, channel: "panel" } as const;
    const base = { key: `hold:${h.id}`, weight: 3 as const, since: h.by.at };
    if (h.person === me) {
      return [ask({ ...base, say: "ownHold", choices: [choice("release", "plain", release)] })];
    }
    if (h.person === null) {
      if ((post !== "supervisor" && post !== "cockpit") || stillSilent(state, h.by.post, now)) return [];
      return [
        ask({
          ...base,
          say: "silentHold",
          detail: { is: "person", name: h.by.name },
          choices: [choice("releaseFor", "plain", release)],
        }),
      ];
    }
    const heir = post === h.by.post;
    if (holdsAnyPost(state, h.person) || !(heir || post === "supervisor")) return [];
    const need = heir ? null : ({ is: "reason" } as const);
    const choices = [choice("releaseFor", "plain", release, need)];
    return [ask({ ...base, say: "absentHold", detail: { is: "person", name: h.by.name }, choices })];
  });
  const mayEndFire = post !== "groundPower";
  const fires = state.fires
    .filter((f) => mayEndFire && f.outBy?.person !== me && f.outBy?.device !== device)
    .map((f) =>
      ask({
        key: `fire:${f.id}`,
        say: f.outBy ? "fireOutSecond" : "fireOut",
        weight: 3,
        engine: f.engine,
        since: f.by.at,
        from: f.outBy?.name ?? null,
        detail: f.outBy && { is: "person", name: f.outBy.name },
        choices: [choice("fireOut", "plain", { type: "send", kind: "fireOut", ref: f.id, channel: "panel" })],
      }),
    );
  const cuts = state.cuts
    .filter(
      (c) => c.doneAt !== null && !stillTurning(state, c) && (post === "supervisor" || post === "cockpit"),
    )
    .map((c) =>
      ask({
        key: `cut:${c.id}`,
        say: "resetCut",
        weight: 3,
        engine: c.engine,
        since: c.by.at,
        choices: [
          choice("resetCut", "plain", { type: "send", kind: "resetCut", ref: c.id, channel: "panel" }),
        ],
      }),
    );
  return [...holds, ...fires, ...cuts];
}
