import { usualOrder } from "../../shared/plan/usualOrder.ts";
import type { Purpose } from "../../shared/protocol/stages.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { Plan } from "../ui/plan/Plan.tsx";
import type { EngineMark, PlanView } from "../ui/plan/planView.ts";
import { usePlannedWords } from "../words/planned.ts";
import { useWords } from "../words/words.ts";

interface Props {
  type: AircraftType;
  order: readonly number[];
  purpose: Purpose;
  onOrder(next: number[]): void;
}

/** Entry of the order in which engines are started or stopped: the person touches them on the plan one after the other. */
export function OrderPlan({ type, order, purpose, onOrder }: Props) {
  const { plan } = useWords().text;
  const { planning } = usePlannedWords();
  const usual = usualOrder(type, purpose);
  const stops = purpose === "return";
  const ordinals: Readonly<Record<number, string>> = planning.ordinals;
  const notPlanned = stops ? planning.alreadyStopped : planning.notStarted;
  const view: PlanView = {
    type,
    engines: type.engines.map((e): EngineMark => {
      const at = order.indexOf(e.n);
      return {
        n: e.n,
        x: e.x,
        y: e.y,
        word: at === -1 ? notPlanned : (ordinals[at + 1] ?? String(at + 1)),
        shape: at === -1 ? "ring" : "none",
        count: null,
        over: false,
        turning: stops && at !== -1,
        asked: false,
      };
    }),
    guardAt: null,
    chocks: "unknown",
    power: { is: "unknown", words: "" },
    cart: false,
  };
  const is = stops ? planning.stopIs : planning.orderIs;
  const none = stops ? planning.stopNone : planning.orderNone;
  const touch = (n: number) => onOrder(order.includes(n) ? order.filter((o) => o !== n) : [...order, n]);
  return (
    <section className="order-plan" aria-label={planning.order}>
      <h2>{order.length > 0 ? is(order.join("-")) : none}</h2>
      <p>{planning.orderHow(usual.join("-"))}</p>
      <Plan view={view} facing="forward" words={plan.forward} onEngine={touch} />
      <div className="option-keys">
        <button type="button" className="answer" data-tone="plain" onClick={() => onOrder([])}>
          {planning.anew}
        </button>
        <button
          type="button"
          className="answer"
          data-tone="plain"
          onClick={() => onOrder([...usual])}
        >
          {planning.usual}
        </button>
      </div>
    </section>
  );
}
