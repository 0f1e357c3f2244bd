import type { Post } from "../protocol/posts.ts";
import { holdsAnyPost, stillTurning } from "../session/decide/stops.ts";
import type { SessionState } from "../session/state.ts";
import { type Ask, ask, type Choice, choice } from "./ask.ts";
import { askedOfCockpit } from "./cockpit.ts";
import { askedOfFireGuard, askedOfGroundPower } from "./ground.ts";
import { askedBySignals } from "./signals.ts";
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
    ...brief(state, post),
    ...checks(state, post),
    ...ownStops(state, post),
  ];
  return all.sort((a, b) => a.weight - b.weight || waitingSince(a) - waitingSince(b));
}

/** Where somebody waits for the answer the longest wait comes first; what nobody waits for comes after. */
function waitingSince(ask: Ask): number {
  return ask.since ?? Number.MAX_SAFE_INTEGER;
}

function alerts(state: SessionState, post: Post): Ask[] {
  return state.alerts
    .filter((a) => a.to.includes(post) && !a.acknowledged.includes(post))
    .map((a) =>
      ask({
        key: `alert:${a.id}`,
        say: `alert.${a.kind}`,
        weight: 1,
        engine: a.engine,
        since: a.at,
        choices: [choice("acknowledge", "plain", { type: "acknowledgeAlert", alert: a.id })],
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

function checks(state: SessionState, post: Post): Ask[] {
  return state.type.checks
    .filter((c) => c.stage === state.stage && c.post === post && state.checks[c.id]?.good !== true)
    .filter((c) => c.post !== "groundPower" || state.powerSource === "groundPower")
    .map((c) => {
      const draft = { type: "recordCheck", check: c.id } as const;
      const choices: Choice[] = c.range
        ? [choice("read", "yes", draft, { is: "figure", field: "reading", unit: c.range.unit })]
        : [
            choice("good", "yes", { ...draft, good: true }),
            choice("notGood", "no", { ...draft, good: false }),
          ];
      return ask({ key: `check:${c.id}`, say: "check", weight: 3, detail: c.words, choices });
    });
}

/** Stops this post can end, and a fire whose second word is still missing. */
function ownStops(state: SessionState, post: Post): Ask[] {
  const me = state.posts[post]?.id;
  const holds = state.holds.flatMap((h) => {
    const release = { type: "send", kind: "release", ref: h.id, channel: "panel" } as const;
    const base = { key: `hold:${h.id}`, weight: 3 as const, since: h.by.at };
    if (h.person === me) {
      return [ask({ ...base, say: "ownHold", choices: [choice("release", "plain", release)] })];
    }
    const heir = post === h.by.post;
    if (holdsAnyPost(state, h.person) || !(heir || post === "supervisor")) return [];
    const need = heir ? null : ({ is: "reason" } as const);
    const choices = [choice("releaseFor", "plain", release, need)];
    return [ask({ ...base, say: "absentHold", detail: h.by.name, choices })];
  });
  const mayEndFire = post !== "groundPower";
  const fires = state.fires
    .filter((f) => mayEndFire && f.outBy?.person !== me)
    .map((f) =>
      ask({
        key: `fire:${f.id}`,
        say: f.outBy ? "fireOutSecond" : "fireOut",
        weight: 3,
        engine: f.engine,
        since: f.by.at,
        from: f.outBy?.name ?? null,
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
