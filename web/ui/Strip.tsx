import { useWords } from "../words/words.ts";
import { EngineShape } from "./plan/EngineShape.tsx";
import type { EngineMark } from "./plan/planView.ts";

export interface Need {
  is: "fire" | "cut" | "hold" | "alert" | "ready";
  /** Server time, milliseconds. */
  since: number;
  words: string;
}

export interface StripView {
  id: string;
  aircraft: string;
  typeName: string;
  place: string;
  stage: string;
  /** One entry per engine: number, word and shape of its state. */
  engines: readonly { n: number; word: string; shape: EngineMark["shape"]; danger: boolean }[];
  /** The most urgent need for a person; null when there is none. */
  needs: Need | null;
  over: boolean;
  here: boolean;
}

/** The aircraft of a strip, with its type and place. */
export function StripAircraft({ strip }: { strip: StripView }) {
  return (
    <span className="strip-aircraft">
      <strong>{strip.aircraft}</strong>
      <span>
        {strip.typeName}, {strip.place}
      </span>
    </span>
  );
}

/** The engines of a strip, each with the shape and the word of its state. */
export function StripEngines({ strip }: { strip: StripView }) {
  return (
    <span className="strip-engines">
      {strip.engines.map((e) => (
        <span key={e.n} data-danger={e.danger || undefined}>
          <b>{e.n}</b> <EngineShape shape={e.shape} /> {e.word}
        </span>
      ))}
    </span>
  );
}

/** One session as a strip of the board. */
export function Strip({ strip, onOpen }: { strip: StripView; onOpen(): void }) {
  const words = useWords().text.ramp;
  return (
    <button
      type="button"
      className="strip"
      data-over={strip.over || undefined}
      data-here={strip.here || undefined}
      onClick={onOpen}
    >
      <StripAircraft strip={strip} />
      <span className="strip-stage">{strip.stage}</span>
      <StripEngines strip={strip} />
      <span className="strip-needs" data-needs={strip.needs?.is}>
        {strip.needs?.words ?? words.nothingNeeded}
      </span>
    </button>
  );
}
