import { arcClear, guardInPlace } from "../../../shared/conditions/guard.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { fateOf } from "../../../shared/signals/fate.ts";
import { seconds } from "../../ui/numbers.ts";
import type { Words } from "../../words/catalogue.ts";
import type { LaterWords } from "../../words/en/later.ts";
import { laterWords } from "../../words/later.ts";

/** Returns what the guard's reports say now: where the guard stands, and the arc there. Empty without a guard. */
export function guardWords({
  state,
  now,
  words,
}: {
  state: SessionState;
  now: number;
  words: Words;
}): string[] {
  const { guard } = state;
  if (!guard) return [];
  const { guard: says } = laterWords(words.say.language);
  const n = guard.engine;
  const at = says.at(n, seconds(now - guard.at));
  const old = guardInPlace.find(state, n, now).is === "stale" ? [says.old] : [];
  return [at, ...old, ...arcWords(state, n, now, says)];
}

function arcWords(state: SessionState, n: number, now: number, says: LaterWords["guard"]): string[] {
  const arc = state.arcs[n];
  if (!arc) return [isArcUsed(state, n, now) ? says.arcUsed(n) : says.arcUnknown];
  if (!arc.clear) return [says.arcNotClear(seconds(now - arc.at))];
  const old = arcClear.find(state, n, now).is === "stale" ? [says.old] : [];
  return [says.arcClear(seconds(now - arc.at)), ...old];
}

/** True when the start of this engine used the last report that its arc is clear. */
function isArcUsed(state: SessionState, n: number, now: number): boolean {
  const last = state.ended.findLast((s) => s.kind === "arcClear" && s.engine === n);
  const fate = last && fateOf(state, last, now);
  return fate?.is === "over" && fate.why === "used";
}
