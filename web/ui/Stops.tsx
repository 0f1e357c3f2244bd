import { STANDARD } from "../words/standard.ts";
import { useWords } from "../words/words.ts";

export interface StopActions {
  hold(): void;
  /** Asks which engine to cut. */
  askCut(): void;
  fire(): void;
}

/**
 * Hold, cut and fire: always visible, never disabled. Hold and fire are sent at the touch. The panel says that each is a
 * message, not an emergency stop.
 */
export function Stops({ actions }: { actions: StopActions }) {
  const words = useWords().text.stops;
  return (
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
