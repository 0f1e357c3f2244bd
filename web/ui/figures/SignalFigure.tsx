import { forEngine, MOST_FINGERS } from "../../../shared/handSignals/variant.ts";
import type { Side } from "../../../shared/models/facing.ts";
import type { SignalKind } from "../../../shared/protocol/signals.ts";
import { signalOf } from "../../../shared/signals/all.ts";
import { signalWords } from "../../../shared/words/handSignals.ts";
import { useLaterWords } from "../../words/later.ts";
import { useWords } from "../../words/words.ts";
import { MovingFigure } from "./MovingFigure.tsx";

/** The hand signal that belongs to an ask. */
export interface HandForm {
  kind: SignalKind;
  engine: number | null;
  /** The engine's side of the aircraft, for the arm that points. */
  side: Side | null;
  /** Given to this person, or by this person. */
  given: "toYou" | "byYou";
}

const HEIGHT = 150;

/** The figure beside the ask, seen from the front. Empty when the message has no standard hand signal. */
export function SignalFigure({ kind, engine, side, given }: HandForm) {
  const { say } = useWords();
  const { figure } = useLaterWords();
  const { standard } = signalOf(kind);
  if (!standard) return null;
  const signal = forEngine(standard.figure, engine, side);
  if (!signal) return <p className="ask-figure ask-figure-none">{figure.none(MOST_FINGERS)}</p>;
  return (
    <figure className="ask-figure">
      <MovingFigure
        signal={signal}
        form="day"
        height={HEIGHT}
        label={figure.label(signalWords(signal, say.language).name)}
      />
      <figcaption>
        {given === "toYou" ? figure.toYou : figure.byYou}
        {kind === "cut" && `. ${figure.cutsAll}`}
        {say.language !== "en" && <span lang="en"> ({signal.name})</span>}
      </figcaption>
    </figure>
  );
}
