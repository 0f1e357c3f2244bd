import type { Confirmed, Given } from "../../shared/asks/ask.ts";
import type { AnswerKey } from "./askView.ts";

/** Properties of the entries that an answer may need. */
export interface NeedProps {
  answer: AnswerKey;
  /** Engine numbers in the order this person sees them. */
  numbers: readonly number[];
  /** Estimated server time, milliseconds. */
  now: number;
  blocked: boolean;
  /** Checks the person's PIN at the server; rejects with the reason in words. */
  confirm(pin: string): Promise<Confirmed>;
  onGive(given: Given): void;
  onBack(): void;
}
