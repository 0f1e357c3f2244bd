import { usualOrder } from "../../shared/plan/usualOrder.ts";
import type { Purpose } from "../../shared/protocol/stages.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { Plan } from "../ui/plan/Plan.tsx";
import type { EngineMark, PlanView } from "../ui/plan/planView.ts";
import { type PlannedWords, usePlannedWords } from "../words/planned.ts";
import { useWords } from "../words/words.ts";

interface Props {
  purpose: Purpose;
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
  purpose: Purpose,
  { planning }: PlannedWords,
): EngineMark[] {
  const stops = purpose === "return";
  const notPlanned = stops ? planning.alreadyStopped : planning.notStarted;
  const ordinals: Readonly<Record<number, string>> = planning.ordinals;
  return type.engines.map((e): EngineMark => {
    const at = order.indexOf(e.n);
    return {
      n: e.n,
      x: e.x,
      y: e.y,
      word: at === -1 ? notPlanned : (ordinals[at + 1] ?? String(at + 1)),
      shape: at === -1 ? "still" : "none",
      count: null,
      over: false,
      turning: stops && at !== -1,
      asked: false,
    };
  });
}

/** Entry of the order in which engines are started or stopped: the person touches them on the plan one after the other. */
export function OrderPlan({ type, order, purpose, onOrder }: Props) {
  const { plan } = useWords().text;
  const words = usePlannedWords();
  const { planning } = words;
  const view: PlanView = {
    type,
    engines: orderMarks(type, order, purpose, words),
    guardAt: null,
    chocks: "unknown",
    power: { is: "unknown", words: "" },
    cart: false,
  };
  return (
    <section className="order-plan" aria-label={planning.order}>
      <h2>{orderTitle(order, purpose, words)}</h2>
      <p>{planning.orderHow(usualOrder(type, purpose).join("-"))}</p>
      <Plan view={view} facing="forward" words={plan.forward} onEngine={(n) => onOrder(touched(order, n))} />
      <OrderKeys usual={usualOrder(type, purpose)} onOrder={onOrder} />
    </section>
  );
}

/** Returns the order in words: of starting, or of stopping. */
export function orderTitle(order: readonly number[], purpose: Purpose, { planning }: PlannedWords): string {
  const stops = purpose === "return";
  if (order.length === 0) return stops ? planning.stopNone : planning.orderNone;
  return (stops ? planning.stopIs : planning.orderIs)(order.join("-"));
}

/** The keys that empty the order or take the usual one. */
export function OrderKeys({ usual, onOrder }: { usual: readonly number[]; onOrder(next: number[]): void }) {
  const { planning } = usePlannedWords();
  return (
    <div className="option-keys">
      <button type="button" className="answer" data-tone="plain" onClick={() => onOrder([])}>
        {planning.anew}
      </button>
      <button type="button" className="answer" data-tone="plain" onClick={() => onOrder([...usual])}>
        {planning.usual}
      </button>
    </div>
  );
}
