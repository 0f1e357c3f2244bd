import { plain } from "../../../shared/engine/life.ts";
import { lifeAt } from "../../../shared/engine/lifeAt.ts";
import { nextToClear } from "../../../shared/engine/nextInOrder.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import type { LaterWords } from "../../words/en/later.ts";

/**
 * Returns the engine whose conditions the supervisor sees, and the words above them: the engine that is requested or
 * cleared, else the next to be cleared. Null when no engine is left to start.
 */
export function conditionsFor(
  state: SessionState,
  now: number,
  words: LaterWords["supervisor"],
): { n: number; title: string } | null {
  const asked = state.engines.find((e) => ["requested", "clear"].includes(plain(lifeAt(e.life, now)).is));
  if (asked) return { n: asked.n, title: words.standsOn(asked.n) };
  const next = nextToClear(state);
  if (next === null) return null;
  const { n, after } = next;
  return { n, title: after === null ? words.wouldStandOn(n) : words.wouldStandAfter(n, after) };
}
