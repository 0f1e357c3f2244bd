import { randomUUID } from "node:crypto";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { demo } from "../../seed/demo-data.ts";
import { simulatedSamples } from "../../seed/simulatedSamples.ts";
import { PIN_COST } from "../../server/auth/pin.ts";
import { ServiceAccounts } from "../../server/auth/service-accounts.ts";
import { ServerClock } from "../../server/clock.ts";
import { readConfig } from "../../server/config.ts";
import { randomIds } from "../../server/ids.ts";
import { openStores } from "../../server/store/stores.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { crowd } from "../bench/crowd.ts";
import { runLoad } from "../bench/load.ts";
import { panelSocket } from "../bench/panel-socket.ts";
import { prepareServer, ServerProcess } from "../live/server-process.ts";

const AIRCRAFT = "QX-KIV";
/** Four engines with ten channels at 20 a second. */
const PER_SECOND = 4 * 10 * 20;
/** Commands a second of the crew: far more than one that hurries. */
const RATE = 20;
/** Seconds with the feed, then without it, in turn, so that what the machine does otherwise falls on both. */
const SLICE_S = 20;
const WARMING_S = 3;
/** Samples go out together this often, as a logger sends them. Milliseconds. */
const SENT_MS = 250;

const median = (values: readonly number[]) =>
  [...values].sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN;

/**
 * Sends the readings of four engines beside a crew that gives commands, and compares the 99th percentile of a command
 * with and without them. Returns true when every sample was taken and the ratio is at most 1.1.
 */
export async function feedSoak(minutes: number): Promise<boolean> {
  prepareServer();
  const folder = mkdtempSync(join(tmpdir(), "chockside-feeds-"));
  const environment = { CHOCKSIDE_DATA: join(folder, "chockside.db") };
  const tokens = await crowd(environment, POSTS.length);
  const logger = await account(environment);
  const server = await ServerProcess.start(environment.CHOCKSIDE_DATA);
  const session = await secured(server.url, tokens);
  const type = demo.types.find((t) => t.id === demo.aircraft.find((a) => a.id === AIRCRAFT)?.typeId);
  if (!type) throw new Error(`${AIRCRAFT} is no aircraft of the demo`);
  const each = simulatedSamples(type, 0).length;
  const sum = { sent: 0, taken: 0, refused: 0 };

  /** Sends until it is told to stop. */
  const feed = () => {
    let on = true;
    const done = (async () => {
      const hz = PER_SECOND / each;
      let sample = Math.ceil((Date.now() * hz) / 1000);
      for (let next = Date.now(); on; next += SENT_MS) {
        await new Promise((go) => setTimeout(go, Math.max(0, next + SENT_MS - Date.now())));
        const lines: string[] = [];
        for (; (sample * 1000) / hz <= Date.now(); sample += 1)
          for (const one of simulatedSamples(type, Math.round((sample * 1000) / hz)))
            lines.push(JSON.stringify(one));
        const reply = await fetch(`${server.url}/api/feeds/${AIRCRAFT}`, {
          method: "POST",
          headers: { authorization: `Bearer ${logger}`, "content-type": "application/x-ndjson" },
          body: lines.join("\n"),
        });
        const { taken = 0, refused = 0 } = (await reply.json()) as { taken?: number; refused?: number };
        sum.sent += lines.length;
        sum.taken += taken;
        sum.refused += refused;
      }
    })();
    return async () => {
      on = false;
      await done;
    };
  };

  const p99 = { without: [] as number[], with: [] as number[] };
  const p50 = { without: [] as number[], with: [] as number[] };
  let unanswered = 0;
  try {
    for (let slice = 0; slice * SLICE_S < minutes * 60; slice += 1) {
      // The first two warm the server up.
      const kind = slice % 2 ? "with" : "without";
      const stop = kind === "with" ? feed() : async () => {};
      const plan = {
        url: server.url,
        sessions: [session],
        panels: 4,
        tokens,
        transport: "socket.io" as const,
      };
      const run = await runLoad({ ...plan, rate: RATE, seconds: SLICE_S, warming: WARMING_S });
      await stop();
      unanswered += run.unanswered;
      const { toAck } = run;
      console.log(
        `${kind}: p50 ${toAck.p50.toFixed(2)}, p99 ${toAck.p99.toFixed(2)}, most ${toAck.max.toFixed(2)} ms`,
      );
      if (slice < 2) continue;
      p99[kind].push(toAck.p99);
      p50[kind].push(toAck.p50);
    }
  } finally {
    await server.kill();
    rmSync(folder, { recursive: true, force: true });
  }
  const ratio = median(p99.with) / median(p99.without);
  console.log(
    `${each} channels, ${PER_SECOND} samples a second: ${sum.sent} sent, ${sum.taken} taken, ${sum.refused} refused; ${unanswered} commands unanswered`,
  );
  console.log(
    `a command, medians of ${p99.with.length} stretches: p50 ${median(p50.without).toFixed(2)} without, ${median(p50.with).toFixed(2)} with; p99 ${median(p99.without).toFixed(2)} without, ${median(p99.with).toFixed(2)} with: ratio ${ratio.toFixed(2)}`,
  );
  return ratio <= 1.1 && sum.taken === sum.sent && unanswered === 0;
}

/** Makes the logger's account in the database that a server is about to open. */
async function account(environment: Record<string, string>): Promise<string> {
  const { directory, clocks, close } = await openStores(readConfig(environment), Date.now());
  const clock = new ServerClock(clocks, 0);
  const accounts = new ServiceAccounts({ directory, clock, ids: randomIds, pinCost: PIN_COST });
  const by = { id: "console", name: "console", mayHold: ["supervisor" as const] };
  const until = new Date(Date.now() + 7 * 86_400_000).toISOString().slice(0, 10);
  const { token } = await accounts.add(by, {
    ...{ name: "Logger", until, scopes: [{ is: "pushReadings", aircraft: AIRCRAFT }] },
  });
  await close();
  return token;
}

/** Plans a session, takes every post and leaves the brief. The first person holds the cockpit. */
async function secured(url: string, tokens: readonly string[]): Promise<string> {
  const crew = { cockpit: null, fireGuard: null, groundPower: null, supervisor: null };
  const reply = await fetch(`${url}/api/sessions`, {
    method: "POST",
    headers: { "content-type": "application/json", authorization: `Bearer ${tokens[0]}` },
    body: JSON.stringify({
      ...{ commandId: randomUUID(), aircraft: AIRCRAFT, place: "Bench", powerSource: "groundPower" },
      crew,
    }),
  });
  const { id: session = "" } = (await reply.json()) as { id?: string };
  const sockets = tokens.map((token) => panelSocket(url, token));
  const act = async (nth: number, action: object) => {
    const command = { v: 1, id: randomUUID(), session, clientAt: Date.now(), action };
    const answer = await sockets[nth]?.timeout(10_000).emitWithAck("command", command);
    if (answer?.status !== "accepted")
      throw new Error(`${JSON.stringify(action)}: ${JSON.stringify(answer)}`);
  };
  const supervisor = POSTS.indexOf("supervisor");
  for (const [nth, post] of POSTS.entries()) await act(nth, { type: "claimPost", post });
  await act(supervisor, { type: "advance", to: "brief" });
  for (const nth of POSTS.keys()) await act(nth, { type: "confirmBrief" });
  await act(supervisor, { type: "advance", to: "secure" });
  for (const socket of sockets) socket.close();
  return session;
}
