import { type Ask, ask, type Choice, choice } from "../asks/ask.ts";
import { authorityFault } from "../leaves/decide.ts";
import type { Post } from "../protocol/posts.ts";
import { isService, type SessionState, type Signal } from "../session/state.ts";
import { CATALOGUE } from "./catalogue.ts";
import { closes } from "./evolve.ts";

/** The answers due from this post to open signals. */
export function askedBySignals(state: SessionState, post: Post, now: number): Ask[] {
  return state.signals
    .filter((s) => s.due.includes(post) && !isAnswered(s, post))
    .filter((s) => s.kind !== "readyToStart")
    .map((s) =>
      ask({
        key: `signal:${s.id}`,
        say: `answer.${s.kind}`,
        weight: CATALOGUE[s.kind].stop ? 0 : s.kind === "clearToStart" ? 2 : 3,
        engine: s.engine,
        signal: s.id,
        from: s.from ?? s.by.name,
        since: s.by.at,
        dueAt: s.dueAt,
        detail: s.note,
        choices: answersTo(state, s, post, now).filter((c) => !isGiven(s, post, c)),
      }),
    );
}

function isAnswered(signal: Signal, post: Post): boolean {
  const given = signal.answers[post]?.answer;
  return given !== undefined && closes(signal.kind, post, given);
}

function isGiven(signal: Signal, post: Post, choice: Choice): boolean {
  return choice.draft.type === "answer" && choice.draft.answer === signal.answers[post]?.answer;
}

function answersTo(state: SessionState, signal: Signal, post: Post, now: number): Choice[] {
  const give = (answer: "received" | "willComply" | "authorise" | "readBack" | "done" | "unable") =>
    ({ type: "answer", signal: signal.id, answer, channel: "panel" }) as const;
  const unable = choice("unable", "no", give("unable"));
  if (signal.kind === "clearToStart")
    return [choice("readBack", "yes", give("readBack"), { is: "engine" }), unable];
  if (isService(signal.kind)) {
    if (post !== "cockpit") return [choice("willComply", "yes", give("willComply")), unable];
    // Leave that would be refused is not offered: what it waits for is asked for by itself.
    if (authorityFault(state, signal.kind, now, signal.engine)) return [unable];
    return [choice("authorise", "yes", give("authorise")), unable];
  }
  if ((signal.kind === "cut" || signal.kind === "cutAll") && post === "cockpit") {
    return [choice("stopped", "yes", give("done")), choice("received", "plain", give("received")), unable];
  }
  return [choice("received", "yes", give("received"))];
}
