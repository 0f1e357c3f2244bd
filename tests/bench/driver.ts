import { type LoadPlan, runLoad } from "./load.ts";

/** The load driver in its own process: reads a plan as JSON from standard input and writes the result as JSON. */
let text = "";
for await (const chunk of process.stdin) text += String(chunk);
process.stdout.write(JSON.stringify(await runLoad(JSON.parse(text) as LoadPlan)));
process.exit(0);
