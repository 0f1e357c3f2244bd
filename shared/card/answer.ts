import type { Quantity } from "../protocol/quantity.ts";
import type { Attribution } from "../session/attribution.ts";

/** The answer to one item of the card. */
export interface CardAnswer {
  by: Attribution;
  good: boolean;
  reading: Quantity | null;
  /** Seconds from the catch to the answer, of an instrument that comes alive. */
  after?: number;
  note: string | null;
  /** The other person who read the item out before it was answered, if there was one. */
  readBy?: { name: string; at: number };
}
