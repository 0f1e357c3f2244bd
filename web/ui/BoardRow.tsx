import { useLaterWords } from "../words/later.ts";
import { useWords } from "../words/words.ts";
import { seconds } from "./numbers.ts";
import { EngineShape } from "./plan/EngineShape.tsx";
import type { StripView } from "./Strip.tsx";

/** One aircraft on the wall board, read from across the hangar: its need, and each engine by number, shape and word. */
export function BoardRow({ strip, now }: { strip: StripView; now: number }) {
  const { ramp } = useWords().text;
  const { board } = useLaterWords();
  const { needs } = strip;
  return (
    <li className="wall-row" data-needs={needs?.is}>
      <div className="wall-line">
        <strong className="wall-aircraft">{strip.aircraft}</strong>
        <span className="wall-stage">{strip.stage}</span>
        <span className="wall-needs">
          {needs ? `${needs.words}, ` : ramp.nothingNeeded}
          {needs && <span className="wall-time">{seconds(now - needs.since)}</span>}
        </span>
      </div>
      <div className="wall-line wall-engines">
        {strip.engines.length === 0 && board.notFetched}
        {strip.engines.map((e) => (
          <span key={e.n} className="wall-engine" data-shape={e.shape}>
            <b>{e.n}</b>
            <EngineShape shape={e.shape} />
            {e.word}
          </span>
        ))}
      </div>
    </li>
  );
}
