import type { AircraftType } from "../../shared/types/schema.ts";
import { Plan } from "../ui/plan/Plan.tsx";
import type { EngineMark, PlanView } from "../ui/plan/planView.ts";

interface Props {
  type: AircraftType;
  order: readonly number[];
  onOrder(next: number[]): void;
}

/** The engines' order, set by touching them on the plan one after the other. */
export function OrderPlan({ type, order, onOrder }: Props) {
  const view: PlanView = {
    type,
    engines: type.engines.map((e): EngineMark => {
      const at = order.indexOf(e.n);
      return {
        n: e.n,
        x: e.x,
        y: e.y,
        word: at === -1 ? "Not started" : `${ORDINALS[at] ?? `${at + 1}th`}`,
        shape: at === -1 ? "ring" : "none",
        count: null,
        over: false,
        turning: false,
        asked: false,
      };
    }),
    guardAt: null,
    chocks: "unknown",
    power: { is: "unknown", words: "" },
    cart: false,
  };
  const touch = (n: number) => onOrder(order.includes(n) ? order.filter((o) => o !== n) : [...order, n]);
  return (
    <section className="order-plan" aria-label="Order">
      <h2>Order of starting: {order.length > 0 ? order.join("-") : "touch the first engine"}</h2>
      <p>
        Touch an engine to take it out or to put it last. The type's usual order is{" "}
        {type.defaultOrder.join("-")}.
      </p>
      <Plan view={view} facing="forward" words="Drawn facing forward" onEngine={touch} />
      <div className="option-keys">
        <button type="button" className="answer" data-tone="plain" onClick={() => onOrder([])}>
          Begin the order anew
        </button>
        <button
          type="button"
          className="answer"
          data-tone="plain"
          onClick={() => onOrder([...type.defaultOrder])}
        >
          Usual order
        </button>
      </div>
    </section>
  );
}

const ORDINALS = ["First", "Second", "Third", "Fourth", "Fifth", "Sixth", "Seventh", "Eighth"];
