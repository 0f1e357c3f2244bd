import type { EquipmentFault } from "../../../shared/house/due.ts";
import { equipment as shared } from "../../../shared/words/en/equipment.ts";

const { causes, dates } = shared;

/** The equipment in the house's register. */
export const equipment = {
  title: "Equipment",
  lead: "Carts, extinguishers, chocks, tow bars and headsets, each with a label.",
  none: "No equipment yet. A supervisor adds the first piece.",
  noneHere: "No equipment yet.",
  add: "Add equipment",
  addLead: "The label is printed and fixed to the piece. It can be scanned or typed at the stand.",
  outOnes: "Out of service",
  good: "Can be used",
  fault: (f: EquipmentFault, day: (day: string) => string): string => {
    switch (f.is) {
      case "out":
        return `${causes[f.cause]}: ${f.words}`;
      case "overdue":
        return `${dates[f.date]} ${day(f.until)}: overdue${f.bars ? ", not to be used" : ""}`;
      case "noDate":
        return `${dates[f.date]}: not entered${f.bars ? ", not to be used" : ""}`;
      case "ending":
        return `${dates[f.date]} ${day(f.until)}: due soon`;
    }
  },
  kind: "Kind",
  label: "Label",
  labelRule: "Capital letters, digits and hyphens, 16 at most, such as EXT-3. It stays for good.",
  name: "Name",
  volts: "Volts",
  continuousA: "Amperes all the time",
  peakA: "Amperes at its peak",
  size: "Size of the cable (AWG)",
  metres: "Cable from cart to plug, metres",
  parallel: "Equal conductors side by side",
  internalOhm: "Ohms inside the cart (may be left out)",
  agent: "Agent",
  chargeKg: "Charge, kg",
  weighedUntil: "Weighed until",
  testedUntil: "Tested until",
  optional: "May be left out.",
  place: "Where it is kept",
  notes: "Notes",
  save: "Save",
  saving: "Saving…",
  back: "All equipment",
  change: "Change it",
  out: "Take out of service",
  putBack: "Put back into service",
  outWhy: "What is wrong with it?",
  backWhy: "Why is it good again?",
  sure: "Do it",
  printLabel: "Print the label",
  labelOf: (id: string) => `Label ${id}, as a code to scan`,
  history: "Changes",
  entered: "Entered",
  changed: "Changed",
  by: (who: string, when: string) => `${when} UTC, ${who}`,
  console: "the server's console",
  // At the stand and in the plan.
  atStand: "Equipment at the stand",
  atStandWhat: "Scan the label of each piece that stands here, or type it.",
  typed: "Label",
  enter: "It is here",
  scan: "Scan",
  scanStop: "Stop scanning",
  noCamera: "The camera cannot be used. Type the label.",
  notALabel: (text: string) => `${text} is no label.`,
  planned: "planned, label not read",
  shownBy: (when: string, who: string) => `read ${when} UTC by ${who}`,
  nothingHere: "Nothing planned, and no label read.",
  allocate: "Equipment for this start",
  barred: "Not to be used",
};

export type EquipmentPageWords = typeof equipment;
