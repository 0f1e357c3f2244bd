import type { EntryFault } from "../../shared/house/faults.ts";

/** Reasons to refuse a change of the house's register. */
export type HouseRefusal = "notFound" | "notQualified" | "taken" | "stale" | "faultyEntry";

export class HouseRefused extends Error {
  override readonly name = "HouseRefused";
  readonly reason: HouseRefusal;
  readonly faults: EntryFault[];

  constructor(reason: HouseRefusal, message: string, faults: EntryFault[] = []) {
    super(message);
    this.reason = reason;
    this.faults = faults;
  }
}

/** @throws HouseRefused when there are faults */
export function inOrder(faults: EntryFault[]): void {
  if (faults.length === 0) return;
  const detail = faults.map((f) => `${f.path}: ${f.message}`).join("; ");
  throw new HouseRefused("faultyEntry", detail, faults);
}
