import type { Field } from "../protocol/field.ts";
import type { SessionState } from "../session/state.ts";
import { seenBy, type Weather } from "../weather/weather.ts";

/** Most flashes that another session is told, the newest ones. */
const FLASHES_TOLD = 50;

/** Returns what the other sessions on a field have reported, for the session `id` there. */
export function fieldFor(sessions: readonly SessionState[], place: string, id: string): Field {
  const others = sessions.filter((s) => s.place === place && s.id !== id);
  const flashes = others
    .flatMap((s) => (s.flashes ?? []).map((f) => ({ session: s.id, ...f })))
    .sort((a, b) => a.at - b.at || a.seq - b.seq)
    .slice(-FLASHES_TOLD);
  const weather = others
    .flatMap((s): Weather[] => (s.weather ? [s.weather] : []))
    .sort((a, b) => seenBy(a).at - seenBy(b).at)
    .at(-1);
  return { flashes, weather: weather ? plainWeather(weather) : null };
}

function plainWeather({ by, ...air }: Weather): Field["weather"] {
  const { at, seq, post, name, seenFrom } = by;
  return { by: { at, seq, post, name, seenFrom }, ...air };
}
