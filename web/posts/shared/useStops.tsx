import { type ReactNode, Suspense, useState } from "react";
import { later } from "../../ui/later.tsx";
import type { StopActions } from "../../ui/Stops.tsx";
import type { Panel } from "./model.ts";
import { isLocated, justSent, type OpenFire, picked, repeats } from "./openFire.ts";

/** Loaded after the first picture: the fire is sent without it. */
const FireSheet = later(() => import("./FireSheet.tsx").then((m) => m.FireSheet));

type Open = { is: "cut" } | { is: "fire"; fire: OpenFire } | null;

/**
 * Returns the stop keys of a panel: whether the pick of a cut is open, the sheet of a fire, the keys' actions, and the
 * action that asks where a standing fire burns. Stops never wait for the connection or the stage.
 */
export function useStops(
  panel: Panel,
  numbers: readonly number[],
): { cutting: boolean; fire: ReactNode; actions: StopActions; locate(ref: number): void } {
  const [open, setOpen] = useState<Open>(null);
  const close = () => setOpen(null);
  const send = (what: { kind: "hold" | "cutAll" | "fire" } | { kind: "cut"; engine: number }) =>
    panel.act({ type: "send", channel: "panel", ...what });
  const fire = open?.is === "fire" ? open.fire : null;
  return {
    cutting: open?.is === "cut",
    fire: fire && (
      <Suspense fallback={null}>
        <FireSheet
          panel={panel}
          numbers={numbers}
          open={fire}
          onSaid={(more) => {
            const next = { ...fire, ...more };
            setOpen(isLocated(next) ? null : { is: "fire", fire: next });
          }}
          onClose={close}
        />
      </Suspense>
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
