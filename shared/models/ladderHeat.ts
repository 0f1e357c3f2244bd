import { found, type Outcome, refused } from "./outcome.ts";
import { heatAtRest, heatEngaged, type StarterHeat } from "./starterThermal.ts";

/** Steps of a starter's ladder and the rest that begins a new series, in seconds. */
export interface HeatLadder {
  steps: readonly { on: number; rest: number }[];
  reset: number;
}

/** heat → gain · heat + lift. */
interface Line {
  gain: number;
  lift: number;
}

const then = (a: Line, b: Line): Line => ({ gain: b.gain * a.gain, lift: b.gain * a.lift + b.lift });
const at = ({ gain, lift }: Line, heat: number) => gain * heat + lift;
/** The heat to which endless repetition settles. A gain of 1 is a rest too short to cool at all. */
const settled = ({ gain, lift }: Line) => (gain < 1 ? lift / (1 - gain) : Number.POSITIVE_INFINITY);

/**
 * Returns the highest heat, in kelvins above ambient, that a ladder ever permits: every engagement as long as allowed,
 * every rest as short as allowed, for ever. It covers the three ways to go on: along the ladder, round its last step,
 * and back to the first step after the rest that begins a new series. The time is square in the steps of the ladder.
 */
export function hottestOnLadder(model: StarterHeat, { steps, reset }: HeatLadder): Outcome<number> {
  const engaged: Line[] = [];
  const cooled: Line[] = [];
  for (const { on, rest } of steps) {
    const lift = heatEngaged(model, 0, on);
    const kept = heatAtRest(model, 1, rest);
    if (!lift.ok) return lift;
    if (!kept.ok) return kept;
    engaged.push({ gain: 1 - lift.value / model.steady, lift: lift.value });
    cooled.push({ gain: kept.value, lift: 0 });
  }
  const anew = heatAtRest(model, 1, reset);
  if (!anew.ok) return anew;
  const [lastOn, lastOff] = [engaged.at(-1), cooled.at(-1)];
  if (!lastOn || !lastOff) return refused("a starter ladder has at least one step");
  const again: Line = { gain: anew.value, lift: 0 };
  const repeated = settled(then(lastOn, lastOff));
  let first = at(again, at(lastOn, repeated));
  let way: Line = { gain: 1, lift: 0 };
  engaged.forEach((step, k) => {
    way = then(way, step);
    first = Math.max(first, settled(then(way, again)));
    way = then(way, cooled[k] ?? again);
  });
  let before = first;
  let hottest = 0;
  engaged.forEach((step, k) => {
    if (k === engaged.length - 1) before = Math.max(before, repeated);
    const peak = at(step, before);
    hottest = Math.max(hottest, peak);
    before = at(cooled[k] ?? again, peak);
  });
  return found(Math.min(hottest, model.steady));
}
