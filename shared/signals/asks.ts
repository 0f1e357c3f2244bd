import { type Ask, ask, type Choice, type Detail } from "../asks/ask.ts";
import { isTurning } from "../engine/life.ts";
import type { Post } from "../protocol/posts.ts";
import { isAsked, type SignalKind } from "../protocol/signals.ts";
import { engineOf, type SessionState, type Signal } from "../session/state.ts";
import { enginesOf } from "../stops/fireSeats.ts";
import { signalOf } from "./all.ts";
import { fateOf } from "./fate.ts";

/** Returns the asks for the answers that this post owes to open signals. */
export function askedBySignals(state: SessionState, post: Post, now: number): Ask[] {
  return state.signals
    .filter((s) => s.due.includes(post) && !isAnswered(s, post) && fateOf(state, s, now).is !== "failed")
    .flatMap((s): Ask[] => {
      const { asked } = signalOf(s.kind).answer;
      if (!asked || !isAsked(s.kind)) return [];
      return [
        ask({
          key: `signal:${s.id}`,
          say: hasStopped(state, s) ? "turned" : (chocksSince(state, s) ?? `answer.${s.kind}`),
          weight: asked.weight,
          engine: s.engine ?? namedSince(state, s.id),
          signal: s.id,
          from: s.from ?? s.by.name,
          since: s.by.at,
          dueAt: s.dueAt,
          detail: takenBack(s),
          choices: asked.choices(state, s, post, now).filter((c) => !isGiven(s, post, c)),
        }),
      ];
    });
}

/** Returns the sentence for a report of the chocks that a later report has turned round; null for any other. */
function chocksSince({ chocks }: SessionState, { kind }: Signal): "chocksInAgain" | "chocksOutAgain" | null {
  if (kind === "chocksOut" && chocks?.in === true) return "chocksInAgain";
  return kind === "chocksIn" && chocks?.in === false ? "chocksOutAgain" : null;
}

/** Returns the stop that a disregard takes back. */
function takenBack({ kind, note, engine }: Signal): Detail | null {
  if (kind !== "disregard" || note === null) return null;
  return { is: "signal", kind: note as SignalKind, engine };
}

/** Returns the one engine that was named for a fire since its report; null for none or several. */
function namedSince(state: SessionState, id: number): number | null {
  const fire = state.fires.find((f) => f.id === id);
  const [only = null, ...others] = fire ? enginesOf(fire) : [];
  return others.length === 0 ? only : null;
}

/** Returns true if the engine of a turning report has since been stopped. */
function hasStopped(state: SessionState, { kind, engine }: Signal): boolean {
  const found = engine === null ? undefined : engineOf(state, engine);
  return kind === "turning" && found !== undefined && !isTurning(found.life);
}

function isAnswered(signal: Signal, post: Post): boolean {
  const given = signal.answers[post]?.answer;
  return given !== undefined && signalOf(signal.kind).answer.closes(post, given);
}

function isGiven(signal: Signal, post: Post, choice: Choice): boolean {
  return choice.draft.type === "answer" && choice.draft.answer === signal.answers[post]?.answer;
}
