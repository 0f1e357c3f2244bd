import { AuthorsWords } from "../ui/AuthorsWords.tsx";
import { PlanDrawing } from "../ui/plan/PlanDrawing.tsx";
import { StripAircraft, StripEngines } from "../ui/Strip.tsx";
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
      <StripAircraft strip={strip} />
      <span className="strip-stage">{strip.stage}</span>
      {mine && <span className="ramp-mine">{mine}</span>}
      <StripEngines strip={strip} />
      <span className="strip-needs" data-needs={strip.needs?.is}>
        {strip.needs?.words ?? (waitsFor === null ? ramp.nothingNeeded : <AuthorsWords text={waitsFor} />)}
      </span>
    </button>
  );
}
