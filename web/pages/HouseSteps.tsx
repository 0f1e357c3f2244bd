import "../styles/house.css";
import { useEffect, useState } from "react";
import type { HouseStep, HouseStepKind } from "../../shared/house/steps.ts";
import { house } from "../net/house.ts";
import type { Me } from "../net/keep.ts";
import { useHouseWords } from "../words/house.ts";
import { useWords } from "../words/words.ts";
import { go } from "./route.ts";

/** The page on which each step is done, and who can do it. */
const DONE_ON: Readonly<Record<HouseStepKind, { path: string; planners: boolean }>> = {
  supervisor: { path: "/people", planners: false },
  device: { path: "/devices", planners: false },
  people: { path: "/people", planners: false },
  type: { path: "/types", planners: false },
  aircraft: { path: "/aircraft/new", planners: false },
  plan: { path: "/plan", planners: true },
};

/** Lists what the house still lacks before its first start, and who can do it. Nothing once all is done. */
export function HouseSteps({ me }: { me: Me }) {
  const words = useHouseWords();
  const [steps, setSteps] = useState<HouseStep[]>([]);
  useEffect(() => {
    // Without an answer the ramp is shown as for a finished house: nothing depends on this list.
    house.steps().then(setSteps, () => undefined);
  }, []);
  if (steps.every((s) => s.done)) return null;
  const next = steps.find((s) => !s.done)?.step;
  return (
    <section className="house-steps" aria-label={words.missing}>
      <h2>{words.missing}</h2>
      <p>{words.missingLead(steps.filter((s) => s.done).length, steps.length)}</p>
      <ol>
        {steps.map((step) => (
          <Step key={step.step} step={step} steps={steps} me={me} next={step.step === next} />
        ))}
      </ol>
    </section>
  );
}

interface StepProps {
  step: HouseStep;
  steps: readonly HouseStep[];
  me: Me;
  /** True for the first step that is not done. */
  next: boolean;
}

function Step({ step, steps, me, next }: StepProps) {
  const words = useHouseWords();
  const { say } = useWords();
  const { done, lacks, second, draft } = step;
  const { path, planners } = DONE_ON[step.step];
  const supervisor = me.mayHold.includes("supervisor");
  const may = supervisor || (planners && me.mayHold.includes("cockpit"));
  const before = (kind: HouseStepKind) => steps.find((s) => s.step === kind)?.done === true;
  const what: Readonly<Record<HouseStepKind, string>> = {
    supervisor: "",
    device: "",
    people: words.lacks(lacks.map(say.post).join(", "), second),
    type: draft ? words.draftWaits : words.typeWhat,
    aircraft: before("type") ? words.aircraftWhat : words.aircraftLater,
    plan: before("aircraft") ? words.planWhat : words.planLater,
  };
  const waits =
    (step.step === "aircraft" && !before("type")) || (step.step === "plan" && !before("aircraft"));
  return (
    <li data-done={done || undefined}>
      <svg className="step-shape" viewBox="0 0 20 20" aria-hidden="true">
        {done ? <path d="M3 10 L8 15 L17 5" /> : <path d="M3 3 H17 V17 H3 Z" />}
      </svg>
      <span className="house-step">
        <strong>
          {words.steps[step.step]}
          <span className="visually-hidden"> {done ? words.done : words.open}</span>
        </strong>
        {!done && <span>{[what[step.step], ...(may || waits ? [] : [words.who])].join(" ")}</span>}
      </span>
      {!done && may && !waits && step.step !== "supervisor" && (
        <button type="button" className="answer" data-tone={next ? "yes" : "plain"} onClick={() => go(path)}>
          {words.act[step.step]}
        </button>
      )}
    </li>
  );
}
