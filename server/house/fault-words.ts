import type { EquipmentFault } from "../../shared/house/due.ts";
import type { DueDate, OutCause } from "../../shared/protocol/equipmentKinds.ts";

const CAUSES: Readonly<Record<OutCause, string>> = {
  usedUp: "used up",
  broken: "broken",
  other: "out of service",
};

const DATES: Readonly<Record<DueDate, string>> = {
  weighedUntil: "weighing",
  testedUntil: "test",
};

/** Returns why a piece of equipment cannot be used, or what to know before. The piece is the sentence's subject. */
export function faultWords(fault: EquipmentFault): string {
  switch (fault.is) {
    case "out":
      return `is ${CAUSES[fault.cause]} (${fault.words}): a supervisor puts it back into service`;
    case "overdue":
      return `is overdue: its ${DATES[fault.date]} held until ${fault.until}`;
    case "noDate":
      return `has no date for its ${DATES[fault.date]}: a supervisor enters it`;
    case "ending":
      return `is due soon: its ${DATES[fault.date]} holds until ${fault.until}`;
  }
}
