import type { FirePlace } from "../../../shared/protocol/signals.ts";
import type { Fire } from "../../../shared/session/state.ts";
import type { Panel } from "./model.ts";

/** The fire whose number and place a panel asks: the one just sent, or one that stands. */
export interface OpenFire {
  /** The command that reported it; null for a fire picked from those that stand. */
  command: string | null;
  /** Its number, if it was picked. */
  ref: number | null;
  /** The engine and place said in this sheet. */
  engine: number | null;
  place: FirePlace | null;
}

export const justSent = (command: string): OpenFire => ({ command, ref: null, engine: null, place: null });
export const picked = (ref: number): OpenFire => ({ command: null, ref, engine: null, place: null });

export const isSending = ({ sent }: Pick<Panel, "sent">, { command }: OpenFire) =>
  sent.find((s) => s.id === command)?.status.is === "sending";

/** Returns the fire as it stands, once the server has recorded it. */
export function fireOf({ sent, state }: Pick<Panel, "sent" | "state">, open: OpenFire): Fire | undefined {
  const status = sent.find((s) => s.id === open.command)?.status;
  const ref = open.ref ?? (status?.is === "recorded" ? status.seq : null);
  return state.fires.find((f) => f.id === ref);
}

/** Returns whether one more touch on Fire would only repeat the fire of this sheet: it was sent by this panel and stands. */
export function repeats(panel: Pick<Panel, "sent" | "state">, open: OpenFire): boolean {
  return open.command !== null && (isSending(panel, open) || fireOf(panel, open) !== undefined);
}

/** Returns whether the sheet has done its work: number and place are said, or the fire is at no engine. */
export function isLocated({ engine, place }: Pick<OpenFire, "engine" | "place">): boolean {
  return place === "groundEquipment" || (place !== null && engine !== null);
}
