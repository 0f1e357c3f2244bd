import { writeCsv } from "../../house/lists/csv.ts";
import type { HouseFigures } from "./schema.ts";

type Cell = string | number | null;
/** One figure of a table: the item it is of, its measure, value and unit, and its source. */
type Line = [table: string, item: Cell, measure: string, value: Cell, unit: string, source: string];

const HEAD = ["table", "item", "measure", "value", "unit", "source"];

/** Returns the figures of a house as CSV (RFC 4180): one figure in a line, with its unit and its source. */
export function houseCsv(figures: HouseFigures): string {
  const { weeks, posts, holds, conditions, equipment, refusals, touches } = figures;
  const lines: Line[] = [
    ...totals(figures),
    ...weeks.flatMap(({ from, starts, caught, unstarted }): Line[] => {
      const week = new Date(from).toISOString().slice(0, 10);
      return [
        ["weeks", week, "starts", starts, "count", "engagements of a starter, in the week of the plan"],
        ["weeks", week, "caught", caught, "count", "engagements whose engine caught"],
        ["weeks", week, "unstarted", unstarted, "count", "sessions that engaged no starter"],
      ];
    }),
    ...posts.flatMap(({ post, holds: times, heldMin, refusals: refused }): Line[] => [
      ["posts", post ?? "observer", "holds", times, "count", "holds by the post that raised them"],
      ["posts", post ?? "observer", "held", heldMin, "min", "raised to released, by the record"],
      ["posts", post ?? "observer", "refusals", refused, "count", "refusals by the post refused"],
    ]),
    ...holds.flatMap(({ reason, times, heldMin }): Line[] => [
      ["holds", reason, "holds", times, "count", "holds by the reason written"],
      ["holds", reason, "held", heldMin, "min", "raised to released, by the record"],
    ]),
    ...conditions.map(
      ({ condition, times }): Line => [
        ...(["conditions", condition, "refusals"] as const),
        ...([times, "count", "conditions that were not met when something was refused"] as const),
      ],
    ),
    ...equipment.flatMap(({ label, starts, holds: times, heldMin, refusals: refused, perStart }): Line[] => [
      ["equipment", label, "starts", starts, "count", "starts in which it was used"],
      ["equipment", label, "holds", times, "count", "holds of these starts"],
      ["equipment", label, "held", heldMin, "min", "raised to released, by the record"],
      ["equipment", label, "refusals", refused, "count", "refusals of these starts"],
      ["equipment", label, "holds and refusals per start", perStart, "1/start", RATE],
    ]),
    ...refusals.map(
      ({ reason, times }): Line => [
        ...(["refusals", reason, "refusals"] as const),
        ...([times, "count", "refusals by reason"] as const),
      ],
    ),
    ...alertLines(figures.alerts),
    ...touches.flatMap(({ aircraft, n, serial, starts, touches: times, perStart }): Line[] => {
      const engine = serial ?? `${aircraft} ${n}`;
      return [
        ["touches", engine, "starts", starts, "count", "engagements of its starter"],
        ["touches", engine, "touches", times, "count", "from one engagement to the next"],
        ["touches", engine, "touches per start", perStart, "1/start", RATE],
      ];
    }),
  ];
  return writeCsv([HEAD, ...lines.map((line) => line.map((cell) => (cell === null ? "" : String(cell))))]);
}

const RATE = "count divided by starts; empty where there are too few starts";

function totals({ sessions, unstarted, starts }: HouseFigures): Line[] {
  return [
    ["house", "", "sessions", sessions, "count", "starts planned, without returns and rehearsals"],
    ["house", "", "unstarted", unstarted, "count", "sessions that engaged no starter"],
    ["house", "", "starts", starts, "count", "engagements of a starter"],
  ];
}

function alertLines({ briefS, kinds, ...all }: HouseFigures["alerts"]): Line[] {
  const nuisance = `put aside, or over in less than ${briefS} s without an act (ISA-18.2)`;
  const brief = `over in less than ${briefS} s without an act`;
  return [
    ["alerts", "", "raised", all.raised, "count", "alerts of the record"],
    ["alerts", "", "raised per start", all.perStart, "1/start", RATE],
    ["alerts", "", "nuisance", all.nuisance, "count", nuisance],
    ["alerts", "", "nuisance per start", all.nuisancePerStart, "1/start", RATE],
    ...kinds.flatMap((k): Line[] => [
      ["alerts", k.kind, "raised", k.raised, "count", "alerts of the record"],
      ["alerts", k.kind, "raised per start", k.perStart, "1/start", RATE],
      ["alerts", k.kind, "put aside", k.shelved, "count", "put aside by a post"],
      ["alerts", k.kind, "brief", k.brief, "count", brief],
      ["alerts", k.kind, "nuisance", k.nuisance, "count", nuisance],
    ]),
  ];
}
