import { refused } from "../models/outcome.ts";
import { type NoiseRule, noiseDose, permittedHours, timeWeightedAverage } from "../models/weather/noise.ts";
import { POSTS, type Post } from "../protocol/posts.ts";
import type { RampData } from "../types/ramp.ts";
import { say } from "../words/en.ts";
import { cautions, type Figure, type FigureInput, type FigureVerdict, ofType } from "./figure.ts";
import type { NoiseLog } from "./noiseLog.ts";

type TypeNoise = NonNullable<RampData["noise"]>;

/** A day of 24 hours up to now, not a calendar day, so that a shift over midnight counts whole. */
const DAY_MS = 86_400_000;

/**
 * Percent of a whole dose: the permissible exposure, and the half at which the hearing programme begins (1910.95 c).
 */
const WHOLE = 100;
const HALF = 50;

/** One person's time at one post in one session of the day. */
interface Stay {
  aircraft: string;
  post: Post;
  hours: number;
  noise: TypeNoise | null;
}

/**
 * Returns the noise dose of everybody who holds or held a post in `own`, over all sessions of the 24 hours up to `now`,
 * percent of a day's dose. Each stay uses the levels and the rule of its own session's type. Empty where neither this
 * type nor any other of the day gives levels.
 */
export function noiseFigures(own: NoiseLog | null, others: readonly NoiseLog[], now: number): Figure[] {
  if (!own) return [];
  const logs = [own, ...others];
  const reference = logs.map((l) => l.state.type.ramp?.noise).find((n) => n !== undefined);
  if (!reference) return [];
  return peopleIn(own).map(({ id, name }) => {
    const stays = logs.flatMap((log) => staysOf(log, id, now));
    const left = levelNow(own, id);
    return figureOf({ id, name }, stays, left, reference, now);
  });
}

/** Returns everybody who holds a post, or held one while an engine turned. */
function peopleIn({ state, spans }: NoiseLog): { id: string; name: string }[] {
  const all = new Map<string, string>();
  for (const post of POSTS) {
    const holder = state.posts[post];
    if (holder) all.set(holder.id, holder.name);
  }
  for (const { person, name } of spans) if (!all.has(person)) all.set(person, name);
  return [...all].map(([id, name]) => ({ id, name }));
}

function staysOf({ state, spans }: NoiseLog, person: string, now: number): Stay[] {
  const since = now - DAY_MS;
  const noise = state.type.ramp?.noise ?? null;
  return POSTS.flatMap((post): Stay[] => {
    const ms = spans
      .filter((s) => s.person === person && s.post === post)
      .reduce((sum, s) => sum + Math.max(0, Math.min(s.to ?? now, now) - Math.max(s.from, since)), 0);
    return ms > 0 ? [{ aircraft: state.aircraft, post, hours: ms / 3_600_000, noise }] : [];
  });
}

const ruleOf = (noise: TypeNoise): NoiseRule => ({
  criterionDBA: noise.criterion.value,
  exchangeDb: noise.exchange.value,
  thresholdDBA: noise.threshold.value,
});

/** Returns the level at the post that the person holds now, and its rule; null where there is none. */
function levelNow({ state }: NoiseLog, person: string): { post: Post; noise: TypeNoise } | null {
  const post = POSTS.find((p) => state.posts[p]?.id === person);
  const noise = state.type.ramp?.noise;
  return post && noise ? { post, noise } : null;
}

function figureOf(
  person: { id: string; name: string },
  stays: readonly Stay[],
  here: { post: Post; noise: TypeNoise } | null,
  reference: TypeNoise,
  now: number,
): Figure {
  const doses = stays.map(({ post, hours, noise }) =>
    noise ? noiseDose([{ dBA: noise.posts[post].value, hours }], ruleOf(noise)) : refused("no level"),
  );
  const dose = doses.reduce((sum, d) => (d.ok ? sum + d.value : sum), 0);
  const untold = doses.some((d) => !d.ok);
  const average = timeWeightedAverage(dose, ruleOf(reference));
  const verdict = verdictOf(dose, untold);
  return {
    id: `noise:${person.id}`,
    words: "noise",
    value: verdict === "unknown" ? null : dose,
    unit: "percent",
    detail: person.name,
    verdict,
    inputs: [
      ...stays.flatMap(stayInputs),
      ...(untold ? [knownPart(dose)] : []),
      ...(here && !untold ? [timeLeft(dose, here)] : []),
      {
        name: "eight-hour average",
        value: average.ok ? average.value : null,
        unit: "dBA",
        source: "worked out",
        at: now,
      },
      ofType("eight hours at", reference.criterion),
      ofType("halves the time", reference.exchange),
      ofType("counts from", reference.threshold),
    ],
    equation: "D = 100 sum(C / T), T = 8 / 2^((L - criterion) / exchange)",
    source: "29 CFR 1910.95 app. A, from memory; half a dose begins the hearing programme",
    ...cautions(
      "The sessions of the last 24 hours kept here, without hearing protection: add what else the day had.",
      untold && "One of its types gives no level for a post: there the dose is not known.",
    ),
  };
}

/** The known part alone may already be too much. A dose with an unknown part is never good. */
function verdictOf(dose: number, untold: boolean): FigureVerdict {
  if (dose >= WHOLE) return "bad";
  if (dose >= HALF) return "caution";
  return untold ? "unknown" : "good";
}

const named = (post: Post) => say.post(post).toLowerCase();

function stayInputs({ aircraft, post, hours, noise }: Stay): FigureInput[] {
  const stay: FigureInput = {
    name: `${aircraft}: at ${named(post)}, engines turning`,
    value: hours,
    unit: "h",
    source: "that session's events",
    at: null,
  };
  const level: FigureInput = noise
    ? ofType(`sound at ${named(post)}`, noise.posts[post])
    : { name: `sound at ${named(post)}`, value: null, unit: "dBA", source: "the type gives none", at: null };
  return [stay, level];
}

/** Returns the known part of a dose that is not known as a whole. */
function knownPart(dose: number): FigureInput {
  return { name: "of what is known", value: dose, unit: "percent", source: "worked out", at: null };
}

/** Returns the time until a whole dose at the present post. A level below the rule's threshold never fills it. */
function timeLeft(dose: number, { post, noise }: { post: Post; noise: TypeNoise }): FigureInput {
  const level = noise.posts[post].value;
  const rule = ruleOf(noise);
  const counts = level >= rule.thresholdDBA;
  const whole = permittedHours(level, rule);
  const hours = whole.ok ? (Math.max(0, WHOLE - dose) / WHOLE) * whole.value : null;
  return {
    name: `at ${named(post)} until a whole dose`,
    value: counts ? hours : "no end",
    unit: counts ? "h" : null,
    source: "worked out",
    at: null,
  };
}
