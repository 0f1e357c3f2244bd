import type { HouseAircraft } from "./aircraft.ts";
import { newestApproved, type VersionStatus } from "./planBar.ts";

export interface EntryFault {
  path: string;
  message: string;
}

/** Returns what is wrong with the version of an aircraft: it is put on the approved one of its type and on no other. */
export function versionFaults(
  { typeId, typeVersion }: Pick<HouseAircraft, "typeId" | "typeVersion">,
  versions: readonly VersionStatus[],
): EntryFault[] {
  const newest = newestApproved(typeId, versions);
  if (newest === null) return [{ path: "typeId", message: `no version of a type ${typeId} is approved` }];
  if (newest === typeVersion) return [];
  return [{ path: "typeVersion", message: `version ${newest} of ${typeId} is the approved one` }];
}

/** A part that has hours, and its place in the entry. */
interface CountedPart {
  path: string;
  serial: string | null;
  hours: number | null;
}

function partsOf(aircraft: HouseAircraft): CountedPart[] {
  return aircraft.fitted.flatMap(({ n, engine, propeller }, i) => [
    { path: `fitted.${i}.engine`, ...engine, n },
    { path: `fitted.${i}.propeller`, ...propeller, n },
  ]);
}

/**
 * Returns what is wrong with an aircraft's entry by itself and beside the others: a part at two places, on this aircraft
 * or on two of the house, and an engine that the type does not have.
 * @param engines of the type's version
 */
export function fittedFaults(
  aircraft: HouseAircraft,
  engines: number,
  others: readonly HouseAircraft[],
): EntryFault[] {
  const faults: EntryFault[] = [];
  aircraft.fitted.forEach(({ n }, i) => {
    if (n > engines)
      faults.push({ path: `fitted.${i}.n`, message: `the type has engines 1 to ${engines} only` });
  });
  const seen = new Map<string, string>();
  const kindOf = (path: string) => path.slice(path.lastIndexOf(".") + 1);
  for (const other of others)
    for (const { path, serial } of partsOf(other))
      if (other.id !== aircraft.id && !other.retired && serial !== null)
        seen.set(`${kindOf(path)} ${serial}`, other.id);
  for (const { path, serial } of partsOf(aircraft)) {
    if (serial === null) continue;
    const where = seen.get(`${kindOf(path)} ${serial}`);
    if (where !== undefined)
      faults.push({ path: `${path}.serial`, message: `${serial} is fitted at ${where} already` });
    seen.set(`${kindOf(path)} ${serial}`, aircraft.id);
  }
  return faults;
}

/** Returns each part whose hours fall although its serial stays: they are refused without a reason. */
export function fallenHours(before: HouseAircraft, after: HouseAircraft): EntryFault[] {
  const known = new Map(before.fitted.map((f) => [f.n, f]));
  return after.fitted.flatMap((now, i) => {
    const was = known.get(now.n);
    return (["engine", "propeller"] as const).flatMap((part) => {
      const [old, next] = [was?.[part], now[part]];
      if (!old || old.hours === null || next.hours === null || old.serial !== next.serial) return [];
      if (next.hours >= old.hours) return [];
      const message = `were ${old.hours} h: a supervisor enters fewer, with a reason`;
      return [{ path: `fitted.${i}.${part}.hours`, message }];
    });
  });
}
