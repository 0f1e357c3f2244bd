import { useState } from "react";
import type { StopActions, StopSheet } from "../../ui/Stops.tsx";
import { fireSheet, isLocated, justSent, type OpenFire, picked, repeats } from "./fireSheet.ts";
import type { Panel } from "./model.ts";

type Open = { is: "cut" } | { is: "fire"; fire: OpenFire } | null;

/**
 * Returns the stop keys of a panel: their sheet, their actions, and the action that asks where a standing fire burns.
 * Stops never wait for the connection or the stage.
 */
export function useStops(panel: Panel): {
  sheet: StopSheet;
  actions: StopActions;
  locate(ref: number): void;
} {
  const [open, setOpen] = useState<Open>(null);
  const close = () => setOpen(null);
  const send = (what: { kind: "hold" | "cutAll" | "fire" } | { kind: "cut"; engine: number }) =>
    panel.act({ type: "send", channel: "panel", ...what });
  const fire = open?.is === "fire" ? open.fire : null;
  return {
    sheet:
      fire === null
        ? open?.is === "cut"
          ? { is: "cut" }
          : null
        : fireSheet(
            panel,
            fire,
            (more) => {
              const next = { ...fire, ...more };
              setOpen(isLocated(next) ? null : { is: "fire", fire: next });
            },
            close,
          ),
    actions: {
      hold: () => {
        close();
        send({ kind: "hold" });
      },
      askCut: () => setOpen({ is: "cut" }),
      cut: (engine) => {
        close();
        send(engine === null ? { kind: "cutAll" } : { kind: "cut", engine });
      },
      fire: () => {
        // A glove may touch twice. The second touch would be a second fire, which two people must report out as well.
        if (fire !== null && repeats(panel, fire)) return;
        const command = send({ kind: "fire" });
        if (command !== null) setOpen({ is: "fire", fire: justSent(command) });
      },
      close,
    },
    locate: (ref) => setOpen({ is: "fire", fire: picked(ref) }),
  };
}
