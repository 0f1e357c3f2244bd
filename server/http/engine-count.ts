import { latestType } from "../sessions/latest-type.ts";
import type { Directory } from "../store/directory.ts";
import { ProblemError } from "./problem.ts";

/**
 * Returns an aircraft of the register with the number of its engines.
 * @throws ProblemError when the register does not have it
 */
export async function engineCount(
  directory: Directory,
  id: string,
): Promise<{ id: string; engines: number }> {
  const aircraft = (await directory.register.one("aircraft", id))?.body;
  if (!aircraft) throw new ProblemError("notFound", "There is no aircraft with this id");
  // A type that cannot be read keeps no stop from being taken.
  const type = await latestType(directory, aircraft.typeId).catch(() => null);
  // A stop is taken although no version of the type is approved: it is then about the whole aircraft.
  return { id, engines: type?.engines.length ?? 1 };
}
