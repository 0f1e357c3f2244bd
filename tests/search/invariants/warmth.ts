import { askedOf } from "../../../shared/asks/asked.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { granted, hasStop, type Invariant, lifeOf, own } from "./invariant.ts";

/** The oil temperature from which the search's type allows a faster idle, and its least normal oil pressure. */
const WARM = 40;
const LEAST_OIL = 40;

function mayGoFaster(state: SessionState, n: number | undefined): boolean {
  const engine = state.engines[(n ?? 0) - 1];
  if (!engine || lifeOf(engine).is !== "stable" || hasStop(state)) return false;
  const { oilTemp, oilPressure } = engine.readings;
  return (oilTemp?.value ?? 0) >= WARM && (oilPressure?.value ?? LEAST_OIL) >= LEAST_OIL;
}

export const WARMTH: readonly Invariant[] = [
  {
    id: "S37",
    text: "an engine is set to a faster idle by the cockpit alone, stable, on warm oil with its pressure, and under no stop",
    holds: ({ before, move, step }) => {
      const fact = own(step)?.fact;
      if (move.is !== "act" || fact?.type !== "sent" || fact.kind !== "idleFaster") return true;
      return before.posts.cockpit?.id === move.by.id && mayGoFaster(before, fact.engine);
    },
  },
  {
    id: "S38",
    text: "nobody is asked to set a faster idle that may not be set now, or while a starter is held",
    holds: ({ step: { state, events }, now }) => {
      if (state.type.idle === undefined || events.length === 0) return true;
      const asked = askedOf(state, "cockpit", now).filter((a) => a.say === "idleFaster");
      const held = state.engines.some((e) => lifeOf(e).is === "cranking");
      return asked.length === 0 || (asked.length === 1 && !held && mayGoFaster(state, asked[0]?.engine ?? 0));
    },
  },
  {
    id: "S39",
    text: "an engine that stands, or has just caught, idles at the first step",
    holds: ({ step: { state } }) =>
      state.engines.every((e) => e.idleStep === undefined || lifeOf(e).is === "stable"),
  },
  {
    id: "S40",
    text: "a supervisor of several clears only at the aircraft at which they say they stand",
    holds: (t) => {
      if (t.before.supervisesAlso === undefined || !granted(t)) return true;
      const fact = own(t.step)?.fact;
      return fact?.type === "sent" && fact.standsAt === t.before.aircraft;
    },
  },
  {
    id: "S41",
    text: "a forecast of the night is the cockpit's, and is recorded with its source",
    holds: ({ before, move, step }) => {
      const fact = own(step)?.fact;
      if (move.is !== "act" || fact?.type !== "checked" || fact.check !== "nightLeast") return true;
      return before.posts.cockpit?.id === move.by.id && fact.note !== undefined;
    },
  },
];
