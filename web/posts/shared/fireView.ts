import type { Action } from "../../../shared/protocol/commands.ts";
import type { FirePlace } from "../../../shared/protocol/signals.ts";
import { enginesOf, placesOf } from "../../../shared/stops/fireSeats.ts";
import { maySlip } from "./maySlip.ts";
import type { Panel } from "./model.ts";
import { fireOf, isSending, type OpenFire } from "./openFire.ts";

/** The content of the sheet of a fire, and the actions of its keys. */
interface FireView {
  title: string;
  prompt: string;
  /** The engines and places already said. */
  said: { engines: number[]; places: FirePlace[] };
  /** Returns the action that says more of where it burns. */
  locate(more: { engine: number } | { place: FirePlace }): Action;
  /** The action that takes it back as a slip; null when that is not possible. */
  disregard: Action | null;
}

const own = <T>(value: T | null): T[] => (value === null ? [] : [value]);

export function fireView(panel: Panel, open: OpenFire): FireView {
  const { stops } = panel.words.text;
  const fire = fireOf(panel, open);
  const sending = isSending(panel, open);
  const about = fire === undefined ? {} : { ref: fire.id };
  return {
    title: open.command === null ? stops.fireWhere : sending ? stops.fireSending : stops.fireSent,
    prompt: sending ? stops.firePromptSending : stops.firePrompt,
    said: {
      engines: [...own(open.engine), ...(fire ? enginesOf(fire) : [])],
      places: [...own(open.place), ...(fire ? placesOf(fire) : [])],
    },
    locate: (more) => ({ type: "send", kind: "fireAt", channel: "panel", ...about, ...more }),
    disregard:
      fire !== undefined && maySlip(panel, fire.id)
        ? { type: "send", kind: "disregard", ref: fire.id, channel: "panel" }
        : null,
  };
}
