import type { Engine } from "../engine/life.ts";
import { bladeRuleOf, bladeThresholdsMs } from "../models/bladeRules.ts";
import { bladesDueAt, countUsedUp } from "../propeller/bladesDue.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import type { Finding, ReportedCondition } from "./definition.ts";
import { NOBODY_SAID, reportedNo } from "./finding.ts";

/**
 * The engine's blades were counted through without resistance, as far as the type's rule asks, or no count is due so
 * soon after a run. A liquid lock bends a rod (FAA-H-8083-30 ch. 11). The type sets how many blades, and how long a
 * count holds.
 */
export const bladesCounted: ReportedCondition<"bladesCounted"> = {
  id: "bladesCounted",
  owners: ["groundPower", "fireGuard"],
  scope: { clearance: "ifListed" },
  freshness: null,
  mayBeSetAside: true,
  askedBefore: true,
  find(state, engine, now) {
    const e = engineOf(state, engine);
    if (!e) return NOBODY_SAID;
    const found = findAt(state, e, now);
    if (found.is !== "yes") return found;
    const later = moments(state, e).filter((at) => at > now);
    return { ...found, until: later.find((at) => findAt(state, e, at).is !== "yes") ?? null };
  },
};

function findAt(state: SessionState, e: Engine, at: number): Finding {
  const count = e.blades;
  const by = count && { post: count.by.post, name: count.by.name };
  // Resistance felt after the last run is a no, however recently the engine ran.
  if (count?.resistance) return { is: "no", at: count.by.at, by, until: null, found: "resistance" };
  const due = bladesDueAt(state, e, at);
  if (!due.ok) return { ...NOBODY_SAID, found: due.why };
  if (!due.value.due) return { is: "yes", at: e.lastRanAt, by: null, until: null };
  if (!count || countUsedUp(state, e)) return NOBODY_SAID;
  if (count.blades < due.value.blades) {
    const found = `${count.blades} of ${due.value.blades}`;
    return { is: "no", at: count.by.at, by, until: null, found };
  }
  const until = count.by.at + bladeRuleOf(state.type.bladeCount).holdsMs;
  return { is: at >= until ? "stale" : "yes", at: count.by.at, by, until };
}

/**
 * Returns in order the moments at which time alone may change the answer: the rule asks for more, or the count has
 * become too old.
 */
function moments(state: SessionState, e: Engine): number[] {
  const { rule, holdsMs } = bladeRuleOf(state.type.bladeCount);
  const ran = e.lastRanAt;
  const due = ran === null ? [] : bladeThresholdsMs(rule).map((ms) => ran + ms);
  const old = e.blades ? [e.blades.by.at + holdsMs] : [];
  return [...due, ...old].sort((a, b) => a - b);
}

/** Nobody has hands on any propeller. Ignition was confirmed off before anybody went there. */
export const handsOffPropellers: ReportedCondition<"handsOffPropellers"> = {
  id: "handsOffPropellers",
  owners: ["fireGuard", "groundPower"],
  scope: { clearance: "always" },
  freshness: null,
  mayBeSetAside: false,
  askedBefore: true,
  find(state) {
    const hands = state.handling ?? state.standing?.hands[0];
    if (hands) return reportedNo(hands.by, String(hands.engine));
    return { is: "yes", at: null, by: null, until: null };
  },
};

/** A named person has since seen every propeller that an earlier session left turning stand still. */
export const propellersStill: ReportedCondition<"propellersStill"> = {
  id: "propellersStill",
  owners: ["fireGuard", "groundPower"],
  scope: { clearance: "always", handlePropeller: "always" },
  freshness: null,
  mayBeSetAside: false,
  askedBefore: true,
  find(state) {
    const turning = state.standing?.turning ?? [];
    if (turning.length === 0) return { is: "yes", at: null, by: null, until: null };
    const found = turning.map((t) => t.engine).join(", ");
    return { is: "no", at: null, by: null, until: null, found };
  },
};
