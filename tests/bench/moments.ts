import type { Action } from "../../shared/protocol/commands.ts";

/** Stands in a recorded command for the cart, which differs from session to session. */
export const CART = "CART";

/** One command of a recorded start. */
export interface Moment {
  /** Milliseconds after the session was planned. */
  at: number;
  /** The panel that sends it. */
  panel: number;
  action: Action;
  /** The verdict when it was recorded. */
  accepted: boolean;
}
