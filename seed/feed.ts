import { setTimeout as pause } from "node:timers/promises";
import { parseArgs } from "node:util";
import { z } from "zod";
import { demo } from "./demo-data.ts";
import { RATE_HZ, simulatedSamples } from "./simulatedSamples.ts";

const USAGE = `A simulated logger: sends readings of one of the demo's aircraft to a running server.

npm run feed -- --simulate --token TOKEN [options]

  --token TOKEN     of a service account that may send readings of the aircraft
                    (npm run house -- accounts add "Logger" <last day> pushReadings=QX-KIV)
  --url URL         the server (http://localhost:4380)
  --aircraft ID     one of the demo's (QX-KIV)
  --seconds N       how long (until it is stopped)`;

const optionsSchema = z.object({
  simulate: z.literal(true, "say --simulate: nothing else can be sent from here"),
  token: z.string("give the token of a service account").min(1),
  url: z.url().default("http://localhost:4380"),
  aircraft: z.string().default("QX-KIV"),
  seconds: z.coerce.number().positive().optional(),
});

/** Samples are sent together this often. Milliseconds. */
const SENT_MS = 250;

const text = { type: "string" } as const;
const { values } = parseArgs({
  options: {
    ...{ simulate: { type: "boolean" }, help: { type: "boolean" } },
    ...{ token: text, url: text, aircraft: text, seconds: text },
  },
});
const read = optionsSchema.safeParse(values);
if (values.help || !read.success) {
  if (!values.help) console.error(z.prettifyError(read.error as z.ZodError), "\n");
  console.log(USAGE);
  process.exit(values.help ? 0 : 2);
}

const { token, url, aircraft, seconds } = read.data;
const typeId = demo.aircraft.find((a) => a.id === aircraft)?.typeId;
const type = demo.types.find((t) => t.id === typeId);
if (!type) {
  console.error(`${aircraft} is no aircraft of the demo: ${demo.aircraft.map((a) => a.id).join(", ")}`);
  process.exit(2);
}

const end = seconds === undefined ? Number.POSITIVE_INFINITY : Date.now() + seconds * 1_000;
let said = "";
for (let next = Date.now(); next < end; next += SENT_MS) {
  await pause(Math.max(0, next + SENT_MS - Date.now()));
  const moments = Array.from({ length: (SENT_MS * RATE_HZ) / 1_000 }, (_, n) => next + (n * 1_000) / RATE_HZ);
  const samples = moments.flatMap((time) => simulatedSamples(type, time));
  const reply = await fetch(`${url}/api/feeds/${encodeURIComponent(aircraft)}`, {
    method: "POST",
    headers: { authorization: `Bearer ${token}`, "content-type": "application/x-ndjson" },
    body: samples.map((sample) => JSON.stringify(sample)).join("\n"),
  });
  const { session, refused, faults, detail } = (await reply.json()) as {
    session?: string | null;
    refused?: number;
    faults?: { fault: string }[];
    detail?: string;
  };
  const now =
    detail ??
    (session
      ? `session ${session}, ${refused} refused ${faults?.[0]?.fault ?? ""}`
      : "no session is under way");
  if (now !== said) console.log(now);
  said = now;
  if (reply.status === 401 || reply.status === 403) process.exit(1);
}
