import type { Identity } from "./identity.ts";

/** Reasons to refuse an administrative act. */
export type OfficeRefusal =
  | "notQualified"
  | "codeWrong"
  | "enrolledAlready"
  | "ownWork"
  | "notFound"
  | "taken";

export class OfficeRefused extends Error {
  override readonly name = "OfficeRefused";
  readonly reason: OfficeRefusal;

  constructor(reason: OfficeRefusal, message: string) {
    super(message);
    this.reason = reason;
  }
}

/**
 * Administrators are the people who may hold the supervisor's post.
 * @throws OfficeRefused when the person may not
 */
export function qualified({ name, mayHold }: Identity["person"]): void {
  if (!mayHold.includes("supervisor"))
    throw new OfficeRefused("notQualified", `${name} is not qualified as supervisor`);
}
