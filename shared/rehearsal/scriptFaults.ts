import { FAULT } from "./faults.ts";
import type { PlannedFault, RehearsalScript } from "./script.ts";

/** The faults of a script whose every field fits. */
export type ScriptFaultKind = "needsNoPost" | "never" | "twice";

export interface ScriptFault {
  /** The place in the script, such as `faults.2.post`. */
  path: string;
  is: ScriptFaultKind;
}

/** Returns what a script says that cannot be meant: a post for a fault of no post, a fault that never comes, one twice. */
export function scriptFaults({ faults }: RehearsalScript): ScriptFault[] {
  return faults.flatMap((planned, i): ScriptFault[] => {
    const at = (field: string, is: ScriptFaultKind) => ({ path: `faults.${i}.${field}`, is });
    const first = faults.findIndex((other) => sameTime(other, planned));
    return [
      ...(planned.post !== undefined && FAULT[planned.fault].about !== "post"
        ? [at("post", "needsNoPost")]
        : []),
      ...(planned.chance === 0 ? [at("chance", "never")] : []),
      ...(first < i ? [at("fault", "twice")] : []),
    ];
  });
}

const sameTime = (a: PlannedFault, b: PlannedFault): boolean =>
  a.fault === b.fault &&
  a.which === b.which &&
  a.after === b.after &&
  a.seconds === b.seconds &&
  a.post === b.post;
