import type { FirePlace } from "../../../shared/protocol/signals.ts";
import type { Fire } from "../../../shared/session/state.ts";
import { enginesOf, placesOf } from "../../../shared/stops/fireSeats.ts";
import { slipFault, stopGiven } from "../../../shared/stops/slip.ts";
import type { StopSheet } from "../../ui/Stops.tsx";
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

/** Returns the number of the fire once the server has recorded it. */
function refOf({ sent }: Pick<Panel, "sent">, { command, ref }: OpenFire): number | null {
  const status = sent.find((s) => s.id === command)?.status;
  return ref ?? (status?.is === "recorded" ? status.seq : null);
}

function fireOf(panel: Pick<Panel, "sent" | "state">, open: OpenFire): Fire | undefined {
  const ref = refOf(panel, open);
  return panel.state.fires.find((f) => f.id === ref);
}

const isSending = ({ sent }: Pick<Panel, "sent">, { command }: OpenFire) =>
  sent.find((s) => s.id === command)?.status.is === "sending";

/** Returns whether one more touch on Fire would only repeat the fire of this sheet: it was sent by this panel and stands. */
export function repeats(panel: Pick<Panel, "sent" | "state">, open: OpenFire): boolean {
  return open.command !== null && (isSending(panel, open) || fireOf(panel, open) !== undefined);
}

/** Returns whether the sheet has done its work: number and place are said, or the fire is at no engine. */
export function isLocated({ engine, place }: Pick<OpenFire, "engine" | "place">): boolean {
  return place === "groundEquipment" || (place !== null && engine !== null);
}

/** Returns whether this person can take the stop back as a slip now, on this device. */
export function maySlip({ state, me, device, now }: Panel, id: number): boolean {
  const given = stopGiven(state, id);
  return given !== undefined && slipFault(state, given, { id: me.id, device }, now) === null;
}

/** Returns the sheet of a fire: whether it was sent, what is said of it, and what a touch says. */
export function fireSheet(
  panel: Panel,
  open: OpenFire,
  onSaid: (more: Partial<Pick<OpenFire, "engine" | "place">>) => void,
  close: () => void,
): StopSheet {
  const words = panel.words.text.stops;
  const fire = fireOf(panel, open);
  const ref = refOf(panel, open);
  const sending = isSending(panel, open);
  const tell = (more: { engine: number } | { place: FirePlace }) => {
    const about = fire === undefined || ref === null ? {} : { ref };
    panel.act({ type: "send", kind: "fireAt", channel: "panel", ...about, ...more });
    onSaid(more);
  };
  const own = <T>(value: T | null): T[] => (value === null ? [] : [value]);
  return {
    is: "fire",
    title: open.command === null ? words.fireWhere : sending ? words.fireSending : words.fireSent,
    prompt: sending ? words.firePromptSending : words.firePrompt,
    said: {
      engines: [...own(open.engine), ...(fire ? enginesOf(fire) : [])],
      places: [...own(open.place), ...(fire ? placesOf(fire) : [])],
    },
    slip:
      fire !== undefined && maySlip(panel, fire.id)
        ? {
            word: panel.words.text.standing.slip,
            disabled: !panel.fresh,
            onPress: () => {
              panel.act({ type: "send", kind: "disregard", ref: fire.id, channel: "panel" });
              close();
            },
          }
        : null,
    onEngine: (engine) => tell({ engine }),
    onPlace: (place) => tell({ place }),
  };
}
