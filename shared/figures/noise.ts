import {
  type NoiseExposure,
  type NoiseRule,
  noiseDose,
  timeWeightedAverage,
} from "../models/weather/noise.ts";
import type { SessionEvent } from "../protocol/events.ts";
import { POSTS, type Post } from "../protocol/posts.ts";
import { evolve } from "../session/evolve.ts";
import { isTurning, type SessionState } from "../session/state.ts";
import { cautions, type Figure, ofType } from "./figure.ts";

/** Hours each person stood at each post while any engine turned, from a session's own events up to `now`. */
export function exposures(
  events: readonly SessionEvent[],
  now: number,
): { state: SessionState | null; of: Map<string, { name: string; at: Map<Post, number> }> } {
  const of = new Map<string, { name: string; at: Map<Post, number> }>();
  let state: SessionState | null = null;
  const until = (moment: number) => {
    if (!state?.engines.some((e) => isTurning(e.life))) return;
    const hours = Math.max(0, moment - state.at) / 3_600_000;
    for (const post of POSTS) {
      const holder = state.posts[post];
      if (!holder) continue;
      const own = of.get(holder.id) ?? { name: holder.name, at: new Map<Post, number>() };
      own.at.set(post, (own.at.get(post) ?? 0) + hours);
      of.set(holder.id, own);
    }
  };
  for (const event of events) {
    until(event.at);
    state = evolve(state, event);
  }
  until(now);
  return { state, of };
}

/** The noise dose of each person in this session, percent of a day's. Empty where the type gives no levels. */
export function noiseFigures(events: readonly SessionEvent[], now: number): Figure[] {
  const { state, of } = exposures(events, now);
  const noise = state?.type.ramp?.noise;
  if (!noise) return [];
  const rule: NoiseRule = {
    criterionDBA: noise.criterion.value,
    exchangeDb: noise.exchange.value,
    thresholdDBA: noise.threshold.value,
  };
  return [...of].map(([id, { name, at }]): Figure => {
    const day: NoiseExposure[] = [...at].map(([post, hours]) => ({ dBA: noise.posts[post].value, hours }));
    const dose = noiseDose(day, rule);
    const average = timeWeightedAverage(dose, rule);
    return {
      id: `noise:${id}`,
      words: "noise",
      value: dose,
      unit: "percent",
      verdict: dose >= 100 ? "bad" : dose >= 50 ? "caution" : "good",
      inputs: [
        { name: "person", value: name, unit: null, source: "the session", at: null },
        ...[...at].flatMap(([post, hours]) => [
          {
            name: `at ${post}, engines turning`,
            value: hours,
            unit: "h" as const,
            source: "this session's events",
            at: null,
          },
          ofType(`sound at ${post}`, noise.posts[post]),
        ]),
        { name: "eight-hour average", value: average, unit: "dBA", source: "worked out", at: null },
        ofType("eight hours at", noise.criterion),
        ofType("halves the time", noise.exchange),
        ofType("counts from", noise.threshold),
      ],
      equation: "D = 100 sum(C / T), T = 8 / 2^((L - criterion) / exchange)",
      source: "29 CFR 1910.95 app. A, from memory; half a dose begins the hearing programme",
      ...cautions("This session alone, without hearing protection: add the rest of the day."),
    };
  });
}
