import type { HouseAircraft } from "./aircraft.ts";

/** One difference between two states of an aircraft. `n`: the engine's place. */
export type AircraftChange =
  | { is: "name" | "type" | "stand" | "notes"; before: string | null; after: string | null }
  | { is: "engine" | "propeller" | "starter"; n: number; before: string | null; after: string | null }
  | { is: "engineHours" | "propellerHours"; n: number; before: number | null; after: number | null }
  | { is: "retired" | "takenBack" };

/** Returns what is different in the later state, in the order of the aircraft's page. */
export function changesOf(before: HouseAircraft, after: HouseAircraft): AircraftChange[] {
  const changes: AircraftChange[] = [];
  const type = (a: HouseAircraft) => `${a.typeId} ${a.typeVersion}`;
  const text = (is: "name" | "type" | "stand" | "notes", was: string | null, now: string | null) => {
    if (was !== now) changes.push({ is, before: was, after: now });
  };
  if (before.retired !== after.retired) changes.push({ is: after.retired ? "retired" : "takenBack" });
  text("name", before.name, after.name);
  text("type", type(before), type(after));
  text("stand", before.stand, after.stand);
  const places = [...new Set([...before.fitted, ...after.fitted].map((f) => f.n))].sort((a, b) => a - b);
  for (const n of places) {
    const was = before.fitted.find((f) => f.n === n);
    const now = after.fitted.find((f) => f.n === n);
    for (const part of ["engine", "propeller"] as const) {
      const [old, next] = [was?.[part].serial ?? null, now?.[part].serial ?? null];
      if (old !== next) changes.push({ is: part, n, before: old, after: next });
      const [had, has] = [was?.[part].hours ?? null, now?.[part].hours ?? null];
      if (had !== has) changes.push({ is: `${part}Hours`, n, before: had, after: has });
    }
    const [old, next] = [was?.starter ?? null, now?.starter ?? null];
    if (old !== next) changes.push({ is: "starter", n, before: old, after: next });
  }
  text("notes", before.notes, after.notes);
  return changes;
}
