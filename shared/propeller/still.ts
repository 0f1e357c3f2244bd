import { POSTS } from "../protocol/posts.ts";
import { FROM_SECURE } from "../protocol/stages.ts";
import { accept, refuse } from "../session/verdict.ts";
import { signal } from "../signals/kinds.ts";

/** A propeller that an earlier session left turning stands still. The reporter has seen it. */
export const propellerStill = signal({
  from: POSTS,
  stages: ["brief", ...FROM_SECURE],
  engine: "required",
  decide: (state, send) =>
    state.standing?.turning.some((t) => t.engine === send.engine)
      ? accept({ ...send, type: "sent" })
      : refuse("nothingOpen", { engine: send.engine }),
  evolve: (state, _event, fact) =>
    state.standing
      ? {
          ...state,
          standing: {
            ...state.standing,
            turning: state.standing.turning.filter((t) => t.engine !== fact.engine),
          },
        }
      : state,
});
