import { houseEquipmentSchema } from "../../shared/house/equipment.ts";
import { OUT_CAUSES } from "../../shared/protocol/equipmentKinds.ts";
import { line } from "../../shared/protocol/text.ts";
import { StartRefused } from "../start-refused.ts";
import { checked } from "./checked.ts";
import type { By } from "./entries.ts";
import type { EquipmentRegister } from "./equipment.ts";
import { faultWords } from "./fault-words.ts";

export const EQUIPMENT_USAGE = `       npm run house -- equipment
       npm run house -- equipment add <label> <kind> "<name>" [<figure>=<value> …]
       npm run house -- equipment out <label> usedUp|broken|other "<reason>"
       npm run house -- equipment back <label> "<reason>"`;

export const EQUIPMENT_FIGURES = `  kind: cart, extinguisher, chocks, towBar or headset; figures of all: testedUntil place notes
    of a cart: volts continuousA peakA size metres parallel internalOhm (metres: from cart to plug)
    of an extinguisher: agent chargeKg weighedUntil; a day is written such as 2027-03-31`;

export async function listEquipment(register: EquipmentRegister): Promise<void> {
  for (const { entry, faults } of await register.list()) {
    const { id, kind, name } = entry.body;
    const how = faults.length === 0 ? "can be used" : faults.map(faultWords).join("; ");
    console.log(`${id.padEnd(16)} ${kind.padEnd(12)} ${name}: ${how}`);
  }
}

export async function addEquipment(
  register: EquipmentRegister,
  by: By,
  [id, kind, name, ...figures]: string[],
): Promise<void> {
  if (!id || !kind || !name) throw new StartRefused(`${EQUIPMENT_USAGE}\n${EQUIPMENT_FIGURES}`);
  const given = new Map(figures.map((f) => [f.split("=")[0] ?? "", f.slice(f.indexOf("=") + 1)]));
  const entry = checked(
    houseEquipmentSchema.safeParse(entryOf({ id, kind, name }, given)),
    EQUIPMENT_FIGURES,
  );
  await register.add(by, entry);
  console.log(`${id} is in the register`);
}

export async function takeOut(
  register: EquipmentRegister,
  by: By,
  [label, cause, why, ...more]: string[],
): Promise<void> {
  const known = OUT_CAUSES.find((c) => c === cause);
  if (!label || !known || !why || more.length > 0) throw new StartRefused(EQUIPMENT_USAGE);
  const { entry } = await register.one(label);
  const words = checked(line(200).safeParse(why), EQUIPMENT_USAGE);
  await register.setOut(by, label, entry.revision, { cause: known, words }, words);
  console.log(`${label} is out of service`);
}

export async function putBack(
  register: EquipmentRegister,
  by: By,
  [label, why, ...more]: string[],
): Promise<void> {
  if (!label || !why || more.length > 0) throw new StartRefused(EQUIPMENT_USAGE);
  const { entry } = await register.one(label);
  const words = checked(line(200).safeParse(why), EQUIPMENT_USAGE);
  await register.setOut(by, label, entry.revision, null, words);
  console.log(`${label} is back in service`);
}

const NUMBERS = ["volts", "continuousA", "peakA", "metres", "parallel", "internalOhm", "chargeKg"];

/** Returns what was given as an entry to check: a figure that its kind does not have stays in it, and is refused. */
function entryOf(
  named: { id: string; kind: string; name: string },
  given: ReadonlyMap<string, string>,
): unknown {
  const figures = Object.fromEntries(
    [...given].map(([key, text]) => [key, NUMBERS.includes(key) ? Number(text) : text]),
  );
  const common = { ...named, testedUntil: null, place: null, notes: null, out: null };
  if (named.kind === "extinguisher") return { ...common, weighedUntil: null, ...figures };
  if (named.kind !== "cart") return { ...common, ...figures };
  const { size, metres, parallel = 1, ...others } = figures;
  return { ...common, internalOhm: null, ...others, cable: { size, metres, parallel } };
}
