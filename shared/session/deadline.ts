import { soundsAgainAt } from "../alerts/consequences.ts";
import { findAll } from "../conditions/all.ts";
import { plain } from "../engine/life.ts";
import { overrideMoments } from "../overrides/consequences.ts";
import { overriddenBy } from "../overrides/overridden.ts";
import { lapseMoments } from "../posts/presence.ts";
import { fireOutMoments } from "../stops/fireOutWord.ts";
import { lightningMoments } from "../weather/lightning.ts";
import { isOver, type SessionState } from "./state.ts";

/**
 * Returns the next moment, server milliseconds, at which time alone changes something; null when none will. A limit
 * that is kept up to its last millisecond is passed one millisecond later.
 */
export function nextDeadline(state: SessionState): number | null {
  if (isOver(state)) return null;
  const moments: number[] = [];
  for (const engine of state.engines) {
    const life = plain(engine.life);
    switch (life.is) {
      case "clear":
        moments.push(life.clearance.expiresAt);
        for (const finding of findAll(state, engine.n, state.at)) {
          if (finding.is !== "yes" || finding.until === null) continue;
          // A condition that two people set aside changes nothing when its answer ages.
          const old = { ...finding, is: "stale" as const };
          if (!overriddenBy(state, finding.id, engine.n, old, finding.until)) moments.push(finding.until);
        }
        break;
      case "cranking":
        if (!life.limitSaid) moments.push(life.limitAt + 1);
        break;
      case "caught":
        if (!life.firstLateSaid && life.firstOilAt === null) moments.push(life.firstDueAt + 1);
        if (!life.normalLateSaid) moments.push(life.normalDueAt + 1);
        break;
      case "cooling":
        moments.push(life.until);
        break;
    }
  }
  moments.push(...lapseMoments(state));
  moments.push(...lightningMoments(state));
  moments.push(...overrideMoments(state), ...fireOutMoments(state));
  for (const alert of state.alerts) {
    const again = soundsAgainAt(state, alert);
    if (again !== null) moments.push(again);
    moments.push(...Object.values(alert.shelvedUntil));
  }
  for (const signal of state.signals) if (signal.dueAt !== null) moments.push(signal.dueAt);
  return moments.length === 0 ? null : Math.min(...moments);
}
