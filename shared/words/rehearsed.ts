import type { UnitChoice } from "../models/unitChoice.ts";
import type { Rehearsed } from "../protocol/rehearsedFact.ts";
import type { Controls } from "../simulation/state.ts";
import { rehearsal as english, type RehearsalWords } from "./en/rehearsal.ts";
import { rehearsal as spanish } from "./es/rehearsal.ts";
import type { Language } from "./language.ts";
import { writtenBoth } from "./quantity.ts";
import type { Say } from "./say.ts";

const WORDS: Readonly<Record<Language, RehearsalWords>> = { en: english, es: spanish };

/** Returns the words of a rehearsal's own events, in one language. */
export const rehearsalWords = (language: Language): RehearsalWords => WORDS[language];

/** Returns the controls that are worked, engine by engine. */
function controlsIn({ engines, vacuumFrom, generators }: Controls, words: RehearsalWords): string {
  const worked = Object.entries(engines).flatMap(([n, { mixture, throttle, ...on }]) => {
    const switches = SWITCHES.filter((what) => on[what]).map((what) => words.controls[what]);
    const levers = [words.levers(percent(mixture), percent(throttle))];
    return mixture === 0 && switches.length === 0
      ? []
      : [words.worked(n, [...switches, ...levers].join(", "))];
  });
  const shared = [
    ...(vacuumFrom === null ? [] : [words.worked(String(vacuumFrom), words.controls.vacuum)]),
    ...(generators ? [words.controls.generators] : []),
  ];
  return [...worked, ...shared].join("; ");
}

const SWITCHES = ["starter", "primer", "ignition", "boostPump"] as const;
const percent = (part: number): string => String(Math.round(part * 100));

/** Returns what a rehearsal's server said of the simulated world, in words. */
export function sayRehearsed(
  said: Rehearsed,
  say: Pick<Say, "language" | "post">,
  units: UnitChoice,
): string {
  const words = rehearsalWords(say.language);
  switch (said.is) {
    case "fault": {
      const what = words.faults[said.fault];
      const fault = said.engine === undefined ? words.fault(what) : words.faultAt(what, said.engine);
      const whose = said.post === undefined ? fault : `${fault} (${say.post(said.post)})`;
      return said.by === undefined ? whose : words.thrown(whose, said.by.name);
    }
    case "hands":
      return said.controls === null ? words.goodHands : words.hands(controlsIn(said.controls, words));
    case "pace":
      return words.pace(said.speed, said.frozen, said.by.name);
    case "stood":
      return words.stood;
    case "takenBack":
      return words.takenBack(said.seq, said.by.name, said.to);
    case "goesOn":
      return words.goesOn(said.seq, said.by.name, said.from);
    case "mark":
      return words.mark(said.words, said.by.name);
    case "word":
      return words.word(say.post(said.post), said.words, said.by.name);
    case "suffered": {
      const written = (value: number) => writtenBoth({ value, unit: said.unit }, units);
      const found = words.figure(said.engine, words.suffered[said.what], written(said.found));
      return said.allowed === null ? found : `${found}, ${words.limit(written(said.allowed))}`;
    }
  }
}
