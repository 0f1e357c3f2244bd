import { parseArgs } from "node:util";
import { z } from "zod";
import { postSchema } from "../shared/protocol/enums.ts";
import { PURPOSES } from "../shared/protocol/stages.ts";
import { type CrewOptions, runCrew } from "./crew/run.ts";

const USAGE = `Scripted partners for the posts nobody holds, on a running server with the demo in it.

npm run demo -- --crew [options]

  --url URL         the server (http://localhost:4380)
  --session ID      play in this session (the newest that is not over; one is planned when there is none)
  --posts A,B       cockpit, fireGuard, groundPower, supervisor (all); a post somebody holds is left alone
  --aircraft ID     what to plan when a session is planned (QX-KIV)
  --purpose WHAT    start or return, for a session planned here (start)
  --power SOURCE    groundPower or batteries, for a session planned here (groundPower)
  --pace N          times faster than people (1)
  --seed N          another crew plays otherwise (1)`;

const optionsSchema = z.object({
  crew: z.literal(true, "say --crew: nothing else can be run here"),
  url: z.url().default("http://localhost:4380"),
  session: z.string().optional(),
  posts: z
    .string()
    .transform((list) => list.split(","))
    .pipe(z.array(postSchema).min(1))
    .optional(),
  aircraft: z.string().optional(),
  purpose: z.enum(PURPOSES).optional(),
  power: z.enum(["groundPower", "batteries"]).optional(),
  pace: z.coerce.number().positive().max(1_000).default(1),
  seed: z.coerce.number().int().default(1),
});

const text = { type: "string" } as const;
const { values } = parseArgs({
  options: {
    crew: { type: "boolean" },
    help: { type: "boolean" },
    url: text,
    session: text,
    posts: text,
    aircraft: text,
    purpose: text,
    power: text,
    pace: text,
    seed: text,
  },
});
const read = optionsSchema.safeParse(values);
if (values.help || !read.success) {
  if (!values.help) console.error(z.prettifyError(read.error as z.ZodError), "\n");
  console.log(USAGE);
  process.exit(values.help ? 0 : 2);
}

const { url, session, posts, aircraft, purpose, power, pace, seed } = read.data;
const options: CrewOptions = {
  url,
  pace,
  seed,
  plan: {
    ...(aircraft ? { aircraft } : {}),
    ...(purpose ? { purpose } : {}),
    ...(power ? { powerSource: power } : {}),
  },
  ...(session ? { sessionId: session } : {}),
  ...(posts ? { posts } : {}),
  onLine: (line) => console.log(line),
};
try {
  const crew = await runCrew(options);
  for (const signal of ["SIGINT", "SIGTERM"] as const) {
    process.once(signal, () => {
      crew.stop();
      process.exit(0);
    });
  }
  console.log(`The session is ${await crew.done}.`);
} catch (error) {
  console.error(`chockside demo: ${error instanceof Error ? error.message : error}`);
  process.exit(1);
}
