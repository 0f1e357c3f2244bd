import type { Drill } from "../types/drill.ts";
import type { AircraftType } from "../types/schema.ts";
import { typeIn } from "../words/authored.ts";
import type { Language } from "../words/language.ts";
import type { Say } from "../words/say.ts";
import { type SignalRow, signalRows } from "./signals.ts";

/** The drill with which the crew changes to paper. */
const DRILL = "systemLost";

export interface LostDrill {
  title: string;
  /** The types that this card is for. */
  types: string[];
  cards: Drill["cards"];
  source: string;
}

/** The card for the time after the system is lost: drills, hand signals, and room to write. */
export interface Card {
  /** The language in which it is written. */
  language: Language;
  drills: LostDrill[];
  /** Types that have no such drill. */
  without: string[];
  signals: SignalRow[];
  /** Rows of the blank log: the most engines any of the types has. */
  engines: number;
  caution: string;
}

/** Returns the card for these types. Types with exactly the same drill share it. */
export function cardOf(types: readonly AircraftType[], say: Say): Card {
  const drills = new Map<string, LostDrill>();
  const without: string[] = [];
  for (const type of types.map((t) => typeIn(t, say.language))) {
    const drill = type.drills.find((d) => d.id === DRILL);
    if (!drill) {
      without.push(type.name);
      continue;
    }
    const key = JSON.stringify([drill.title, drill.cards]);
    const same = drills.get(key);
    if (same) same.types.push(type.name);
    else
      drills.set(key, {
        title: drill.title,
        types: [type.name],
        cards: drill.cards,
        source: drill.source.text,
      });
  }
  const engines = types.reduce((most, t) => Math.max(most, t.engines.length), 1);
  return {
    language: say.language,
    drills: [...drills.values()],
    without,
    signals: signalRows(say),
    engines,
    caution: say.caution,
  };
}
