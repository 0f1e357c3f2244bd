import { WAS_A_SLIP, WORKED_THROUGH } from "../drills/outcome.ts";
import { AS_READ, type UnitChoice } from "../models/unitChoice.ts";
import { faultOf, partUnit, type ReportFault } from "../models/weather/reportFault.ts";
import { type Requirement, readRequirement } from "../plan/requirement.ts";
import type { Refusal } from "../protocol/refusal.ts";
import type { RunUpFault } from "../runUp/fault.ts";
import { gaugeName } from "../types/gaugeName.ts";
import type { AircraftType } from "../types/schema.ts";
import { outcomes as english, type Outcomes } from "./en/outcomes.ts";
import { outcomes as spanish } from "./es/outcomes.ts";
import type { Language } from "./language.ts";
import { writtenBoth } from "./quantity.ts";
import { put, type Say } from "./say.ts";

/** Both languages: on a panel they load after its first picture. */
const WORDS: Readonly<Record<Language, Outcomes>> = { en: english, es: spanish };

/** Returns the sentences for what became of something, in the language of `say`. */
export function outcomesOf(say: Say) {
  const words = WORDS[say.language];
  const missingCode = (code: string, type: AircraftType | null): string => {
    const requirement = readRequirement(code);
    return requirement ? outcome.missing(requirement, type) : words.missing.unknown(code);
  };
  const outcome = {
    /** Returns a reason for refusing as it is said at any time: an ellipsis stands for what differs. */
    anyRefusal: (reason: Refusal["reason"]): string =>
      put(words.refusals[reason], { n: "…", f: "…", p: "…" }),
    /** @param type the type whose names for checks and gauges replace their ids */
    refusal(refusal: Refusal, units: UnitChoice = AS_READ, type: AircraftType | null = null): string {
      const said = put(words.refusals[refusal.reason], {
        n: refusal.engine,
        f:
          refusal.reason === "badReport"
            ? outcome.reportFault(faultOf(refusal.found ?? ""), units)
            : say.found(refusal.found, units),
        p: say.posts(refusal.posts),
      });
      const unmet = (refusal.unmet ?? []).map((u) => `${say.condition(u, units)} (${say.posts(u.owners)}).`);
      const missing = (refusal.missing ?? []).map((m) => `${missingCode(m, type)}.`);
      return [said, ...unmet, ...missing].join(" ");
    },
    reportPart: (part: keyof Outcomes["reportParts"]): string => words.reportParts[part],
    reportSwings: (from: number, to: number): string => words.reportThunder.swings(from, to),
    reportThunder: words.reportThunder.told,
    /** Returns the reason why a weather report is not used, and what to do. */
    reportFault(fault: ReportFault, units: UnitChoice): string {
      const { unreadable, old, impossible, twice } = words.reportFaults;
      if (fault.is === "unreadable") return unreadable;
      if (fault.is === "twice") return twice(words.reportParts[fault.part]);
      const minutes = (ms: number) => Math.floor(ms / 60_000);
      if (fault.is === "old") return old(minutes(fault.age), minutes(fault.most));
      const { part, value } = fault;
      const unit = partUnit(part);
      return impossible(
        words.reportParts[part],
        unit === null ? `${value}°` : writtenBoth({ value, unit }, units),
      );
    },
    /** @param type the type whose names for checks and gauges replace their ids */
    missing(requirement: Requirement, type: AircraftType | null = null): string {
      const { missing } = words;
      switch (requirement.is) {
        case "post":
        case "briefed":
          return missing[requirement.is](say.post(requirement.post));
        case "condition":
          return missing.condition(say.conditionName(requirement.condition));
        case "card": {
          const { item } = requirement;
          return missing.card(type?.card?.find((i) => i.id === item)?.words ?? item);
        }
        case "check": {
          const { check } = requirement;
          return missing.check(type?.checks.find((k) => k.id === check)?.words ?? check);
        }
        case "blades":
        case "handling":
        case "engine":
        case "stopped":
        case "still":
        case "remark":
          return missing[requirement.is](String(requirement.engine));
        case "gate":
          return missing.gate(String(requirement.engine), gaugeName(type, requirement.gauge));
        case "runUp":
          return outcome.runUpFault(requirement.fault, type);
        case "powerOff":
        case "chocksOut":
        case "allClear":
        case "onStand":
        case "switchesOff":
          return missing[requirement.is];
      }
    },
    runUpFault({ engine, of, what }: RunUpFault, type: AircraftType | null): string {
      const item = "check" in of ? words.runUpChecks[of.check] : gaugeName(type, of.gauge);
      return words.runUp(`${item} ${words.runUpFaults[what]}`, engine === null ? null : String(engine));
    },
    /** Returns the outcome of a drill: the person's own words, that every step was worked, or that its fire was a slip. */
    drillOutcome: (outcome: string): string =>
      outcome === WORKED_THROUGH ? words.workedThrough : outcome === WAS_A_SLIP ? words.wasASlip : outcome,
    overrideEnd: (why: keyof Outcomes["overrideEnds"]): string => words.overrideEnds[why],
    exceeded: (limit: keyof Outcomes["limits"]): string => words.limits[limit],
  };
  return outcome;
}
