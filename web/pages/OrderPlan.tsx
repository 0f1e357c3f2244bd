import type { AircraftType } from "../../shared/types/schema.ts";
import { Plan } from "../ui/plan/Plan.tsx";
import type { EngineMark, PlanView } from "../ui/plan/planView.ts";
import { type PlannedWords, usePlannedWords } from "../words/planned.ts";
import { useWords } from "../words/words.ts";

interface Props {
  type: AircraftType;
  order: readonly number[];
  onOrder(next: number[]): void;
}

/** Returns the order after one engine was touched: taken out, or put last. */
export const touched = (order: readonly number[], n: number): number[] =>
  order.includes(n) ? order.filter((o) => o !== n) : [...order, n];

/** Returns the engines with their place in the order. */
export function orderMarks(
  type: AircraftType,
  order: readonly number[],
  { planning }: PlannedWords,
): EngineMark[] {
  const ordinals: Readonly<Record<number, string>> = planning.ordinals;
  return type.engines.map((e): EngineMark => {
    const at = order.indexOf(e.n);
    return {
      n: e.n,
      x: e.x,
      y: e.y,
      word: at === -1 ? planning.notStarted : (ordinals[at + 1] ?? String(at + 1)),
      shape: at === -1 ? "ring" : "none",
      count: null,
      over: false,
      turning: false,
      asked: false,
    };
  });
}

/** Entry of the engines' order: the person touches them on the plan one after the other. */
export function OrderPlan({ type, order, onOrder }: Props) {
  const { plan } = useWords().text;
  const words = usePlannedWords();
  const { planning } = words;
  const view: PlanView = {
    type,
    engines: orderMarks(type, order, words),
    guardAt: null,
    chocks: "unknown",
    power: { is: "unknown", words: "" },
    cart: false,
  };
  return (
    <section className="order-plan" aria-label={planning.order}>
      <h2>{order.length > 0 ? planning.orderIs(order.join("-")) : planning.orderNone}</h2>
      <p>{planning.orderHow(type.defaultOrder.join("-"))}</p>
      <Plan view={view} facing="forward" words={plan.forward} onEngine={(n) => onOrder(touched(order, n))} />
      <OrderKeys type={type} onOrder={onOrder} />
    </section>
  );
}

/** The keys that empty the order or take the type's usual one. */
export function OrderKeys({ type, onOrder }: Pick<Props, "type" | "onOrder">) {
  const { planning } = usePlannedWords();
  return (
    <div className="option-keys">
      <button type="button" className="answer" data-tone="plain" onClick={() => onOrder([])}>
        {planning.anew}
      </button>
      <button
        type="button"
        className="answer"
        data-tone="plain"
        onClick={() => onOrder([...type.defaultOrder])}
      >
        {planning.usual}
      </button>
    </div>
  );
}
