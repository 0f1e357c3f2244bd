import { useState } from "react";
import { FIRE_PLACES, type FirePlace } from "../../shared/protocol/signals.ts";
import { say } from "../../shared/words/en.ts";
import { EngineKeys } from "./EngineKeys.tsx";
import { Sheet } from "./Sheet.tsx";

export interface StopActions {
  hold(): void;
  cut(engine: number | null): void;
  fire(engine: number | null, place: FirePlace): void;
}

type Open = { is: "cut" } | { is: "fire"; engine: number | null } | { is: "fireEngine" } | null;

/** Hold, cut and fire: always here, never disabled. Each is a message, not an emergency stop, and says so. */
export function Stops({ numbers, actions }: { numbers: readonly number[]; actions: StopActions }) {
  const [open, setOpen] = useState<Open>(null);
  const close = () => setOpen(null);
  return (
    <>
      {open?.is === "cut" && (
        <Sheet title="Cut: which engine?" onClose={close}>
          <EngineKeys
            numbers={numbers}
            prompt="Touch the engine to cut. This is a message to the crew: show the hand signal too."
            disabled={false}
            all={{
              word: "Cut all engines",
              onPress: () => {
                actions.cut(null);
                close();
              },
            }}
            onPick={(n) => {
              actions.cut(n);
              close();
            }}
            onBack={close}
          />
        </Sheet>
      )}
      {open?.is === "fireEngine" && (
        <Sheet title="Fire: at which engine?" onClose={close}>
          <EngineKeys
            numbers={numbers}
            prompt="Touch the engine. This is a message to the crew: shout and show it too."
            disabled={false}
            all={{ word: "Not at an engine", onPress: () => setOpen({ is: "fire", engine: null }) }}
            onPick={(engine) => setOpen({ is: "fire", engine })}
            onBack={close}
          />
        </Sheet>
      )}
      {open?.is === "fire" && (
        <Sheet
          title={open.engine === null ? "Fire: where?" : `Fire at number ${open.engine}: where?`}
          onClose={close}
        >
          <div className="place-keys">
            {FIRE_PLACES.map((place) => (
              <button
                key={place}
                type="button"
                className="answer"
                data-tone="no"
                onClick={() => {
                  actions.fire(open.engine, place);
                  close();
                }}
              >
                {say.firePlace(place)}
              </button>
            ))}
          </div>
        </Sheet>
      )}
      <nav className="stops" aria-label="Hold, cut, fire">
        <button
          type="button"
          className="stop stop-hold"
          onClick={() => {
            close();
            actions.hold();
          }}
        >
          <StopShape is="hold" />
          <span>Hold</span>
        </button>
        <button type="button" className="stop stop-cut" onClick={() => setOpen({ is: "cut" })}>
          <StopShape is="cut" />
          <span>Cut</span>
        </button>
        <button type="button" className="stop stop-fire" onClick={() => setOpen({ is: "fireEngine" })}>
          <StopShape is="fire" />
          <span>Fire</span>
        </button>
      </nav>
    </>
  );
}

function StopShape({ is }: { is: "hold" | "cut" | "fire" }) {
  return (
    <svg viewBox="0 0 32 32" className="stop-shape" aria-hidden="true">
      <title>{is}</title>
      {is === "hold" && <path d="M6 3h7v26H6zM19 3h7v26h-7z" />}
      {is === "cut" && <path d="M10 1h12l9 9v12l-9 9H10l-9-9V10z" />}
      {is === "fire" && <path d="M16 1c2 7 9 9 9 18a9 9 0 0 1-18 0c0-4 2-6 4-9 1 3 2 4 3 4 1-4-1-8 2-13z" />}
    </svg>
  );
}
