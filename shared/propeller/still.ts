import { withEngine } from "../engine/evolve.ts";
import { isTurning } from "../engine/life.ts";
import { wrongState } from "../engine/ofEngine.ts";
import { POSTS } from "../protocol/posts.ts";
import { FROM_SECURE } from "../protocol/stages.ts";
import { isAnother } from "../session/another.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";
import { signal } from "../signals/kinds.ts";

/**
 * A propeller that turned, here or in an earlier session, stands still. The reporter has seen it, and is not who
 * reported its engine stopped.
 */
export const propellerStill = signal({
  from: POSTS,
  stages: ["brief", ...FROM_SECURE],
  engine: "required",
  menu: {
    own: ["fireGuard", "groundPower", "supervisor"],
    seenBy: [],
    when: ["waiting", "shutDown", "cooling"],
    tone: "plain",
  },
  decide(state, send, context) {
    const engine = engineOf(state, send.engine ?? 0);
    if (engine && isTurning(engine.life)) return wrongState(engine);
    const left = state.standing?.turning.some((t) => t.engine === send.engine) ?? false;
    if (!left && engine?.unseen === undefined) return refuse("nothingOpen", { engine: send.engine });
    return witnessFault(state, send.engine ?? 0, context) ?? accept({ ...send, type: "sent" });
  },
  evolve(state, _event, { engine }) {
    const seen = withEngine(state, engine ?? 0, ({ unseen: _seen, ...e }) => e);
    const { standing } = seen;
    if (!standing) return seen;
    const turning = standing.turning.filter((t) => t.engine !== engine);
    return { ...seen, standing: { ...standing, turning } };
  },
});

/** Returns a refusal for a person who may not say it: who stopped the engine, or another post than the type asks for. */
function witnessFault(state: SessionState, n: number, { person, post }: Context): Verdict | null {
  const stopped = engineOf(state, n)?.unseen?.stoppedBy;
  if (!stopped) return null;
  if (!isAnother(person, stopped)) return refuse("secondPersonNeeded", { engine: n, found: stopped.name });
  const guardAlone = state.type.stopping?.still.by === "guard";
  return guardAlone && post !== "fireGuard" ? refuse("wrongPost", { posts: ["fireGuard"] }) : null;
}
