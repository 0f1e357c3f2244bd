import type { Send } from "../protocol/commands.ts";
import type { SessionState } from "../session/state.ts";
import { signalOf } from "./all.ts";
import type { SaidClass } from "./definition.ts";

/** The class of one signal: its kind's, or by its figure. Without a state, e.g. on a panel, no figure is judged. */
export function sentAs(state: SessionState | null, send: Send): SaidClass {
  const { class: is, lowersBy } = signalOf(send.kind);
  return is === "raises" && state !== null && lowersBy(state, send) ? "lowers" : is;
}
