import { type Change, type Spot, spotsOf } from "./mutants.ts";

/** One mutant of the program. */
export interface Mutant {
  id: number;
  file: string;
  line: number;
  kind: string;
  was: string;
  text: string;
}

/** Returns a source with all its mutants, each behind the switch `$mutant(id)`. Ids start at `first`. */
export function instrument(source: string, file: string, first: number): { text: string; mutants: Mutant[] } {
  const mutants: Mutant[] = [];
  const number = (change: Change): number => {
    const line = source.slice(0, change.start).split("\n").length;
    const was = source.slice(change.start, change.end);
    mutants.push({ id: first + mutants.length, file, line, kind: change.kind, was, text: change.text });
    return first + mutants.length - 1;
  };
  const spots = spotsOf(source);
  let next = 0;

  const part = (start: number, end: number): string => {
    let text = "";
    let at = start;
    for (let spot = spots[next]; spot && spot.start < end; spot = spots[next]) {
      next += 1;
      text += source.slice(at, spot.start) + switched(spot, part);
      at = spot.end;
    }
    return text + source.slice(at, end);
  };
  const switched = (spot: Spot, within: typeof part): string => {
    const ids = spot.changes.map(number);
    const whole = within(spot.start, spot.end);
    if (spot.block) return `{ if ($mutant(${ids[0]})) {} else { ${whole} } }`;
    const changed = spot.changes.map((c, i) => {
      const text = source.slice(spot.start, c.start) + c.text + source.slice(c.end, spot.end);
      return `$mutant(${ids[i]}) ? (${text}) : `;
    });
    return `(${changed.join("")}(${whole}))`;
  };
  return { text: part(0, source.length), mutants };
}
