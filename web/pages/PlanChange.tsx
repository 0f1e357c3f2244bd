import { useState } from "react";
import { purposeOf } from "../../shared/session/state.ts";
import type { Panel } from "../posts/shared/model.ts";
import { ReasonEntry } from "../ui/ReasonEntry.tsx";
import { Sheet } from "../ui/Sheet.tsx";
import { useLaterWords } from "../words/later.ts";
import { OrderPlan } from "./OrderPlan.tsx";
import { PowerKeys } from "./PowerKeys.tsx";
import { HeadingField, NO_STAND, standOf } from "./StandFields.tsx";

/** Changes the engines' order, the power source or the heading of the plan, with a reason for the record. */
export function PlanChange({ panel, onClose }: { panel: Panel; onClose(): void }) {
  const { state } = panel;
  const [order, setOrder] = useState<number[]>([...state.order]);
  const [power, setPower] = useState(state.powerSource);
  const planned = state.headingDeg === undefined ? "" : String(state.headingDeg);
  const [heading, setHeading] = useState(planned);
  const [asking, setAsking] = useState(false);
  const words = useLaterWords().planChange;
  const newOrder = order.join() !== state.order.join();
  const newPower = power !== state.powerSource;
  const headingDeg = heading === planned ? undefined : standOf({ ...NO_STAND, heading }).headingDeg;
  const same = !newOrder && !newPower && headingDeg === undefined;
  const change = (reason: string) => {
    panel.act({
      type: "amendPlan",
      reason,
      ...(newOrder ? { order } : {}),
      ...(newPower ? { powerSource: power } : {}),
      ...(headingDeg === undefined ? {} : { headingDeg }),
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
          <OrderPlan type={state.type} purpose={purposeOf(state)} order={order} onOrder={setOrder} />
          <section className="options" aria-label={words.power}>
            <h3>{words.power}</h3>
            <PowerKeys label={words.power} power={power} words={words} onPower={setPower} />
          </section>
          <HeadingField label={words.heading} heading={heading} onHeading={setHeading} />
          {same && <p>{words.same}</p>}
          <button
            type="button"
            className="answer"
            data-tone="yes"
            disabled={!panel.fresh || order.length === 0 || same}
            onClick={() => setAsking(true)}
          >
            {words.go}
          </button>
        </>
      )}
    </Sheet>
  );
}
