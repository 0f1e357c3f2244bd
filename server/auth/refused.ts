import type { Identity } from "./identity.ts";

/** Why something the office asked for was not done. */
export type OfficeRefusal = "notQualified" | "codeWrong" | "enrolledAlready" | "ownWork" | "notFound";

export class OfficeRefused extends Error {
  override readonly name = "OfficeRefused";
  readonly reason: OfficeRefusal;

  constructor(reason: OfficeRefusal, message: string) {
    super(message);
    this.reason = reason;
  }
}

/** The office is whoever may hold the supervisor's post. */
export function qualified({ name, mayHold }: Identity["person"]): void {
  if (!mayHold.includes("supervisor"))
    throw new OfficeRefused("notQualified", `${name} is not qualified as supervisor`);
}
