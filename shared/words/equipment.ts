import type { Cart, Equipment } from "../protocol/equipment.ts";
import type { StandEquipment } from "../session/state.ts";
import { dayWords, timeOfDay } from "./dates.ts";
import { type EquipmentWords, equipment as english } from "./en/equipment.ts";
import { equipment as spanish } from "./es/equipment.ts";
import type { Language } from "./language.ts";

/** Loaded later than the panel itself, so both languages come together. */
const WORDS: Readonly<Record<Language, EquipmentWords>> = { en: english, es: spanish };

export const equipmentWords = (language: Language): EquipmentWords => WORDS[language];

/** Returns the figures and dates of a piece in one line; empty when it has none. */
export function equipmentFacts(facts: Equipment, language: Language): string {
  const words = WORDS[language];
  const until = (date: "weighedUntil" | "testedUntil", day: string | null) =>
    day === null ? [] : [words.until(words.dates[date].toLowerCase(), dayWords(Date.parse(day), language))];
  return [
    ...(facts.kind === "cart" ? cartFacts(facts, words) : []),
    ...(facts.kind === "extinguisher"
      ? [words.bottle(facts.agent, facts.chargeKg), ...until("weighedUntil", facts.weighedUntil)]
      : []),
    ...until("testedUntil", facts.testedUntil),
  ].join(", ");
}

function cartFacts({ volts, continuousA, peakA, cable }: Cart, words: EquipmentWords): string[] {
  return [
    words.cart(volts, continuousA, peakA),
    words.cable(cable.size, cable.metres),
    ...(cable.parallel > 1 ? [words.parallel(cable.parallel)] : []),
  ];
}

/** Returns each piece of a start in one line: label, name, facts of that day, and who read its label. */
export function equipmentLines(all: readonly StandEquipment[], language: Language): string[] {
  const words = WORDS[language];
  return all.map(({ facts, shown }) => {
    const about = [words.kinds[facts.kind].toLowerCase(), equipmentFacts(facts, language)].filter(Boolean);
    const read = shown ? words.shown(timeOfDay(shown.at), shown.name) : words.notShown;
    return `${facts.id}, ${facts.name}: ${about.join(", ")}; ${read}`;
  });
}
