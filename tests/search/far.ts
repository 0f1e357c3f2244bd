import { searchOf } from "./build.ts";
import { SCOPES } from "./scopes.ts";

/**
 * Searches the core as far as time allows, and prints what was reached, how deep and how fast.
 *
 * @param scope a scope's name, or "all"
 * @param states the number of states at which a scope ends
 * @param minutes the minutes after which a scope ends
 * @returns whether every state kept every invariant
 * @throws Error when no scope has that name
 */
export async function searchFar(scope: string, states: number, minutes: number): Promise<boolean> {
  const names = SCOPES.map(({ name }) => name);
  if (scope !== "all" && !names.includes(scope))
    throw new Error(`no scope ${scope}: one of all, ${names.join(", ")}`);
  const { search } = await searchOf();
  let kept = true;
  for (const name of scope === "all" ? names : [scope]) {
    const began = performance.now();
    const before = process.cpuUsage().user;
    const seconds = () => (performance.now() - began) / 1000;
    const found = search({ scope: name, states, enough: () => seconds() > minutes * 60 });
    const took = seconds();
    const worked = (process.cpuUsage().user - before) / 1e6;
    const each = (n: number) =>
      `${Math.round(n / took)}/s (${Math.round(n / worked)}/s of the processor's time)`;
    console.log(`scope ${name}: ${found.exhausted ? "every state" : "not every state"} within its bounds reached
  states       ${found.states}, ${each(found.states)}
  transitions  ${found.transitions}, ${each(found.transitions)}; ${found.refused} refused
  depth        ${found.depth}; ${found.beyond} successors beyond the bounds not followed
  time         ${took.toFixed(1)} s; tables ${(found.bytes / 2 ** 20).toFixed(0)} MiB`);
    if (!found.violation) continue;
    console.log(`\n${found.violation.chart}`);
    kept = false;
  }
  return kept;
}
