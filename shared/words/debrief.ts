import type { UnitChoice } from "../models/unitChoice.ts";
import type { Rehearsal } from "../protocol/rehearsal.ts";
import type { FaultKind } from "../protocol/rehearsalFaults.ts";
import type { DebriefLine } from "../rehearsal/debrief.ts";
import type { AircraftType } from "../types/schema.ts";
import { typeIn } from "./authored.ts";
import { type DebriefWords, debrief as english } from "./en/debrief.ts";
import { debrief as spanish } from "./es/debrief.ts";
import type { Language } from "./language.ts";
import { outcomesOf } from "./outcomes.ts";
import { writtenBoth } from "./quantity.ts";
import { rehearsalWords } from "./rehearsed.ts";
import type { Say } from "./say.ts";

const WORDS: Readonly<Record<Language, DebriefWords>> = { en: english, es: spanish };

export const debriefWords = (language: Language): DebriefWords => WORDS[language];

/** Returns the sentences above a debrief: what it is, and what of the record was done elsewhere. */
export function debriefLead(
  { back }: Pick<Rehearsal, "back">,
  { language }: Pick<Say, "language">,
): string[] {
  const words = debriefWords(language);
  return [words.lead, ...(back ? [words.retold(back.seq, back.session)] : [])];
}

const upper = (text: string) => `${text[0]?.toUpperCase() ?? ""}${text.slice(1)}`;

/** Returns one line of a debrief in words. */
export function sayDebrief(line: DebriefLine, type: AircraftType, say: Say, units: UnitChoice): string {
  const words = debriefWords(say.language);
  const { faults, suffered } = rehearsalWords(say.language);
  const fault = (kind: FaultKind, engine: number | null) =>
    upper(engine === null ? faults[kind] : `${faults[kind]}, ${engine}`);
  switch (line.is) {
    case "answered":
      return words.answered(fault(line.fault, line.engine), line.seconds.toFixed(1), line.by);
    case "notAnswered":
      return words.notAnswered(fault(line.fault, line.engine));
    case "unnecessary":
      return words.unnecessary(say.signal(line.kind, null), line.by);
    case "wrongNumber":
      return words.wrongNumber(line.by);
    case "refused":
      return words.refused(outcomesOf(say).refusal({ reason: line.reason }, units, type), line.times);
    case "drill": {
      const drill = typeIn(type, say.language).drills.find((d) => d.id === line.drill);
      const counted = words.drill(drill?.title ?? line.drill, line.done, line.left, line.missed);
      return line.inOrder ? counted : `${counted}, ${words.outOfOrder}`;
    }
    case "limit":
      return words.limit(words.limits[line.limit], line.engine, String(line.found), String(line.allowed));
    case "suffered": {
      const written = (value: number) => writtenBoth({ value, unit: line.unit }, units);
      const said = words.suffered(suffered[line.what], line.engine, written(line.found));
      return line.allowed === null ? said : `${said}, ${words.within(written(line.allowed))}`;
    }
    case "alert":
      return say.alert(line.kind, line.engine);
    case "touches":
      return words.touches(say.post(line.post), line.times);
  }
}
