import { AuthorsWords } from "../ui/AuthorsWords.tsx";
import { EngineShape } from "../ui/plan/EngineShape.tsx";
import { PlanDrawing } from "../ui/plan/PlanDrawing.tsx";
import { useWords } from "../words/words.ts";
import type { RampRow } from "./rampRows.ts";

/** One aircraft that is being started: its plan, its stage, what the start waits for, and my post there. */
export function RampCard({ row, onOpen }: { row: RampRow; onOpen(): void }) {
  const { ramp } = useWords().text;
  const { strip, plan, waitsFor, mine } = row;
  return (
    <button
      type="button"
      className="strip ramp-card"
      data-offered={row.offered || undefined}
      onClick={onOpen}
    >
      <span className="ramp-plan" aria-hidden="true">
        {plan && <PlanDrawing view={plan} />}
      </span>
      <span className="strip-aircraft">
        <strong>{strip.aircraft}</strong>
        <span>
          {strip.typeName}, {strip.place}
        </span>
      </span>
      <span className="strip-stage">{strip.stage}</span>
      {mine && <span className="ramp-mine">{mine}</span>}
      <span className="strip-engines">
        {strip.engines.map((e) => (
          <span key={e.n} data-danger={e.danger || undefined}>
            <b>{e.n}</b> <EngineShape shape={e.shape} /> {e.word}
          </span>
        ))}
      </span>
      <span className="strip-needs" data-needs={strip.needs?.is}>
        {strip.needs?.words ?? (waitsFor === null ? ramp.nothingNeeded : <AuthorsWords text={waitsFor} />)}
      </span>
    </button>
  );
}
