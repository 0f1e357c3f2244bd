import { parseArgs } from "node:util";
import { searchOf } from "./build.ts";

const { values } = parseArgs({
  options: {
    scope: { type: "string", default: "everything" },
    states: { type: "string", default: "5000000" },
    minutes: { type: "string", default: "8" },
  },
});
const { search } = await searchOf();
const began = performance.now();
const seconds = () => (performance.now() - began) / 1000;
const found = search({
  scope: values.scope,
  states: Number(values.states),
  enough: () => seconds() > Number(values.minutes) * 60,
});
const took = seconds();
console.log(found.violation?.chart);
console.log({
  ...found,
  violation: found.violation?.invariant,
  took,
  rate: found.states / took,
  per: found.transitions / took,
});
