import { sayTrace } from "../figures/voltTrace.ts";
import { envelopeOf } from "../models/electrical/envelopeOf.ts";
import { recordGiven } from "../power/voltTrace.ts";
import type { Post } from "../protocol/posts.ts";
import type { SessionState } from "../session/state.ts";
import type { AircraftType } from "../types/schema.ts";
import { typeIn } from "../words/authored.ts";
import { briefWords } from "../words/brief.ts";
import type { BriefWords } from "../words/en/brief.ts";
import { sayActor } from "../words/events.ts";
import { wordsOf } from "../words/piece.ts";
import { written } from "../words/quantity.ts";
import type { Say } from "../words/say.ts";
import { workedBook } from "../words/worked.ts";
import type { Moment } from "./moments.ts";

/** One reading of volts at any place. `good` is null where the type sets no range for it. */
export interface VoltsRow {
  seq: number;
  at: number;
  where: string;
  figure: string;
  range: string | null;
  good: boolean | null;
  by: string;
}

export interface CheckRow {
  seq: number;
  at: number;
  words: string;
  post: Post;
  figure: string | null;
  range: string | null;
  good: boolean;
  note: string | null;
  by: string;
}

/** Returns the volts that people read: at the cart, on the bus, at a battery or an inverter. */
export function voltsLog(moments: readonly Moment[], say: Say): VoltsRow[] {
  const words = briefWords(say.language);
  return moments.flatMap(({ event, after }): VoltsRow[] => {
    const type = typeIn(after.type, say.language);
    const { fact, seq, at } = event;
    const base = { seq, at, by: sayActor(event, say) };
    if (fact.type === "sent" && fact.volts) {
      const { steadyMin, steadyMax } = type.groundPower;
      const good = fact.volts.value >= steadyMin.value && fact.volts.value <= steadyMax.value;
      const range = words.range(steadyMin.value, written(steadyMax));
      return [{ ...base, where: words.groundPower, figure: written(fact.volts), range, good }];
    }
    if (fact.type === "voltTraceGiven") return [{ ...base, ...traceRow(after, words, say) }];
    if (fact.type === "reading" && fact.reading.unit === "V") {
      const gauge = type.gauges.find((g) => g.id === fact.gauge)?.name ?? fact.gauge;
      const where = fact.engine === undefined ? gauge : words.gaugeOf(gauge, fact.engine);
      return [{ ...base, where, figure: written(fact.reading), range: null, good: null }];
    }
    if (fact.type === "checked" && fact.reading?.unit === "V") {
      const check = type.checks.find((c) => c.id === fact.check);
      const where = check?.words ?? fact.check;
      return [
        { ...base, where, figure: written(fact.reading), range: rangeOf(check, words), good: fact.good },
      ];
    }
    return [];
  });
}

/** Returns a meter's trace with its verdict, or with the reason why there is none. */
function traceRow(after: SessionState, words: BriefWords, say: Say): Omit<VoltsRow, "seq" | "at" | "by"> {
  const envelope = envelopeOf(after.type.groundPower);
  const traced = envelope && recordGiven(after, envelope);
  const where = words.trace(traced?.samples.length ?? 0);
  const range = words.envelope;
  const told = (text: string) => wordsOf(workedBook(say.language)(text));
  if (!traced) return { where, figure: words.noVerdict, range, good: null };
  if (!traced.verdict.ok)
    return { where, figure: `${words.noVerdict}: ${told(traced.verdict.why)}`, range, good: null };
  const { value, verdict, detail } = sayTrace(traced.verdict.value);
  return {
    where,
    figure: detail ? `${told(value)}: ${told(detail)}` : told(value),
    range,
    good: verdict === "good",
  };
}

/** Returns every recorded check, including each repetition. */
export function checkLog(moments: readonly Moment[], say: Say): CheckRow[] {
  const words = briefWords(say.language);
  return moments.flatMap(({ event, after }): CheckRow[] => {
    const { fact, seq, at } = event;
    if (fact.type !== "checked") return [];
    const check = typeIn(after.type, say.language).checks.find((c) => c.id === fact.check);
    return [
      {
        seq,
        at,
        words: check?.words ?? fact.check,
        post: check?.post ?? "supervisor",
        figure: fact.reading ? written(fact.reading) : null,
        range: rangeOf(check, words),
        good: fact.good,
        note: fact.note ?? null,
        by: sayActor(event, say),
      },
    ];
  });
}

/** Returns a check's range in words; null when it is only found good or not. */
function rangeOf(check: AircraftType["checks"][number] | undefined, words: BriefWords): string | null {
  const range = check?.range;
  if (!range) return null;
  const { min, max, unit } = range;
  const most = max === undefined ? null : written({ value: max, unit });
  if (min === undefined) return most === null ? null : words.atMost(most);
  return most === null ? words.atLeast(written({ value: min, unit })) : words.range(min, most);
}
