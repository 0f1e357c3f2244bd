import type { Moment } from "../../../shared/rehearsal/script.ts";
import type { ScriptField } from "../../pages/rehearsal/scriptEntry.ts";

const moments: Record<Moment, string> = {
  begun: "the beginning",
  powerOn: "ground power is on",
  warmUp: "the warm-up begins",
  cleared: "that engine is cleared",
  cranking: "that engine cranks",
  caught: "that engine catches",
  running: "that engine runs",
};

const fits: Record<ScriptField, string> = {
  title: "The title needs 1 to 60 characters in each language",
  about: "What happens needs 1 to 240 characters in each language",
  airC: "The air is from −30 to 45 °C",
  slower: "Partners are 1 to 4 times slower",
  which: "The engine is from 1 to 8, by its place in the order",
  seconds: "The wait is from 0 to 1,800 seconds",
  chance: "The chance is from 0 to 100 %",
  id: "The script has no plain id: letters, digits, dots and dashes",
};

/** The editor of the scripts of rehearsals. */
export const scripts = {
  editor: "Script",
  title: { en: "Title in English", es: "Title in Spanish" },
  about: { en: "What happens, in English", es: "What happens, in Spanish" },
  airC: "Air, °C",
  slower: "Partners, times slower",
  faults: "What may go wrong",
  noFaults: "Nothing goes wrong.",
  faultNo: (no: number) => `Fault ${no}`,
  ofFault: (no: number, what: string) => `Fault ${no}: ${what}`,
  fault: "What",
  after: "After",
  moments,
  seconds: "Seconds after",
  which: "Engine, by its place in the order",
  post: "Post",
  usualPost: "The usual one",
  chance: "Chance, %",
  addFault: "Add a fault",
  takeOut: (no: number) => `Take fault ${no} out`,
  doesNotFit: "What does not fit yet",
  fits,
  leave: "Leave it as it is",
  use: "Use it here, without keeping it",
  keep: "Keep it in the house",
  write: "Write a script",
  copy: "Copy and change it",
  change: "Change it",
  retire: "Take it out of use",
  outOfUse: "Out of use",
  bring: "Bring it back",
  house: "Of the house",
  keptBy: (by: string, when: string) => `kept by ${by}, ${when} UTC`,
  badAt: (place: string) => `This file is not a script: what stands at ${place} does not fit.`,
  badFile: "This file is not a script, and no JSON. Save one of the scripts here and change it.",
};
export type ScriptWords = typeof scripts;
