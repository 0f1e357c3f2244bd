import type { FireWord } from "../protocol/standing.ts";
import type { Fire } from "../session/state.ts";

/** The content of a fire's report and of each later word: engine, place, and the event that told the session. */
interface Told {
  engine: number | null;
  place: Fire["place"];
  ref: number;
}

function toldOf(fire: Fire): Told[] {
  const later = (fire.said ?? []).map(({ engine, place, heard }) => ({ engine, place, ref: heard }));
  return [{ engine: fire.engine, place: fire.place, ref: fire.id }, ...later];
}

/** Returns the numbers of the events from which the session knows of the fire: its report and each later word. */
export function refsOf(fire: Fire): number[] {
  return toldOf(fire).map((t) => t.ref);
}

/** A part of a fire as a session or the aircraft's record holds it, with the later words of it. */
type Named<Part extends "engine" | "place"> = Pick<FireWord, Part> & {
  said?: Pick<FireWord, Part>[] | undefined;
};

/** Returns every engine that somebody named for the fire, each once, in the order in which they were named. */
export function enginesOf(fire: Named<"engine">): number[] {
  const named = [fire.engine, ...(fire.said ?? []).map((w) => w.engine)];
  return [...new Set(named.filter((n) => n !== null))];
}

/** Returns every place that somebody named for the fire, each once; empty while nobody did. */
export function placesOf(fire: Named<"place">): Fire["place"][] {
  const named = [fire.place, ...(fire.said ?? []).map((w) => w.place)];
  return [...new Set(named)].filter((place) => place !== "notSaid");
}

/** The fire at one engine and one place. `ref` is the event from which both were known. */
export interface Seat {
  engine: number | null;
  place: Fire["place"];
  ref: number;
}

/**
 * Returns every seat that the words together allow: each named place at each named engine. Without an engine the seat
 * is the whole aircraft.
 */
export function seatsOf(fire: Fire): Seat[] {
  const told = toldOf(fire);
  const first = (has: (t: Told) => boolean) => Math.max(0, told.findIndex(has));
  const engines = enginesOf(fire);
  const places = placesOf(fire);
  return (engines.length === 0 ? [null] : engines).flatMap((engine) =>
    (places.length === 0 ? (["notSaid"] as const) : places).map((place) => {
      const known = Math.max(
        first((t) => t.engine === engine),
        first((t) => t.place === place),
      );
      return { engine, place, ref: told[known]?.ref ?? fire.id };
    }),
  );
}
