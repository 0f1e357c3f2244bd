import { convert, isUnit } from "../models/units.ts";
import type { TypeFault } from "./fault.ts";
import { faultText } from "./faultText.ts";
import { isMembers, type Members } from "./members.ts";
import type { AircraftType } from "./schema.ts";

/**
 * Returns a fault for every figure whose unit changed between two forms of a type while the figure stayed: nobody
 * converts 25 psi to 25 bar on purpose. A figure that is the same in both units, such as -40 degrees, is no fault.
 */
export function unitsChangedAlone(before: AircraftType, after: AircraftType): TypeFault[] {
  const faults: TypeFault[] = [];
  compare(before, after, "", (path, message) => faults.push({ path, message }));
  return faults;
}

function compare(
  before: unknown,
  after: unknown,
  path: string,
  fault: (path: string, message: string) => void,
): void {
  if (Array.isArray(before) && Array.isArray(after)) {
    const own = new Map(before.map((v, i) => [nameOf(v) ?? i, v]));
    after.forEach((v, i) => {
      compare(own.get(nameOf(v) ?? i), v, `${path}.${i}`, fault);
    });
    return;
  }
  if (!isMembers(before) || !isMembers(after)) return;
  changed(before, after, path, fault);
  for (const [key, value] of Object.entries(after))
    compare(before[key], value, path === "" ? key : `${path}.${key}`, fault);
}

function changed(before: Members, after: Members, path: string, fault: (p: string, m: string) => void) {
  const [from, to] = [before.unit, after.unit];
  if (typeof from !== "string" || typeof to !== "string" || from === to || !isUnit(from) || !isUnit(to))
    return;
  const place = `${path}.unit`;
  if (typeof after.value === "number") {
    const same = convert({ value: after.value, unit: from }, to);
    const alike = same.ok && Math.abs(same.value.value - after.value) < 1e-9;
    if (before.value === after.value && !alike)
      fault(place, faultText("unitWithoutFigure", from, to, after.value));
    return;
  }
  const [a, b] = [figuresOf(before), figuresOf(after)];
  if (a === b && a !== "[]") fault(place, faultText("scaleUnitWithoutFigures", from, to));
}

/** Returns the figures of a gauge or of a check's range, as one text. */
function figuresOf({ min, normalLow, normalHigh, max, scale }: Members): string {
  const figures = [min, normalLow, normalHigh, max].filter((v) => v !== undefined);
  const ends = isMembers(scale) ? [scale.from, scale.to] : [];
  return JSON.stringify([...figures, ...ends]);
}

/** Returns the id of a list's item, or null where it has none. */
const nameOf = (v: unknown) => (isMembers(v) && typeof v.id === "string" ? v.id : null);
