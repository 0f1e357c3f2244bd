import { useMemo, useState } from "react";
import { clearDistances } from "../../../shared/figures/blast.ts";
import { guardWalkFigure } from "../../../shared/figures/guardWalk.ts";
import { neighbourFigures, standCaseOf, tooNear } from "../../../shared/figures/neighbours.ts";
import type { Facing } from "../../../shared/models/facing.ts";
import { keptBehind, type StandCase } from "../../../shared/plan/standPlan.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { workedBook } from "../../../shared/words/worked.ts";
import "../../styles/stand.css";
import { Opening } from "../../ui/Opening.tsx";
import type { EngineMark } from "../../ui/plan/planView.ts";
import { StandDrawing } from "../../ui/plan/StandDrawing.tsx";
import type { StandView } from "../../ui/plan/standView.ts";
import { TranslatedText } from "../../ui/TranslatedText.tsx";
import { useUnits } from "../../ui/units.ts";
import { WorkedFigures } from "../../ui/WorkedFigures.tsx";
import { usePlannedWords } from "../../words/planned.ts";
import { useWords } from "../../words/words.ts";
import { plannedStand, standNow } from "./standView.ts";
import { workedRow } from "./workedRow.ts";

interface NowProps {
  state: SessionState;
  /** The engine at hand, to which the guard's walking path is drawn. */
  engine: number | null;
  facing: Facing;
}

/** The stand at this moment, to scale, with the figures it is drawn from. */
export function StandNow({ state, engine, facing }: NowProps) {
  const { stand: says } = usePlannedWords();
  const stand = useMemo(() => standCaseOf(state), [state]);
  const [open, setOpen] = useState(() => tooNear(stand).length > 0);
  return (
    <Opening open={open} words={open ? says.hide : says.show} look="worked-more" onOpen={setOpen}>
      {open && (
        <StandSheet
          stand={stand}
          view={standNow(state, stand, engine)}
          facing={facing}
          walk={engine === null ? null : guardWalkFigure(state, engine)}
        />
      )}
    </Opening>
  );
}

interface PlannedProps {
  stand: StandCase;
  /** The engines as keys, touched for the order. */
  engines: readonly EngineMark[];
  onEngine(n: number): void;
}

/** The stand of a plan, on which the order is touched. The figures behind it open below. */
export function StandPlanned({ stand, engines, onEngine }: PlannedProps) {
  const words = useWords();
  const units = useUnits();
  const { stand: say } = usePlannedWords();
  const [open, setOpen] = useState(false);
  const behind = keptBehind(stand)[0];
  const rows = [...neighbourFigures(stand), ...clearDistances(stand)];
  // Objects that are too near are never folded away.
  const close = neighbourFigures(stand).filter((f) => f.verdict === "bad");
  return (
    <figure className="stand-sheet">
      <StandDrawing view={plannedStand(stand)} facing="forward" words={say} keys={{ engines, onEngine }} />
      <figcaption>
        {behind
          ? say.drawnPlanned(say.kinds[behind.kind].toLowerCase(), behind.metres.toFixed(0))
          : say.noFigures}
      </figcaption>
      {!open && <WorkedFigures title={say.near} rows={close.map((f) => workedRow(f, 0, units, words))} />}
      <Opening open={open} words={say.assumed} look="worked-more" onOpen={setOpen}>
        <WorkedFigures title={say.assumed} rows={rows.map((f) => workedRow(f, 0, units, words))} />
      </Opening>
    </figure>
  );
}

interface SheetProps {
  stand: StandCase;
  view: StandView;
  facing: Facing;
  walk: ReturnType<typeof guardWalkFigure>;
}

function StandSheet({ stand, view, facing, walk }: SheetProps) {
  const words = useWords();
  const units = useUnits();
  const { stand: say } = usePlannedWords();
  const behind = keptBehind(stand)[0];
  const rows = [...neighbourFigures(stand), ...(walk ? [walk] : []), ...clearDistances(stand)];
  return (
    <figure className="stand-sheet">
      <StandDrawing view={view} facing={facing} words={say} />
      <figcaption>
        {behind ? say.drawn(say.kinds[behind.kind].toLowerCase(), behind.metres.toFixed(0)) : say.noFigures}
        {walk?.value === null && walk.caution && (
          <>
            {" "}
            <TranslatedText pieces={workedBook(words.say.language)(walk.caution)} />
          </>
        )}
      </figcaption>
      <WorkedFigures title={say.assumed} rows={rows.map((f) => workedRow(f, 0, units, words))} />
    </figure>
  );
}
