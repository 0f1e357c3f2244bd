import type { Field } from "../protocol/field.ts";
import type { SessionState } from "../session/state.ts";
import { seenBy, type Weather } from "../weather/weather.ts";

/** Returns the state after the session was told of its field. Newer weather takes the place of its own. */
export function knowField(state: SessionState, field: Field): SessionState {
  const { flashes } = field;
  return {
    ...state,
    fieldFlashes: flashes,
    weather: isNewer(state, field) ? weatherOf(field) : state.weather,
  };
}

/** Returns whether the field holds anything that this session does not know yet. */
export function isFieldNews(state: SessionState, field: Field): boolean {
  if (isNewer(state, field)) return true;
  return JSON.stringify(field.flashes) !== JSON.stringify(state.fieldFlashes ?? []);
}

function isNewer({ weather }: SessionState, field: Field): boolean {
  const told = weatherOf(field);
  return told !== null && (weather === null || seenBy(told).at > seenBy(weather).at);
}

function weatherOf({ weather }: Field): Weather | null {
  if (!weather) return null;
  const { dewPointC, metar, observedAt, swing, ...air } = weather;
  return {
    ...air,
    ...(dewPointC === undefined ? {} : { dewPointC }),
    ...(swing === undefined ? {} : { swing }),
    ...(metar === undefined ? {} : { metar }),
    ...(observedAt === undefined ? {} : { observedAt }),
  };
}
