import { type LoadPlan, runLoad } from "./load.ts";

/** The load driver, in a process of its own: a plan as JSON on standard input, the result as JSON on output. */
let text = "";
for await (const chunk of process.stdin) text += String(chunk);
process.stdout.write(JSON.stringify(await runLoad(JSON.parse(text) as LoadPlan)));
process.exit(0);
