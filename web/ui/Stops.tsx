import type { ReactNode } from "react";
import { STANDARD } from "../words/standard.ts";
import { useWords } from "../words/words.ts";
import { EngineKeys } from "./EngineKeys.tsx";
import { QuickSheet } from "./QuickSheet.tsx";

export interface StopActions {
  hold(): void;
  /** Asks which engine to cut. */
  askCut(): void;
  cut(engine: number | null): void;
  fire(): void;
  /** Closes the sheet that is open. */
  close(): void;
}

interface Props {
  numbers: readonly number[];
  /** The pick of a cut is open. */
  cutting: boolean;
  /** The sheet of a fire; null while none is open. */
  fire: ReactNode;
  actions: StopActions;
}

/**
 * Hold, cut and fire: always visible, never disabled. Hold and fire are sent at the touch. The panel says that each is a
 * message, not an emergency stop.
 */
export function Stops({ numbers, cutting, fire, actions }: Props) {
  const words = useWords().text.stops;
  return (
    <>
      {cutting && (
        <QuickSheet title={words.cutWhich} onClose={actions.close}>
          <EngineKeys
            numbers={numbers}
            prompt={words.cutPrompt}
            disabled={false}
            all={{ word: words.cutAll, onPress: () => actions.cut(null) }}
            onPick={actions.cut}
            onBack={actions.close}
          />
        </QuickSheet>
      )}
      {fire}
      <nav className="stops" aria-label={words.keys}>
        <button type="button" className="stop stop-hold" onClick={actions.hold}>
          <StopShape is="hold" />
          <StopWord is="hold" />
        </button>
        <button type="button" className="stop stop-cut" onClick={actions.askCut}>
          <StopShape is="cut" />
          <StopWord is="cut" />
        </button>
        <button type="button" className="stop stop-fire" onClick={actions.fire}>
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
