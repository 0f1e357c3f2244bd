import { useState } from "react";
import { choice, fill, type Given } from "../../../shared/asks/ask.ts";
import { findAll } from "../../../shared/conditions/all.ts";
import type { ConditionId } from "../../../shared/conditions/condition.ts";
import { nextInOrder } from "../../../shared/session/decide/start.ts";
import { plain } from "../../../shared/session/state.ts";
import { say } from "../../../shared/words/en.ts";
import { type ConditionRow, Conditions } from "../../ui/Conditions.tsx";
import { Need } from "../../ui/Need.tsx";
import { seconds } from "../../ui/numbers.ts";
import { Sheet } from "../../ui/Sheet.tsx";
import { useUnits } from "../../ui/units.ts";
import { answerKey } from "../shared/askViews.ts";
import type { Panel } from "../shared/model.ts";

/** The conditions of the engine asked for or cleared; else of the next in order. */
export function ConditionsNow({ panel }: { panel: Panel }) {
  const { state, now } = panel;
  const units = useUnits();
  const [aside, setAside] = useState<ConditionId | null>(null);
  const asked = state.engines.find((e) => ["requested", "clear"].includes(plain(e.life).is));
  const n = asked?.n ?? nextInOrder(state);
  if (n === null) return null;
  const rows = findAll(state, n, now).map((r): ConditionRow => {
    const met = r.is === "yes" || r.is === "overridden";
    return {
      id: r.id,
      name: say.conditionName(r.id),
      is: r.is,
      words: say.condition(r, units),
      by: r.by ? `${r.by.name}${r.age === null ? "" : `, ${seconds(r.age)} ago`}` : "",
      owners: met ? "" : `for ${r.owners.map((o) => say.post(o).toLowerCase()).join(" or ")}`,
      onSetAside: !met && state.type.overridable.includes(r.id) ? () => setAside(r.id) : null,
    };
  });
  const title = asked
    ? `Number ${n}: what a clearance stands on`
    : `Number ${n} is next: what a clearance would stand on`;
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

/** The first of the two people: the engine entered by hand, and a reason. The other is asked at once. */
function SetAside({ panel, condition, engine, onClose }: SetAsideProps) {
  const draft = { type: "override", condition, engine, reason: "" } as const;
  const answer = answerKey(
    panel.state,
    choice("override", "no", draft, { is: "engineAndReason" }),
    panel.now,
    `aside/${condition}`,
    "Ask to set it aside",
  );
  const give = (given: Given) => {
    const action = fill(answer.choice, given);
    if (action) panel.act(action);
    onClose();
  };
  return (
    <Sheet title={`Set aside: ${say.conditionName(condition).toLowerCase()}`} onClose={onClose}>
      <p>A second person on another device must agree, with a reason of their own. Both go on the record.</p>
      <Need
        answer={answer}
        numbers={panel.state.engines.map((e) => e.n)}
        blocked={!panel.fresh}
        onGive={give}
        onBack={onClose}
      />
    </Sheet>
  );
}
