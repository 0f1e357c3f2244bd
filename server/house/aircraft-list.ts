import { type HouseAircraft, houseAircraftSchema } from "../../shared/house/aircraft.ts";
import { fallenHours, fittedFaults, versionFaults } from "../../shared/house/faults.ts";
import { aircraftCells, aircraftColumns, aircraftIn } from "../../shared/house/lists/aircraft.ts";
import type { CsvFault } from "../../shared/house/lists/csv.ts";
import { readList } from "../../shared/house/lists/list.ts";
import { newestApproved } from "../../shared/house/planBar.ts";
import type { By } from "./entries.ts";
import { type ListDeps, type ListWork, nothing } from "./list-work.ts";
import { bodyOn, onLine, registerWork, type Taken } from "./register-list.ts";

/** Returns what a list of aircraft would do. An aircraft whose version is left blank is put on the approved one. */
export async function aircraftWork(deps: ListDeps, by: By, text: string): Promise<ListWork> {
  const read = readList(text, aircraftColumns(), "registration");
  if ("faults" in read) return nothing(read.faults);
  const { directory } = deps;
  const versions = await directory.types();
  const there = await directory.register.all("aircraft");
  const known = new Map(there.map((e) => [e.id.toLowerCase(), e]));
  const faults: CsvFault[] = [];
  const taken: Taken<"aircraft">[] = [];
  for (const { line, cells } of read.rows) {
    const was = known.get((cells.registration ?? "").toLowerCase());
    const before: Record<string, string> = was ? aircraftCells(was.body) : {};
    const whole: Record<string, string> = {
      ...{ ...before, ...cells },
      ...(was ? { registration: was.id } : {}),
    };
    const moved = was !== undefined && whole.type !== was.body.typeId && cells.version === undefined;
    if (whole.type && (moved || !whole.version))
      whole.version = String(newestApproved(whole.type, versions) ?? 1);
    if ((whole.retired ?? "") !== (before.retired ?? ""))
      faults.push({ line, column: "retired", message: "is changed on its page, with a reason" });
    const parsed = houseAircraftSchema.safeParse(aircraftIn(whole, was?.body.retired ?? false));
    const entry = bodyOn(line, parsed, commonColumn);
    if ("faults" in entry) faults.push(...entry.faults);
    else taken.push({ line, was, body: entry.body });
  }
  const changed = new Map(taken.map(({ body }) => [body.id, body]));
  const fleet = there.map((e) => e.body).filter((a) => !changed.has(a.id));
  const after = [...fleet, ...changed.values()];
  for (const { line, was, body } of taken) {
    const onNew = was?.body.typeId !== body.typeId || was.body.typeVersion !== body.typeVersion;
    const type = await directory.type(body.typeId, body.typeVersion);
    const engines = type?.type.engines.length;
    const found = [
      ...(onNew ? versionFaults(body, versions) : []),
      ...(engines === undefined ? [] : fittedFaults(body, engines, after)),
      ...(was ? fallenHours(was.body, body) : []),
    ];
    faults.push(...onLine(line, found, (path) => partColumn(path, body)));
  }
  return registerWork("aircraft", deps, by, taken, faults, aircraftCells);
}

const COMMON: Readonly<Record<string, string>> = {
  id: "registration",
  typeId: "type",
  typeVersion: "version",
};
const commonColumn = (path: string): string => COMMON[path] ?? path;

/** Returns the column of a path, such as `fitted.0.engine.hours`. */
function partColumn(path: string, { fitted }: HouseAircraft): string {
  const [first = "", at = "", part = "", figure] = path.split(".");
  const n = fitted[Number(at)]?.n;
  if (first !== "fitted" || n === undefined) return commonColumn(path);
  const named = part === "n" ? "engine" : part;
  return `${named}${n}${figure === "hours" ? "Hours" : ""}`;
}
