import { pluralsOf } from "../../../shared/words/plural.ts";

const plural = pluralsOf("en");

/** The figures of a gauge: its scale, its normal band and its limits. */
interface GaugeFigures {
  from: number;
  to: number;
  min: number | undefined;
  normalLow: number | undefined;
  normalHigh: number | undefined;
  max: number | undefined;
}

/** The pages of aircraft types. Names of a type's parts are in `parts.ts`. */
export const types = {
  title: "Aircraft types",
  lead: "Figures with their sources. A start can be planned only on an approved version.",
  page: "On this page",
  file: "The file",
  new: "New type",
  import: "Import a file",
  notJson: (file: string) => `${file} is not a JSON file.`,
  none: "No aircraft type yet. Begin one from your manual, or import one from a file.",
  version: (n: number) => `Version ${n}`,
  nameVersion: (name: string, n: number) => `${name}, version ${n}`,
  status: { draft: "Draft", approved: "Approved", superseded: "Superseded" },
  byDraft: (author: string, day: string) =>
    `By ${author}, last changed ${day}. Not approved: cannot be planned.`,
  byApproved: (author: string, by: string, day: string | null) =>
    `By ${author}. Approved by ${by}${day === null ? "" : ` on ${day}`}.`,
  asLast: (text: string) => `As before: ${text}`,
  enteredBy: (name: string) => `Entered by ${name}`,
  allFrom: (n: number, text: string) =>
    `${n} ${plural(n, { one: "source is", other: "sources are" })} blank here. All from: ${text}`,
  nothingYet: "Nothing: every figure is blank",
  enginesOfIt: "Engines",
  begunTitle: "Begun and not finished",
  begunBy: (name: string, day: string) => `Last changed by ${name}, ${day}. Not finished: cannot be planned.`,
  begunLead: (id: string) => `${id}, begun from nothing. It is kept as it is; go on at any time.`,
  saveSoFar: "Save",
  savedSoFar: "Saved.",
  toEnter: (n: number) => `${n} to enter`,
  toMendHere: (n: number) => `${n} to mend`,
  sectionDone: "done",
  left: (n: number) => `${n} ${plural(n, { one: "entry is", other: "entries are" })} still to be made.`,
  complete: "All is entered and in order.",
  nextGap: "Next gap",
  nextSection: (part: string) => `Next: ${part}`,
  keysHelp: "Enter goes to the next field, Ctrl and Enter to the next gap.",
  finish: "Finish: make it a draft",
  giveUp: "Give this type up",
  giveUpIs: (name: string) => `${name} is no longer offered. Its entries stay in the register.`,
  giveUpIt: (name: string) => `Give up ${name}`,
  drawnSoFar: "The aircraft as far as it is entered",
  drawnNothing: "The drawing begins with span and length.",
  newTitle: "A new type",
  name: "Name",
  identifier: "Identifier, e.g. carrack-four",
  beginWith: "Begin with the figures of",
  make: "Make the draft",
  one: "Aircraft type",
  edit: "Edit this draft",
  draft: "Make a new draft of it",
  differenceFrom: (n: number) => `Difference from version ${n}`,
  export: "Export",
  all: "All types",
  ownHand: "You worked on this draft. A second person must approve it.",
  otherApproves: "A supervisor must approve it.",
  approval: "Approval",
  never: "Once approved, it never changes. Starts are planned on it.",
  rests: "Where its figures come from",
  changedSince: (n: number) => `Changed since version ${n}`,
  see: (n: number) => `See what differs from version ${n}`,
  checked: (name: string) => `I am ${name}, and I checked every figure against its source.`,
  approve: (n: number) => `Approve version ${n}`,
  discard: "Discard this draft",
  discardIs: (n: number) => `Version ${n} is deleted for ever. Its number is not used again.`,
  discardIt: (n: number) => `Discard version ${n}`,
  keepIt: "Keep it",
  difference: "Difference",
  fromTo: (id: string, before: number, after: number) => `${id}: from version ${before} to version ${after}`,
  toVersion: (n: number) => `To version ${n}`,
  noDifference: "No figure and no source differs.",
  what: "What",
  absent: "not there",
  sections: "Sections",
  limits: "Limits",
  limitsLead:
    "Heavy: normal. A tick with its figure: the least or the most. The sources are in the sections below.",
  limitsOf: (name: string, unit: string, of: GaugeFigures) =>
    [
      `${name}, ${unit}: scale ${of.from} to ${of.to}`,
      ...(of.normalLow === undefined && of.normalHigh === undefined
        ? []
        : [`normal ${of.normalLow ?? of.from} to ${of.normalHigh ?? of.to}`]),
      ...(of.min === undefined ? [] : [`at least ${of.min}`]),
      ...(of.max === undefined ? [] : [`at most ${of.max}`]),
    ].join(", "),
  figure: "Figure",
  source: "Source",
  drawn: (span: number, length: number) => `Drawn facing forward: span ${span} m, length ${length} m.`,
  editTitle: (name: string) => `Edit ${name}`,
  draftOf: (id: string, n: number) => `${id}, draft of version ${n}`,
  again: "Read again, drop changes",
  leave: "Leave without saving",
  back: "To the version",
  saving: "Saving…",
  save: "Save",
  notSaved: "Changes not saved",
  saved: "Saved",
  entered: "Entered",
  toMend: (n: number) =>
    `${n} ${plural(n, { one: "fault", other: "faults" })} to mend before it can be saved.`,
  inOrder: "No faults, not saved.",
  savedInOrder: "Saved, no faults.",
  parts: "Parts of the type",
  notGiven: "not given",
  faults: "Faults",
  farTitle: "Far from every published figure",
  far: (n: number) =>
    `${n} ${plural(n, { one: "figure is", other: "figures are" })} far from every published one. Check the manual: the manual decides.`,
  warnings: "Not yet in Spanish",
  untranslated: (n: number) =>
    `${n} ${plural(n, { one: "text is", other: "texts are" })} not yet in Spanish. Spanish readers see English there.`,
  nothing: "This type says nothing about it.",
  add: (part: string) => `Add: ${part}`,
  addTo: (part: string) => `Add to: ${part}`,
  takeOut: "Take out",
  takeOutOf: (part: string) => `Take out: ${part}`,
  orNone: (part: string) => `${part}, or none`,
  form: (part: string) => `${part}: form`,
  empty: "None.",
  up: "Up",
  down: "Down",
  upOf: (part: string) => `Up: ${part}`,
  downOf: (part: string) => `Down: ${part}`,
  choose: "Choose…",
  noValue: "none",
  yes: "yes",
  no: "no",
  count: "count",
  whole: "The whole type",
  numbered: (n: string) => `Number ${n}`,
  raw: (part: string) => `${part} (JSON)`,
};

export type TypeWords = typeof types;
