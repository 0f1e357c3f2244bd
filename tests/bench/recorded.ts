import { personAt, Stage } from "../../seed/crew/stage.ts";
import { demo } from "../../seed/demo-data.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { Person, Step } from "../../shared/session/step.ts";
import { playOut } from "../seed/stage.ts";
import { CART, type Moment } from "./moments.ts";

/** The demo type with four engines. */
export const TYPE = "kestle-four";
/** Partners at this pace finish a whole start in about two minutes; the waits that the type demands are kept whole. */
const PACE = 32;
/** Milliseconds between two looks of a partner. */
const LOOK_MS = 200;
/** Milliseconds between two commands of a session at least: they come over different sockets and must keep their order. */
const APART_MS = 100;

/** A stage that writes down every command it is given. */
class Recorder extends Stage {
  readonly given: { at: number; post: Post; action: Action; accepted: boolean }[] = [];

  override do(person: Person, action: Action): Step {
    const step = super.do(person, action);
    const post = POSTS.find((p) => personAt(p).id === person.id);
    if (!post) throw new Error(`${person.id} is at no post`);
    this.given.push({ at: this.now, post, action, accepted: step.refusal === undefined });
    return step;
  }
}

/**
 * Returns every command of a whole four-engine start after its planning, with its moment. The guard calls one hold
 * beside each cleared engine, and the supervisor tries to clear each engine before its guard is there.
 * @throws Error when the partners do not come to the end
 */
export function recordedStart(): Moment[] {
  const type = demo.types.find(({ id }) => id === TYPE);
  if (!type) throw new Error(`the demo has no ${TYPE}`);
  const stage = new Recorder(type, "groundPower");
  stage.everyoneClaims();
  const held = new Set<number>();
  const stuck = playOut(
    stage,
    { seed: 3, pace: PACE, cart: CART },
    undefined,
    (_state, _post, action) => {
      if (action.type !== "send") return action;
      const { kind, engine = 0 } = action as { kind: string; engine?: number };
      if (kind === "readyToStart")
        stage.do(personAt("supervisor"), { type: "send", kind: "clearToStart", engine, channel: "panel" });
      if (kind !== "cranking" || held.has(engine)) return action;
      held.add(engine);
      stage.do(personAt("fireGuard"), { type: "send", kind: "hold", channel: "panel" });
      return null;
    },
    LOOK_MS,
  );
  if (stuck !== null) throw new Error(stuck);
  const began = stage.events[0]?.at ?? 0;
  let last = 0;
  return stage.given.map(({ at, post, action, accepted }) => {
    last = Math.max(at - began, last + APART_MS);
    return { at: last, panel: POSTS.indexOf(post), action, accepted };
  });
}
