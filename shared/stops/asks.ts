import { type Ask, ask, choice } from "../asks/ask.ts";
import { send } from "../asks/send.ts";
import { isTurning } from "../engine/life.ts";
import { silence, silenceLimits } from "../posts/presence.ts";
import type { Post } from "../protocol/posts.ts";
import { isAnother } from "../session/another.ts";
import type { Hold, SessionState } from "../session/state.ts";
import { unheardOf } from "./lapse.ts";
import { holdsAnyPost, supervisorMayAt } from "./releaser.ts";
import { stillTurning } from "./stillTurning.ts";

/**
 * Returns the ask to stop an engine that still turns under a cut already reported done: the cut cannot end before that.
 */
export function cutAgain(state: SessionState): Ask[] {
  const done = state.cuts.filter((c) => c.doneAt !== null);
  return state.engines
    .filter((e) => isTurning(e.life) && done.some((c) => c.engine === null || c.engine === e.n))
    .map((e) =>
      ask({
        key: `cutAgain:${e.n}`,
        say: "answer.cut",
        weight: 0,
        engine: e.n,
        choices: [choice("shutDown", "yes", send("shutDown", e.n))],
      }),
    );
}

/**
 * Returns the asks to end the stops that this post can end, and to confirm a fire that only one person reported out.
 */
export function ownStops(state: SessionState, post: Post, now: number): Ask[] {
  const holder = state.posts[post];
  const me = holder?.id;
  const holds = state.holds.flatMap((h) => {
    const release = { type: "send", kind: "release", ref: h.id, channel: "panel" } as const;
    const base = { key: `hold:${h.id}`, weight: 3 as const, since: h.by.at };
    if (h.person === me) {
      return [ask({ ...base, say: "ownHold", choices: [choice("release", "plain", release)] })];
    }
    if (h.person === null) {
      if ((post !== "supervisor" && post !== "cockpit") || stillSilent(state, h, post, now)) return [];
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
    if (!heir && now < supervisorMayAt(state, h)) return [];
    if (holdsAnyPost(state, h.person) || !(heir || post === "supervisor")) return [];
    const need = heir ? null : ({ is: "reason" } as const);
    const choices = [choice("releaseFor", "plain", release, need)];
    return [ask({ ...base, say: "absentHold", detail: { is: "person", name: h.by.name }, choices })];
  });
  const mayEndFire = post !== "groundPower";
  const fires = state.fires
    .filter((f) => mayEndFire && (!f.outBy || (holder !== null && isAnother(holder, f.outBy))))
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

/** Returns whether a post that the hold was raised for has not been heard yet. */
function stillSilent(state: SessionState, hold: Hold, by: Post, now: number): boolean {
  if (hold.silent) return unheardOf(state, hold).some((post) => post !== by);
  const { post } = hold.by;
  const silent = post === null ? null : silence(state, post, now);
  return post !== null && silent !== null && silent >= silenceLimits(state, post).lapsed;
}
