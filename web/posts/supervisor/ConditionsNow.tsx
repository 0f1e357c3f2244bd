import { useState } from "react";
import { fill, type Given, offer } from "../../../shared/asks/ask.ts";
import { findAll } from "../../../shared/conditions/all.ts";
import type { ConditionId } from "../../../shared/protocol/conditions.ts";
import { type ConditionRow, Conditions } from "../../ui/Conditions.tsx";
import { Need } from "../../ui/Need.tsx";
import { seconds } from "../../ui/numbers.ts";
import { Sheet } from "../../ui/Sheet.tsx";
import { useUnits } from "../../ui/units.ts";
import { useLaterWords } from "../../words/later.ts";
import { answerKey } from "../shared/askViews.ts";
import type { Panel } from "../shared/model.ts";
import { conditionsFor } from "./conditionsFor.ts";

/** Conditions of the engine that is requested or cleared, else of the next engine to be cleared. */
export function ConditionsNow({ panel }: { panel: Panel }) {
  const { state, now, words } = panel;
  const { say } = words;
  const { supervisor } = useLaterWords();
  const units = useUnits();
  const [aside, setAside] = useState<ConditionId | null>(null);
  const about = conditionsFor(state, now, supervisor);
  if (about === null) return null;
  const { n, title } = about;
  const rows = findAll(state, n, now).map((r): ConditionRow => {
    const met = r.is === "yes" || r.is === "overridden";
    return {
      id: r.id,
      name: say.conditionName(r.id),
      is: r.is,
      words: say.condition(r, units),
      by: r.by ? (r.age === null ? r.by.name : supervisor.by(r.by.name, seconds(r.age))) : "",
      owners: met ? "" : supervisor.owners(say.either(r.owners.map((o) => say.post(o).toLowerCase()))),
      onSetAside: !met && state.type.overridable.includes(r.id) ? () => setAside(r.id) : null,
    };
  });
  return (
    <>
      <Conditions title={title} rows={rows} />
      {aside && <SetAside panel={panel} condition={aside} engine={n} onClose={() => setAside(null)} />}
    </>
  );
}

interface SetAsideProps {
  panel: Panel;
  condition: ConditionId;
  engine: number;
  onClose(): void;
}

/** The first of the two people enters the engine by hand and a reason. The second is asked at once. */
function SetAside({ panel, condition, engine, onClose }: SetAsideProps) {
  const { say } = panel.words;
  const { supervisor } = useLaterWords();
  const draft = { type: "override", condition, engine, reason: "" } as const;
  const answer = answerKey(
    panel.state,
    offer("no", draft, { is: "engineAndReason" }),
    supervisor.askAside,
    `aside/${condition}`,
  );
  const give = (given: Given) => {
    const action = fill(answer.choice, given);
    if (action) panel.act(action, given.confirmed);
    onClose();
  };
  return (
    <Sheet title={supervisor.aside(say.conditionName(condition).toLowerCase())} onClose={onClose}>
      <p>{supervisor.asideWhat}</p>
      <Need
        answer={answer}
        numbers={panel.state.engines.map((e) => e.n)}
        now={panel.now}
        blocked={!panel.fresh}
        confirm={panel.confirm}
        onGive={give}
        onBack={onClose}
      />
    </Sheet>
  );
}
