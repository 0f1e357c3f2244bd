import { attemptsSinceRun } from "../engine/attempts.ts";
import type { Engine } from "../engine/life.ts";
import { primeFigure } from "../figures/prime.ts";
import type { Moment } from "../paper/moments.ts";
import type { Fitted } from "../protocol/fitted.ts";
import { POSTS, type Post } from "../protocol/posts.ts";
import type { Quantity, Unit } from "../protocol/quantity.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { airTemperature } from "../weather/air.ts";
import { NOTHING_RAISED } from "./happened.ts";
import type { StartRow } from "./row.ts";

/** Returns the row of an engine whose starter was engaged by this moment, with everything known then. */
export function crankedRow(
  { event, before, after }: Moment,
  n: number,
  { fitted, attempt }: { fitted: readonly Fitted[]; attempt: number },
): StartRow {
  const parts = fitted.find((f) => f.n === n);
  const was = before ? engineOf(before, n) : undefined;
  const engine = engineOf(after, n);
  return {
    session: after.id,
    seq: event.seq,
    aircraft: after.aircraft,
    n,
    serial: parts?.engine.serial ?? null,
    hours: parts?.engine.hours ?? null,
    starter: parts?.starter ?? null,
    at: event.at,
    attempt,
    cleared: false,
    reached: "cranked",
    ended: null,
    resistance: was?.blades?.resistance ?? null,
    power: after.powerSource,
    figures: {
      ...(engine ? starterFigures(engine) : {}),
      ...(was?.blades ? { blades: { value: was.blades.blades, unit: "count" } } : {}),
      ...primed(before, n, event.at),
      ...airFigure(after),
    },
    exceeded: [],
    differs: [],
    crew: Object.fromEntries(POSTS.map((p) => [p, after.posts[p]?.name ?? null])) as Record<
      Post,
      string | null
    >,
    equipment: (after.equipment ?? []).map(({ facts }) => facts.id),
    ...NOTHING_RAISED,
  };
}

/** Returns the figures of the engagement that has just begun: the nth since the engine ran, and the rest before it. */
function starterFigures(engine: Engine): StartRow["figures"] {
  const use = engine.starter.at(-1);
  const last = engine.starter.at(-2);
  const rested =
    last && use && last.off !== null && (engine.lastRanAt === null || last.on > engine.lastRanAt);
  return {
    attempts: { value: attemptsSinceRun(engine), unit: "count" },
    ...(rested ? { restS: { value: (use.on - (last.off ?? use.on)) / 1000, unit: "s" } } : {}),
    ...(use?.expected === undefined ? {} : { voltsExpected: { value: use.expected, unit: "V" } }),
  };
}

function primed(before: SessionState | null, n: number, now: number): StartRow["figures"] {
  const prime = before && primeFigure(before, n, now);
  if (!prime || typeof prime.value !== "number" || prime.unit === null) return {};
  return { prime: { value: prime.value, unit: prime.unit as Unit } };
}

function airFigure(state: SessionState): StartRow["figures"] {
  const air: Quantity | null = airTemperature(state);
  return air ? { airC: air } : {};
}
