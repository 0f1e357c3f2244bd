import type { PlanBar } from "../../shared/house/planBar.ts";

/** Returns why an aircraft cannot be planned, and what ends it. The aircraft is the sentence's subject. */
export function barWords(bar: PlanBar): string {
  switch (bar.is) {
    case "retired":
      return "is retired: a supervisor takes it back into service first";
    case "noneApproved":
      return `no version of its type ${bar.typeId} is approved: a draft cannot be planned`;
    case "notApproved":
      return `version ${bar.version} of its type is not approved: a supervisor moves it to version ${bar.newest}`;
    case "superseded":
      return `version ${bar.newest} of its type is approved and it is on version ${bar.version}: a supervisor looks at what changes and moves it`;
  }
}
