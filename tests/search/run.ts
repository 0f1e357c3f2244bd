// Searches the core as far as there is time for: --scope NAME (or "all") --states N --minutes N.
import { parseArgs } from "node:util";
import { searchOf } from "./build.ts";
import { SCOPES } from "./scopes.ts";

const { values } = parseArgs({
  options: {
    scope: { type: "string", default: "everything" },
    states: { type: "string", default: "5000000" },
    minutes: { type: "string", default: "8" },
  },
});
const { search } = await searchOf();
const scopes = values.scope === "all" ? SCOPES.map((scope) => scope.name) : [values.scope];

for (const scope of scopes) {
  const began = performance.now();
  const before = process.cpuUsage().user;
  const seconds = () => (performance.now() - began) / 1000;
  const found = search({
    scope,
    states: Number(values.states),
    enough: () => seconds() > Number(values.minutes) * 60,
  });
  const took = seconds();
  const worked = (process.cpuUsage().user - before) / 1e6;
  const each = (n: number) =>
    `${Math.round(n / took)}/s (${Math.round(n / worked)}/s of the processor's time)`;
  console.log(`scope ${scope}: ${found.exhausted ? "every state" : "not every state"} within its bounds reached
  states       ${found.states}, ${each(found.states)}
  transitions  ${found.transitions}, ${each(found.transitions)}; ${found.refused} refused
  depth        ${found.depth}; ${found.beyond} successors beyond the bounds not followed
  time         ${took.toFixed(1)} s; tables ${(found.bytes / 2 ** 20).toFixed(0)} MiB`);
  if (found.violation) {
    console.log(`\n${found.violation.chart}`);
    process.exitCode = 1;
  }
}
