import type { SessionEvent } from "../protocol/events.ts";
import { POSTS, type Post } from "../protocol/posts.ts";
import type { FaultKind } from "../protocol/rehearsalFaults.ts";
import { type DebriefLine, debriefOf } from "./debrief.ts";

/** One rehearsal, measure by measure: the debrief's lines, counted. There is no sum of them. */
export interface Measures {
  /** Seconds until each kind of fault was answered, the longest of its kind; null when one was not answered. */
  answered: Partial<Record<FaultKind, number | null>>;
  unnecessary: number;
  wrongNumbers: number;
  refused: number;
  stepsMissed: number;
  limits: number;
  alerts: number;
  /** The most that an engine suffered. */
  starterK: number;
  withoutOilS: number;
  /** Touches of each post that people or partners held. */
  touches: Partial<Record<Post, number>>;
}

type Of<K extends DebriefLine["is"]> = Extract<DebriefLine, { is: K }>;

/** Returns the measures of a rehearsal, from its record alone. */
export function measuresOf(events: readonly SessionEvent[]): Measures {
  const lines = debriefOf(events);
  const of = <K extends DebriefLine["is"]>(is: K) => lines.filter((line): line is Of<K> => line.is === is);
  const suffered = (what: Of<"suffered">["what"]) =>
    Math.max(0, ...of("suffered").flatMap((line) => (line.what === what ? [line.found] : [])));
  const answered: Measures["answered"] = {};
  for (const { fault, seconds } of of("answered")) answered[fault] = Math.max(answered[fault] ?? 0, seconds);
  for (const { fault } of of("notAnswered")) answered[fault] = null;
  return {
    answered,
    unnecessary: of("unnecessary").length,
    wrongNumbers: of("wrongNumber").length,
    refused: of("refused").reduce((sum, { times }) => sum + times, 0),
    stepsMissed: of("drill").reduce((sum, { missed }) => sum + missed, 0),
    limits: of("limit").length,
    alerts: of("alert").length,
    starterK: suffered("starterHeat"),
    withoutOilS: suffered("withoutOil"),
    touches: Object.fromEntries(
      POSTS.flatMap((post) => {
        const own = of("touches").find((line) => line.post === post);
        return own ? [[post, own.times]] : [];
      }),
    ),
  };
}

/** One person's post in a rehearsal, beside the last runs of the same script at the same post. */
export interface Compared {
  /** The person's name. */
  name: string;
  post: Post;
  now: Measures;
  /** The newest first. Empty: there was none. */
  before: { session: string; at: number; measures: Measures }[];
}

/** A rehearsal beside the earlier runs of its people, as far as whoever asks may read them. */
export interface Comparison {
  /** It began at a moment of another rehearsal, so it is compared with none. */
  takenBack: boolean;
  people: Compared[];
}
