import { Suspense } from "react";
import { fill } from "../../shared/asks/ask.ts";
import { useWords } from "../words/words.ts";
import { EngineKeys } from "./EngineKeys.tsx";
import { useFiguring } from "./figuring.ts";
import { later } from "./later.tsx";
import type { NeedProps } from "./needProps.ts";

const BladesEntry = later(() => import("./BladesEntry.tsx").then((m) => m.BladesEntry));
const EngineAndReason = later(() => import("./EngineAndReason.tsx").then((m) => m.EngineAndReason));
const FigureEntry = later(() => import("./FigureEntry.tsx").then((m) => m.FigureEntry));
const ForecastEntry = later(() => import("./ForecastEntry.tsx").then((m) => m.ForecastEntry));
const ReasonEntry = later(() => import("./ReasonEntry.tsx").then((m) => m.ReasonEntry));
const WeatherEntry = later(() => import("./WeatherEntry.tsx").then((m) => m.WeatherEntry));
const StandsAt = later(() => import("./StandsAt.tsx").then((m) => m.StandsAt));

/** The entry that an answer needs before it can be sent. Some entries load after the panel itself. */
export function Need({ onDrawn, ...props }: NeedProps & { onDrawn?: (entry: HTMLElement | null) => void }) {
  return (
    <Suspense>
      <div ref={onDrawn}>
        <Entry {...props} />
      </div>
    </Suspense>
  );
}

function Entry({ answer, numbers, now, blocked, confirm, onGive, onBack }: NeedProps) {
  const { entry } = useWords().text;
  const figuring = useFiguring();
  const need = answer.choice.need;
  switch (need?.is) {
    case "engine":
      return (
        <EngineKeys
          numbers={numbers}
          prompt={entry.readBack}
          disabled={blocked}
          onPick={(engine) => onGive({ engine })}
          onBack={onBack}
        />
      );
    case "engineAndReason":
      return (
        <EngineAndReason
          word={answer.word}
          numbers={numbers}
          blocked={blocked}
          confirm={confirm}
          onGive={onGive}
          onBack={onBack}
        />
      );
    case "standsAt":
      return (
        <StandsAt
          among={need.among}
          disabled={blocked}
          onPick={(standsAt) => onGive({ standsAt })}
          onBack={onBack}
        />
      );
    case "blades":
      return (
        <BladesEntry
          atLeast={need.atLeast}
          disabled={blocked}
          onEnter={(blades) => onGive({ blades })}
          onBack={onBack}
        />
      );
    case "weather":
      return (
        <WeatherEntry
          now={now}
          mostAge={answer.reportMostAge}
          first="hand"
          disabled={blocked}
          onEnter={(weather) => onGive({ weather })}
          onBack={onBack}
        />
      );
    case "forecast": {
      const { unit } = need;
      const spec = figuring.spec({ ...answer.choice, need: { is: "figure", field: "reading", unit } });
      if (!spec) return <EntryToCome onBack={onBack} />;
      return (
        <ForecastEntry
          spec={spec}
          unit={unit}
          word={entry.record}
          disabled={blocked}
          onEnter={onGive}
          onBack={onBack}
        />
      );
    }
    case "figure": {
      const spec = figuring.spec(answer.choice);
      if (!spec) return <EntryToCome onBack={onBack} />;
      return (
        <FigureEntry
          spec={spec}
          word={entry.record}
          disabled={blocked}
          follows={(value) => {
            const action = fill(answer.choice, { figure: { value, unit: spec.unit } });
            return action && figuring.follows(action);
          }}
          onEnter={(value) => onGive({ figure: { value, unit: spec.unit } })}
          onBack={onBack}
        />
      );
    }
    default:
      return (
        <ReasonEntry
          prompt={need?.is === "words" && need.field === "words" ? entry.defect : entry.reason}
          usual={[]}
          word={answer.word}
          disabled={blocked}
          onEnter={(reason) => onGive({ reason })}
          onBack={onBack}
        />
      );
  }
}

function EntryToCome({ onBack }: { onBack(): void }) {
  const { app, entry } = useWords().text;
  return (
    <section className="entry">
      <p>{app.fetching}</p>
      <button type="button" className="answer" data-tone="plain" onClick={onBack}>
        {entry.back}
      </button>
    </section>
  );
}
