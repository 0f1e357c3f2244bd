import { stretchesAbove, type TimedReading } from "../models/exceedance.ts";
import type { SessionEvent } from "../protocol/events.ts";
import type { SessionState } from "../session/state.ts";
import { typeIn } from "../words/authored.ts";
import { briefWords } from "../words/brief.ts";
import { sayActor } from "../words/events.ts";
import { written } from "../words/quantity.ts";
import type { Say } from "../words/say.ts";
import type { LogRow } from "./logRow.ts";

type Read = TimedReading & { event: SessionEvent };

/** Returns each stretch in which an engine's gauge was read above its most: how high, and for how long at least. */
export function aboveLog(events: readonly SessionEvent[], state: SessionState, say: Say): LogRow[] {
  const words = briefWords(say.language);
  const { gauges, card = [] } = typeIn(state.type, say.language);
  return gauges.flatMap(({ id, name, unit, max, perEngine }) => {
    if (max === undefined || !perEngine) return [];
    return state.engines.flatMap(({ n }) => {
      const reads = events.flatMap((event): Read[] => {
        const { fact, at } = event;
        const gauge = fact.type === "cardAnswered" ? gaugeOf(card, fact.item) : null;
        const read = fact.type === "reading" || gauge === id ? readingOf(fact) : undefined;
        const here = read && "engine" in fact && fact.engine === n;
        const named = fact.type !== "reading" || fact.gauge === id;
        return here && named ? [{ at, value: read.value, event }] : [];
      });
      return stretchesAbove(reads, max).flatMap(({ from, to, most, last }): LogRow[] => {
        const event = reads.find((r) => r.at === from && r.value > max)?.event;
        if (!event) return [];
        const seconds = Math.floor(((to ?? last) - from) / 1000);
        const told = words.above(
          name,
          n,
          written({ value: most, unit }),
          written({ value: max, unit }),
          seconds,
        );
        const end = to === null ? words.stillAbove : "";
        return [{ seq: event.seq, at: from, words: `${told}${end}`, by: sayActor(event, say) }];
      });
    });
  });
}

function gaugeOf(card: NonNullable<SessionState["type"]["card"]>, id: string): string | null {
  const kind = card.find((i) => i.id === id)?.kind;
  return kind?.is === "range" || kind?.is === "target" ? kind.gauge : null;
}

function readingOf(fact: SessionEvent["fact"]): { value: number } | undefined {
  return fact.type === "reading" || fact.type === "cardAnswered" ? fact.reading : undefined;
}
