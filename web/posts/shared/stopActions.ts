import type { StopActions } from "../../ui/Stops.tsx";
import type { Panel } from "./model.ts";

/** Returns hold, cut and fire as actions. They never wait for the connection or the stage. */
export function stopActions(panel: Pick<Panel, "act">): StopActions {
  return {
    hold: () => panel.act({ type: "send", kind: "hold", channel: "panel" }),
    cut: (engine) =>
      engine === null
        ? panel.act({ type: "send", kind: "cutAll", channel: "panel" })
        : panel.act({ type: "send", kind: "cut", engine, channel: "panel" }),
    fire: (engine, place) =>
      panel.act({
        type: "send",
        kind: "fire",
        place,
        channel: "panel",
        ...(engine === null ? {} : { engine }),
      }),
  };
}
