import { inUnit } from "../models/units.ts";
import type { Unit } from "../protocol/quantity.ts";
import type { TypeFault } from "./fault.ts";
import { faultText } from "./faultText.ts";
import { isMembers } from "./members.ts";
import { PUBLISHED, type PublishedFigure } from "./publishedFigures.ts";
import type { AircraftType } from "./schema.ts";

/**
 * A figure is far from the published ones when it is below the lowest or above the highest by more than this part of
 * it. The project chose it: a slip of the pen is mostly a digit or a unit, and both are farther away.
 */
const FAR = 0.5;

/**
 * Returns a warning for every figure that is far from all that the project found published for its kind. It refuses
 * nothing: the aircraft's manual decides. The time is linear in the size of the type.
 */
export function warningsOf(type: AircraftType): TypeFault[] {
  return PUBLISHED.flatMap((known) =>
    found(type, known.at.split("."), "", null).flatMap(({ path, value, unit }) => {
      const read = inUnit({ value, unit }, known.unit);
      if (!isFar(read, known)) return [];
      const held = [`${value} ${unit}`, `${known.lowest}`, `${known.highest} ${known.unit}`, known.source];
      return [{ path, message: faultText("farFromPublished", ...held) }];
    }),
  );
}

function isFar(read: number, { lowest, highest }: PublishedFigure): boolean {
  return read < lowest * (1 - FAR) || read > highest * (1 + FAR);
}

interface Figure {
  path: string;
  value: number;
  unit: Unit;
}

/** Returns the figures at a path, each with its own place. `unit` is that of the gauge they are marks of. */
function found(value: unknown, names: readonly string[], path: string, unit: Unit | null): Figure[] {
  const [name, ...rest] = names;
  if (name === undefined) {
    if (typeof value === "number") return unit ? [{ path, value, unit }] : [];
    return isMembers(value) && typeof value.value === "number"
      ? [{ path, value: value.value, unit: value.unit as Unit }]
      : [];
  }
  if (Array.isArray(value)) {
    const [key, wanted] = name.split("=");
    return value.flatMap((item, i) => {
      const isIt = name === "*" || (isMembers(item) && item[key ?? ""] === wanted);
      return isIt ? found(item, rest, `${path}.${i}`, unit) : [];
    });
  }
  if (!isMembers(value)) return [];
  const own = typeof value.unit === "string" ? (value.unit as Unit) : unit;
  return found(value[name], rest, path === "" ? name : `${path}.${name}`, own);
}
