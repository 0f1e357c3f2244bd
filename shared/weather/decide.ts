import { readFieldReport } from "../models/weather/fieldReport.ts";
import { flashToBangMiles } from "../models/weather/lightning.ts";
import { faultCode } from "../models/weather/reportFault.ts";
import type { Action } from "../protocol/commands.ts";
import type { SessionState } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";

type RecordWeather = Extract<Action, { type: "recordWeather" }>;
type RecordFlash = Extract<Action, { type: "recordFlash" }>;

/**
 * Decides weather given as figures, as a pasted METAR, or both: a figure that a person entered replaces the report's.
 */
export function decideWeather(state: SessionState, action: RecordWeather, { now }: Context): Verdict {
  const { type: _, ...entered } = action;
  const read =
    action.metar === undefined
      ? null
      : readFieldReport(action.metar, now, state.type.timing.weather.value * 1000);
  if (read && !read.ok) return refuse("badReport", { found: faultCode(read.fault) });
  const { station: _station, swing = null, thunder = false, ...reported } = read?.value ?? { station: "" };
  const said = Object.entries(reported).filter(([, value]) => value !== null);
  const figures = { ...(Object.fromEntries(said) as Partial<RecordWeather>), ...entered };
  if (figures.windKt === undefined) return refuse("missingFigure", { found: "wind, kt" });
  return accept({
    ...figures,
    windKt: figures.windKt,
    // A direction that a person saw replaces the report's, and with it how far that one swings.
    ...(swing && entered.fromDeg === undefined ? { swing } : {}),
    ...(thunder ? { thunder } : {}),
    type: "weatherRead",
  });
}

/**
 * Decides a flash. A person reports it at once with an unknown distance and adds the distance later. If thunder and a
 * distance are given together, the nearer counts.
 */
export function decideFlash(state: SessionState, action: RecordFlash, { person }: Context): Verdict {
  const { thunderAfterS, miles, of } = action;
  const told = [thunderAfterS === undefined ? [] : [flashToBangMiles(thunderAfterS)], miles ?? []].flat();
  const far = told.length === 0 ? null : Math.min(...told);
  if (of === undefined) return accept({ type: "flashSeen", miles: far });
  const flash = state.flashes?.find((f) => f.seq === of && f.person === person.id);
  if (!flash) return refuse("nothingOpen");
  if (flash.miles !== null) return refuse("alreadyDone");
  if (far === null) return refuse("missingFigure", { found: "mi" });
  return accept({ type: "flashSeen", miles: far, of });
}
