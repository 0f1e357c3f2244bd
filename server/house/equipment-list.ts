import { equipmentFaults, houseEquipmentSchema } from "../../shared/house/equipment.ts";
import type { CsvFault } from "../../shared/house/lists/csv.ts";
import {
  EQUIPMENT_COLUMNS,
  equipmentCells,
  equipmentIn,
  strangeCells,
} from "../../shared/house/lists/equipment.ts";
import { readList } from "../../shared/house/lists/list.ts";
import { EQUIPMENT_KINDS } from "../../shared/protocol/equipmentKinds.ts";
import type { By } from "./entries.ts";
import { type ListDeps, type ListWork, nothing } from "./list-work.ts";
import { bodyOn, onLine, registerWork, type Taken } from "./register-list.ts";

/** Returns what a list of equipment would do. */
export async function equipmentWork(deps: ListDeps, by: By, text: string): Promise<ListWork> {
  const read = readList(text, EQUIPMENT_COLUMNS, "label");
  if ("faults" in read) return nothing(read.faults);
  const known = new Map((await deps.directory.register.all("equipment")).map((e) => [e.id.toLowerCase(), e]));
  const faults: CsvFault[] = [];
  const taken: Taken<"equipment">[] = [];
  for (const { line, cells } of read.rows) {
    const was = known.get((cells.label ?? "").toLowerCase());
    const before: Record<string, string> = was ? equipmentCells(was.body) : {};
    const whole: Record<string, string> = { ...before, ...cells, ...(was ? { label: was.id } : {}) };
    const about = (column: string, message: string) => faults.push({ line, column, message });
    if (was && whole.kind !== was.body.kind) about("kind", `${was.id} is of the kind ${was.body.kind}`);
    if ((whole.out ?? "") !== (before.out ?? "")) about("out", "is changed on its page, with a reason");
    for (const column of strangeCells(whole)) about(column, `a piece of the kind ${whole.kind} has none`);
    if (!EQUIPMENT_KINDS.some((kind) => kind === whole.kind)) {
      about("kind", `must be ${EQUIPMENT_KINDS.join(" or ")}`);
      continue;
    }
    const parsed = houseEquipmentSchema.safeParse(equipmentIn(whole, was?.body.out ?? null));
    const entry = bodyOn(line, parsed, columnOf);
    if ("faults" in entry) faults.push(...entry.faults);
    else {
      faults.push(...onLine(line, equipmentFaults(entry.body), columnOf));
      taken.push({ line, was, body: entry.body });
    }
  }
  return registerWork("equipment", deps, by, taken, faults, equipmentCells);
}

/** Returns the column of a path, such as `cable.metres`. */
function columnOf(path: string): string {
  return path === "id" ? "label" : (path.split(".").at(-1) ?? path);
}
