import { type Ask, ask, choice } from "../asks/ask.ts";
import { POSTS, type Post } from "../protocol/posts.ts";
import type { DrillRun, SessionState } from "../session/state.ts";
import { engineOfRun, isOvertaken } from "./located.ts";
import { WORKED_THROUGH } from "./outcome.ts";
import { lacksDefect, mayAsk } from "./step.ts";

/** Returns the next step of each open drill for this post, and the ask to end a drill once no step is left. */
export function drillSteps(state: SessionState, post: Post): Ask[] {
  return state.drills.flatMap((run) => {
    const drill = state.type.drills.find((d) => d.id === run.drill);
    if (!drill) return [];
    const overtaken = isOvertaken(state, run);
    const index = overtaken ? -1 : run.steps[post].indexOf(null);
    const step = drill.cards[post][index];
    if (step) {
      if (!mayAsk(state, run, step)) return [];
      const taken = (done: boolean) => ({ type: "drillStep", run: run.id, step: index, done }) as const;
      return [
        ask({
          key: `drill:${run.id}:${index}`,
          say: "drill",
          weight: 0,
          engine: engineOfRun(state, run),
          from: drill.title,
          since: run.at,
          dueAt: step.withinS === null ? null : run.at + step.withinS * 1000,
          detail: { is: "ofType", words: step.words },
          choices: [
            lacksDefect(state, run, step)
              ? choice("writeDefect", "yes", defectAt(run), { is: "words", field: "words" })
              : choice("stepDone", "yes", taken(true)),
            choice("stepLeft", "plain", taken(false)),
          ],
        }),
      ];
    }
    // The card of a vacant post is not waited for.
    const allDone = overtaken || POSTS.every((p) => state.posts[p] === null || !run.steps[p].includes(null));
    // Of the two posts that may end it, the one that is held; the supervisor before the cockpit.
    const ends = state.posts.supervisor === null ? "cockpit" : "supervisor";
    if (post !== ends || !allDone) return [];
    return [
      ask({
        key: `drill:${run.id}:end`,
        say: "drillEnd",
        weight: 3,
        engine: engineOfRun(state, run),
        detail: { is: "ofType", words: drill.title },
        choices: [choice("drillEnd", "plain", { type: "endDrill", run: run.id, outcome: WORKED_THROUGH })],
      }),
    ];
  });
}

/**
 * Returns the action that writes a defect which bars the start until the supervisor closes it, because a drill must not
 * end with an engine that nobody looked at.
 */
function defectAt({ engine }: DrillRun) {
  return { type: "writeDefect", barsStart: true, ...(engine === null ? {} : { engine }) } as const;
}
