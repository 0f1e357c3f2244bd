import type { AircraftChange } from "../../../shared/house/changes.ts";
import type { PlanBar } from "../../../shared/house/planBar.ts";

const given = (value: string | number | null) => value ?? "nothing";
const from = (before: string | number | null, after: string | number | null) =>
  before === null ? `${given(after)}` : `${given(before)} → ${given(after)}`;

/** The aircraft in the house's register. */
export const register = {
  title: "Aircraft",
  lead: "What is fitted to each, and whether its start can be planned.",
  none: "No aircraft yet. A supervisor adds the first one.",
  noneHere: "No aircraft yet.",
  add: "Add an aircraft",
  addTitle: "Add an aircraft",
  addLead: "Give the registration, the type and a name. The rest can come later.",
  noType:
    "No aircraft type is approved yet. One supervisor enters it from the manual, a second one approves it; then an aircraft can use it.",
  toTypes: "Aircraft types",
  retiredOnes: "Retired",
  mayStart: "Can be planned",
  bar: (bar: PlanBar): string => {
    switch (bar.is) {
      case "retired":
        return "Retired: kept in the register, not planned";
      case "noneApproved":
        return "Cannot be planned: no version of its type is approved";
      case "notApproved":
        return `Cannot be planned: version ${bar.version} of its type is not approved, version ${bar.newest} is`;
      case "superseded":
        return `Cannot be planned: version ${bar.newest} of its type is approved, and it is on version ${bar.version}`;
    }
  },
  /** The way to end the bar, and who can do it. */
  cure: (bar: PlanBar): string => {
    switch (bar.is) {
      case "retired":
        return "A supervisor can take it back into service.";
      case "noneApproved":
        return "A second supervisor approves a version of the type.";
      case "notApproved":
      case "superseded":
        return "A supervisor looks at what changes, then moves the aircraft.";
    }
  },
  registration: "Registration",
  registrationRule: "It never changes: the aircraft's record is kept under it.",
  name: "Name",
  type: "Type",
  chooseType: "Choose the type",
  onVersion: (name: string, version: number) => `${name}, version ${version}`,
  stand: "Home stand",
  noStand: "No home stand",
  notes: "Notes",
  fitted: "What is fitted",
  engine: (n: number) => `Number ${n}`,
  engineSerial: "Engine, serial number",
  engineHours: "Engine, hours",
  propellerSerial: "Propeller, serial number",
  propellerHours: "Propeller, hours",
  starter: "Starter",
  engineAs: "Engine",
  propellerAs: "Propeller",
  unknown: "not entered",
  hours: (h: string) => `${h} h`,
  noFigure: "A figure is needed, such as 1240.5, or nothing",
  back: "All aircraft",
  change: "Change it",
  changeTitle: (id: string) => `Change ${id}`,
  save: "Save",
  saving: "Saving…",
  leave: "Leave it as it is",
  reason: "Reason (needed for fewer hours)",
  whatChanges: "See what changes",
  moveTo: (version: number) => `Move to version ${version}`,
  moveSure: "Touch again to move",
  enterHours: "Enter hours",
  hoursTitle: (id: string) => `Hours of ${id}`,
  hoursLead:
    "Enter the hours from the logs after the flight. Hours cannot get fewer. A supervisor corrects them under Change it.",
  addToAll: "Hours flown, to add to every part",
  addThem: "Add to all",
  was: (h: string | null) => (h === null ? "not entered before" : `were ${h} h`),
  retire: "Retire it",
  takeBack: "Take it back into service",
  retireWhy: "Why is it retired?",
  takeBackWhy: "Why is it taken back?",
  sure: "Do it",
  history: "Changes",
  starts: "Starts and engines",
  engineHistory: (serial: string) => `History of engine ${serial}`,
  entered: "Entered",
  by: (who: string, when: string) => `${when} UTC, ${who}`,
  programs: { program: "with the program", console: "the server's console" },
  changed: (c: AircraftChange): string => {
    switch (c.is) {
      case "retired":
        return "Retired";
      case "takenBack":
        return "Taken back into service";
      case "name":
        return `Name: ${from(c.before, c.after)}`;
      case "type":
        return `Type and version: ${from(c.before, c.after)}`;
      case "stand":
        return `Home stand: ${from(c.before, c.after)}`;
      case "notes":
        return "Notes";
      case "engine":
        return `Engine ${c.n}: ${from(c.before, c.after)}`;
      case "propeller":
        return `Propeller ${c.n}: ${from(c.before, c.after)}`;
      case "starter":
        return `Starter ${c.n}: ${from(c.before, c.after)}`;
      case "engineHours":
        return `Hours of engine ${c.n}: ${from(c.before, c.after)}`;
      case "propellerHours":
        return `Hours of propeller ${c.n}: ${from(c.before, c.after)}`;
    }
  },
  changedNothing: "Nothing",
};

export type RegisterWords = typeof register;
