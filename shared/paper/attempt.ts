import { type PlainLife, plain } from "../engine/life.ts";
import { engineOf } from "../session/state.ts";
import { written } from "../words/quantity.ts";
import type { Moment } from "./moments.ts";

/** States in which an attempt is over. */
type AttemptEnd = "waiting" | "cooling" | "shutDown";

/** One attempt at one engine, from the request to stable or to its end. Server milliseconds; null: did not happen. */
export interface Attempt {
  asked: number | null;
  cleared: number | null;
  /** False when it turned without clearance. */
  wasCleared: boolean;
  crankedAt: number | null;
  /** Seconds for which the starter was engaged, and the ladder's limit. */
  starterS: number | null;
  starterMaxS: number | null;
  caught: number | null;
  oilFirst: number | null;
  /** The reading that showed the pressure, e.g. "20 psi". */
  oilFirstFigure: string | null;
  oilNormal: number | null;
  oilNormalFigure: string | null;
  stable: number | null;
  /** The engine's state once it is neither requested nor turning. */
  ended: { at: number; is: AttemptEnd } | null;
}

const NEW: Attempt = {
  asked: null,
  cleared: null,
  wasCleared: true,
  crankedAt: null,
  starterS: null,
  starterMaxS: null,
  caught: null,
  oilFirst: null,
  oilFirstFigure: null,
  oilNormal: null,
  oilNormalFigure: null,
  stable: null,
  ended: null,
};
const WAITING: PlainLife = { is: "waiting" };

/** Returns the attempt at engine `n` after one more moment; null while there is none. One that ended is followed by null. */
export function attemptAfter(
  now: Attempt | null,
  { event, before, after }: Moment,
  n: number,
): Attempt | null {
  const last = before ? engineOf(before, n) : undefined;
  const next = engineOf(after, n);
  if (!next) return now;
  const was = last ? plain(last.life) : WAITING;
  const is = plain(next.life);
  const { at } = event;
  const letGo = starterLetGo(last?.starter.at(-1), next.starter.at(-1));
  const row: Attempt | null = now && letGo !== null ? { ...now, starterS: letGo } : now;
  if (was === is) return row;
  const open = row ?? NEW;
  switch (is.is) {
    case "requested":
      return was.is === "requested" ? row : { ...open, asked: open.asked ?? at };
    case "clear":
      return was.is === "clear" ? row : { ...open, cleared: at };
    case "cranking":
      return was.is === "cranking" && was.since === is.since
        ? row
        : { ...open, wasCleared: is.cleared, crankedAt: at, starterMaxS: (is.limitAt - is.since) / 1000 };
    case "caught": {
      const caught = { ...open, caught: open.caught ?? at };
      return is.firstOilAt !== null && open.oilFirst === null
        ? { ...caught, oilFirst: at, oilFirstFigure: figureOf(event.fact) }
        : caught;
    }
    case "running":
      return {
        ...open,
        oilFirst: open.oilFirst ?? at,
        oilFirstFigure: open.oilFirstFigure ?? figureOf(event.fact),
        oilNormal: at,
        oilNormalFigure: figureOf(event.fact),
      };
    case "stable":
      return { ...open, stable: open.stable ?? at };
    case "waiting":
    case "shutDown":
    case "cooling":
      return row && { ...row, ended: { at, is: is.is } };
  }
}

/** Returns the seconds of the engagement that ended with this event; null when none did. */
function starterLetGo(
  before: { on: number; off: number | null } | undefined,
  after: { on: number; off: number | null } | undefined,
): number | null {
  if (!after || after.off === null || !before || before.off !== null) return null;
  return (after.off - after.on) / 1000;
}

function figureOf(fact: Moment["event"]["fact"]): string | null {
  return fact.type === "reading" ? written(fact.reading) : null;
}
