import { useState } from "react";
import { FIRE_PLACES, type FirePlace } from "../../shared/protocol/signals.ts";
import { STANDARD } from "../words/standard.ts";
import { useWords } from "../words/words.ts";
import { EngineKeys } from "./EngineKeys.tsx";
import { QuickSheet } from "./QuickSheet.tsx";

export interface StopActions {
  hold(): void;
  cut(engine: number | null): void;
  fire(engine: number | null, place: FirePlace): void;
}

type Open = { is: "cut" } | { is: "fire"; engine: number | null } | { is: "fireEngine" } | null;

/** Hold, cut and fire: always visible, never disabled. The panel says that each is a message, not an emergency stop. */
export function Stops({ numbers, actions }: { numbers: readonly number[]; actions: StopActions }) {
  const { say, text } = useWords();
  const words = text.stops;
  const [open, setOpen] = useState<Open>(null);
  const close = () => setOpen(null);
  return (
    <>
      {open?.is === "cut" && (
        <QuickSheet title={words.cutWhich} onClose={close}>
          <EngineKeys
            numbers={numbers}
            prompt={words.cutPrompt}
            disabled={false}
            all={{
              word: words.cutAll,
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
        </QuickSheet>
      )}
      {open?.is === "fireEngine" && (
        <QuickSheet title={words.fireWhich} onClose={close}>
          <EngineKeys
            numbers={numbers}
            prompt={words.firePrompt}
            disabled={false}
            all={{ word: words.noEngine, onPress: () => setOpen({ is: "fire", engine: null }) }}
            onPick={(engine) => setOpen({ is: "fire", engine })}
            onBack={close}
          />
        </QuickSheet>
      )}
      {open?.is === "fire" && (
        <QuickSheet
          title={open.engine === null ? words.fireWhere : words.fireWhereAt(open.engine)}
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
        </QuickSheet>
      )}
      <nav className="stops" aria-label={words.keys}>
        <button
          type="button"
          className="stop stop-hold"
          onClick={() => {
            close();
            actions.hold();
          }}
        >
          <StopShape is="hold" />
          <StopWord is="hold" />
        </button>
        <button type="button" className="stop stop-cut" onClick={() => setOpen({ is: "cut" })}>
          <StopShape is="cut" />
          <StopWord is="cut" />
        </button>
        <button type="button" className="stop stop-fire" onClick={() => setOpen({ is: "fireEngine" })}>
          <StopShape is="fire" />
          <StopWord is="fire" />
        </button>
      </nav>
    </>
  );
}

/** The stop's word. In a language other than English the standard word stands below it. */
function StopWord({ is }: { is: keyof typeof STANDARD }) {
  const { say, text } = useWords();
  return (
    <span>
      {text.stops[is]}
      {say.language !== "en" && (
        <span className="stop-standard" lang="en">
          {STANDARD[is]}
        </span>
      )}
    </span>
  );
}

function StopShape({ is }: { is: "hold" | "cut" | "fire" }) {
  return (
    <svg viewBox="0 0 32 32" className="stop-shape" aria-hidden="true">
      {is === "hold" && <path d="M6 3h7v26H6zM19 3h7v26h-7z" />}
      {is === "cut" && <path d="M10 1h12l9 9v12l-9 9H10l-9-9V10z" />}
      {is === "fire" && <path d="M16 1c2 7 9 9 9 18a9 9 0 0 1-18 0c0-4 2-6 4-9 1 3 2 4 3 4 1-4-1-8 2-13z" />}
    </svg>
  );
}
