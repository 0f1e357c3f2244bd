import type { TypeFault } from "../../shared/types/validate.ts";

/** Reasons to refuse an act on a version of a type. */
export type TypeRefusal =
  | "notFound"
  | "notQualified"
  | "ownWork"
  | "approved"
  | "taken"
  | "overtaken"
  | "stale"
  | "notAsApproved"
  | "faultyType";

export class TypeRefused extends Error {
  override readonly name = "TypeRefused";
  readonly reason: TypeRefusal;
  readonly faults: TypeFault[];

  constructor(reason: TypeRefusal, message: string, faults: TypeFault[] = []) {
    super(message);
    this.reason = reason;
    this.faults = faults;
  }
}
