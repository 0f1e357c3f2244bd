import type { HouseAircraft } from "../aircraft.ts";
import { figureIn, textIn, written } from "./list.ts";

/** Engines that a type may have at most. */
const MOST_ENGINES = 8;
const PLACES = Array.from({ length: MOST_ENGINES }, (_, i) => i + 1);
const placeColumns = (n: number) => [
  ...[`engine${n}`, `engine${n}Hours`, `propeller${n}`, `propeller${n}Hours`, `starter${n}`],
];
const COMMON = ["registration", "name", "type", "version", "stand", "notes", "retired"];

/**
 * Returns the columns of the list of aircraft, with the parts at the first engines' places. `retired` is changed on the
 * aircraft's page alone.
 */
export const aircraftColumns = (engines = MOST_ENGINES): string[] => [
  ...COMMON,
  ...PLACES.slice(0, engines).flatMap(placeColumns),
];

type Cells = Readonly<Record<string, string>>;

export function aircraftCells(aircraft: HouseAircraft): Record<string, string> {
  const { id, name, typeId, typeVersion, stand, notes, retired, fitted } = aircraft;
  const cells: Record<string, string> = {
    ...{ registration: id, name, type: typeId, version: written(typeVersion) },
    ...{ stand: written(stand), notes: written(notes), retired: retired ? "yes" : "" },
  };
  for (const { n, engine, propeller, starter } of fitted) {
    cells[`engine${n}`] = written(engine.serial);
    cells[`engine${n}Hours`] = written(engine.hours);
    cells[`propeller${n}`] = written(propeller.serial);
    cells[`propeller${n}Hours`] = written(propeller.hours);
    cells[`starter${n}`] = written(starter);
  }
  return cells;
}

/** Returns the entry that the cells describe, to be checked. */
export function aircraftIn(cells: Cells, retired: boolean): unknown {
  const { registration, name, type, version } = cells;
  return {
    ...{ id: registration, name, typeId: type, typeVersion: figureIn(version) },
    ...{ stand: textIn(cells.stand), notes: textIn(cells.notes), retired },
    fitted: PLACES.flatMap((n) => {
      if (placeColumns(n).every((column) => (cells[column] ?? "") === "")) return [];
      const part = (is: string) => ({
        serial: textIn(cells[`${is}${n}`]),
        hours: figureIn(cells[`${is}${n}Hours`]),
      });
      return [
        { n, engine: part("engine"), propeller: part("propeller"), starter: textIn(cells[`starter${n}`]) },
      ];
    }),
  };
}
