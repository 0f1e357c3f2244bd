import { withEngine } from "../engine/evolve.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import { remarked } from "../stopping/evolve.ts";
import type { SeenFlash } from "../weather/weather.ts";
import { attributionOf } from "./attribute.ts";
import type { SessionState } from "./state.ts";

type ReportFact = FactOf<
  | "bladesCounted"
  | "weatherRead"
  | "defectWritten"
  | "defectClosed"
  | "defectMended"
  | "exceeded"
  | "flashSeen"
>;

const FLASHES_KEPT = 50;

/** Returns the state after a report for a condition, or after a limit was passed. */
export function evolveReport(state: SessionState, event: SessionEvent, fact: ReportFact): SessionState {
  const by = attributionOf(event, null);
  switch (fact.type) {
    case "bladesCounted":
      return withEngine(state, fact.engine, (e) => ({
        ...e,
        blades: { by, blades: fact.blades, resistance: fact.resistance },
      }));
    case "weatherRead":
      return {
        ...(fact.thunder
          ? withFlash(state, { at: event.at, miles: null, seq: event.seq, person: null })
          : state),
        weather: {
          by,
          windKt: fact.windKt,
          gustKt: fact.gustKt ?? null,
          fromDeg: fact.fromDeg ?? null,
          temperatureC: fact.temperatureC ?? null,
          qnhHpa: fact.qnhHpa ?? null,
          ...(fact.dewPointC === undefined ? {} : { dewPointC: fact.dewPointC }),
          ...(fact.swing === undefined ? {} : { swing: fact.swing }),
          ...(fact.metar === undefined ? {} : { metar: fact.metar }),
          ...(fact.observedAt === undefined ? {} : { observedAt: fact.observedAt }),
        },
      };
    case "flashSeen": {
      const before = state.flashes ?? [];
      if (fact.of !== undefined) {
        const told = before.map((f) => (f.seq === fact.of ? { ...f, miles: fact.miles } : f));
        return { ...state, flashes: told };
      }
      const person = event.actor.kind === "person" ? event.actor.id : null;
      return withFlash(state, { at: event.at, miles: fact.miles, seq: event.seq, person });
    }
    case "defectWritten": {
      const defect = {
        id: `${state.id}-${event.seq}`,
        words: fact.words,
        engine: fact.engine ?? null,
        barsStart: fact.barsStart,
        by,
      };
      return remarked({ ...state, defects: [...state.defects, defect] }, fact.engine);
    }
    case "defectMended": {
      const person = event.actor.kind === "person" ? event.actor.id : "";
      const mended = { reason: fact.reason, by, person };
      return {
        ...state,
        defects: state.defects.map((d) => (d.id === fact.defect ? { ...d, mended } : d)),
      };
    }
    case "defectClosed":
      return {
        ...state,
        defects: state.defects.filter((d) => d.id !== fact.defect),
        defectsClosed: [...(state.defectsClosed ?? []), { id: fact.defect, reason: fact.reason, by }],
      };
    case "exceeded":
      return withEngine(state, fact.engine, (e) => ({
        ...e,
        exceeded: [
          ...e.exceeded,
          { limit: fact.limit, allowed: fact.allowed, found: fact.found, at: event.at },
        ],
      }));
  }
}

/** Returns the state with one more flash. */
export function withFlash(state: SessionState, flash: SeenFlash): SessionState {
  return { ...state, flashes: [...(state.flashes ?? []), flash].slice(-FLASHES_KEPT) };
}
