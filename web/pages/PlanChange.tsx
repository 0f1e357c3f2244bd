import { useState } from "react";
import type { Panel } from "../posts/shared/model.ts";
import { ReasonEntry } from "../ui/ReasonEntry.tsx";
import { Sheet } from "../ui/Sheet.tsx";
import { useLaterWords } from "../words/later.ts";
import { OrderPlan } from "./OrderPlan.tsx";
import { PowerKeys } from "./PowerKeys.tsx";

/** Changes the engines' order or the power source of the plan, with a reason for the record. */
export function PlanChange({ panel, onClose }: { panel: Panel; onClose(): void }) {
  const { state } = panel;
  const [order, setOrder] = useState<number[]>([...state.order]);
  const [power, setPower] = useState(state.powerSource);
  const [asking, setAsking] = useState(false);
  const words = useLaterWords().planChange;
  const newOrder = order.join() !== state.order.join();
  const newPower = power !== state.powerSource;
  const change = (reason: string) => {
    panel.act({
      type: "amendPlan",
      reason,
      ...(newOrder ? { order } : {}),
      ...(newPower ? { powerSource: power } : {}),
    });
    onClose();
  };
  return (
    <Sheet title={words.title} onClose={onClose}>
      {asking ? (
        <ReasonEntry
          prompt={words.why}
          usual={words.usual}
          word={words.change}
          disabled={!panel.fresh}
          onEnter={change}
          onBack={() => setAsking(false)}
        />
      ) : (
        <>
          <p>{words.lead}</p>
          <OrderPlan type={state.type} order={order} onOrder={setOrder} />
          <section className="options" aria-label={words.power}>
            <h3>{words.power}</h3>
            <PowerKeys label={words.power} power={power} words={words} onPower={setPower} />
          </section>
          {!newOrder && !newPower && <p>{words.same}</p>}
          <button
            type="button"
            className="answer"
            data-tone="yes"
            disabled={!panel.fresh || order.length === 0 || (!newOrder && !newPower)}
            onClick={() => setAsking(true)}
          >
            {words.go}
          </button>
        </>
      )}
    </Sheet>
  );
}
