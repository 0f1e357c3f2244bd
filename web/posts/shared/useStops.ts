import { type Opened, useOpened } from "../../ui/opened.ts";
import type { StopActions } from "../../ui/Stops.tsx";
import type { Panel } from "./model.ts";
import { justSent, type OpenFire, picked, repeats } from "./openFire.ts";

/** The sheet that a stop key opened: the pick of a cut, or the sheet of a fire. */
export type OpenStop = { is: "cut" } | { is: "fire"; fire: OpenFire };

/** The stop keys of a panel, and what they opened. */
export interface StopKeys {
  opened: Opened<OpenStop>;
  actions: StopActions;
  /** Sends the cut of one engine, or of all for null. */
  cut(engine: number | null): void;
  /** Asks where a standing fire burns. */
  locate(ref: number): void;
}

/** Returns the stop keys of a panel. Stops never wait for the connection or the stage. */
export function useStops(panel: Panel): StopKeys {
  const opened = useOpened<OpenStop>();
  const send = (what: { kind: "hold" | "cutAll" | "fire" } | { kind: "cut"; engine: number }) =>
    panel.act({ type: "send", channel: "panel", ...what });
  return {
    opened,
    cut: (engine) => {
      opened.close();
      send(engine === null ? { kind: "cutAll" } : { kind: "cut", engine });
    },
    locate: (ref) => opened.open({ is: "fire", fire: picked(ref) }),
    actions: {
      hold: () => {
        opened.close();
        send({ kind: "hold" });
      },
      askCut: () => opened.open({ is: "cut" }),
      fire: () => {
        const now = opened.now();
        // A glove may touch twice. The second touch would be a second fire, which two people must report out as well.
        if (now?.is === "fire" && repeats(panel, now.fire)) return;
        const command = send({ kind: "fire" });
        if (command !== null) opened.open({ is: "fire", fire: justSent(command) });
      },
    },
  };
}
