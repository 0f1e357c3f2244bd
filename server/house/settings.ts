import { ALL_BAR, type House } from "../../shared/house/house.ts";
import { firstEntry, type RegisterEntry } from "../../shared/house/register.ts";
import type { Clock } from "../clock.ts";
import type { Directory } from "../store/directory.ts";
import { asSupervisor, type By, Entries } from "./entries.ts";
import { HouseRefused } from "./refused.ts";

/** The name of a house that has none yet. */
const UNNAMED = "Chockside";

/** Returns the house as it is now; revision 0 before anything was entered. */
export async function houseOf(directory: Directory): Promise<RegisterEntry<"house">> {
  const nothing: House = { id: "house", name: UNNAMED, overdue: ALL_BAR, inspectsDefects: false };
  const entry = await directory.register.one("house", "house");
  return entry ?? { ...firstEntry("house", nothing, "program", 0), revision: 0 };
}

/** Changes the house's name and its rules, if it is still at `revision`. */
export async function changeHouse(
  { directory, clock }: { directory: Directory; clock: Clock },
  by: By,
  to: Pick<House, "name" | "overdue"> & { inspectsDefects?: boolean | undefined },
  revision: number,
): Promise<RegisterEntry<"house">> {
  asSupervisor(by);
  const now = await houseOf(directory);
  if (now.revision !== revision)
    throw new HouseRefused(
      "stale",
      "The house was changed after you read it: read it again, then make your change anew",
    );
  const { name, overdue, inspectsDefects = now.body.inspectsDefects } = to;
  return new Entries("house", "house", directory, clock).put(
    now,
    by,
    { id: "house", name, overdue, inspectsDefects },
    null,
  );
}
