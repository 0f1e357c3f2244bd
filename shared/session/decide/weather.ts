import { convert } from "../../models/units.ts";
import { flashToBangMiles } from "../../models/weather/lightning.ts";
import { readMetar } from "../../models/weather/metar.ts";
import type { Action } from "../../protocol/commands.ts";
import type { FactOf } from "../../protocol/events.ts";
import { accept, refuse, type Verdict } from "../verdict.ts";

type WeatherAction = Extract<Action, { type: "recordWeather" | "recordFlash" }>;

/** Weather by figures, by a pasted METAR, or both; and lightning. */
export function decideWeather(action: WeatherAction): Verdict {
  if (action.type === "recordFlash") {
    const seconds = action.thunderAfterS;
    return accept({ type: "flashSeen", miles: seconds === undefined ? null : flashToBangMiles(seconds) });
  }
  const { type: _, ...entered } = action;
  const reported = action.metar === undefined ? {} : fromMetar(action.metar);
  if ("why" in reported) return refuse("missingFigure", { found: `METAR: ${reported.why}` });
  const read = { ...reported, ...entered };
  if (read.windKt === undefined) return refuse("missingFigure", { found: "wind, kt" });
  return accept({ ...read, windKt: read.windKt, type: "weatherRead" });
}

type Read = Omit<FactOf<"weatherRead">, "type" | "windKt"> & { windKt?: number };

const RANGES = { windKt: 150, gustKt: 200 } as const;

/** The figures a start depends on; what the report leaves out is left out, what cannot be is not taken. */
function fromMetar(text: string): Read | { why: string } {
  const report = readMetar(text);
  if (!report.ok) return { why: report.why };
  const { wind, temperatureC, dewPointC, pressure } = report.value;
  const hPa = pressure ? convert(pressure, "hPa") : null;
  const tenth = (value: number) => Math.round(value * 10) / 10;
  const read: Read = {
    ...(wind ? { windKt: tenth(wind.speedKt) } : {}),
    ...(wind?.gustKt === null || wind?.gustKt === undefined ? {} : { gustKt: tenth(wind.gustKt) }),
    ...(wind?.fromDeg === null || wind?.fromDeg === undefined ? {} : { fromDeg: wind.fromDeg }),
    ...(temperatureC === null ? {} : { temperatureC }),
    ...(dewPointC === null ? {} : { dewPointC }),
    ...(hPa?.ok ? { qnhHpa: tenth(hPa.value.value) } : {}),
  };
  for (const [key, most] of Object.entries(RANGES)) {
    const value = read[key as keyof typeof RANGES];
    if (value !== undefined && !(value >= 0 && value <= most)) return { why: `${key} ${value}` };
  }
  if (temperatureC !== null && !(temperatureC >= -60 && temperatureC <= 60))
    return { why: `temperature ${temperatureC}` };
  return read;
}
