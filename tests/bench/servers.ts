import { PostgresServer } from "../servers/postgres-server.ts";
import { RedisServer } from "../servers/redis-server.ts";
import { crowd } from "./crowd.ts";
import type { Shape } from "./fan-out.ts";
import type { LoadResult } from "./load.ts";
import { planSessions } from "./prepare.ts";
import { drive, type Serving, serve } from "./processes.ts";
import { headings, row } from "./table.ts";

const SECRET = "b3VyIHNlcnZlcnMga25vdyBlYWNoIG90aGVyIGJ5IHRoaXM=";

/**
 * Measures from a command on one server to the panels of another, through PostgreSQL with every commit flushed,
 * beside the library's own broadcast over Redis Streams in the same run, with two servers and with three.
 */
export async function benchServers(plan: Shape): Promise<boolean> {
  const [postgres, redis] = await Promise.all([PostgresServer.start(), RedisServer.start()]);
  const rounds: [string, LoadResult][] = [];
  try {
    const bare = async (name: string) => rounds.push([name, await bareRound(plan, redis.url)]);
    const ours = async (name: string, servers: number) =>
      rounds.push([
        name,
        await ourRound(plan, servers, await postgres.database(`bench_${servers}`), redis.url),
      ]);
    await bare("bare over Redis Streams, before");
    await ours("Chockside, two servers", 2);
    await ours("Chockside, three servers", 3);
    await bare("bare over Redis Streams, after");
  } finally {
    await Promise.all([postgres.stop(), redis.stop()]);
  }
  console.log(headings("from a command meant to be sent to:"));
  for (const [name, result] of rounds) console.log(row(`${name}: across`, result.across));
  for (const [name, result] of rounds) console.log(row(`${name}: acknowledged`, result.toAck));
  const [before, two, three, after] = rounds.map(([, result]) => result.across);
  for (const key of ["p50", "p99"] as const) {
    const baseline = ((before?.[key] ?? 0) + (after?.[key] ?? 0)) / 2;
    const times = (two?.[key] ?? 0) / baseline;
    const third = (three?.[key] ?? 0) / (two?.[key] ?? 1);
    console.log(
      `${key} across, times bare: ${times.toFixed(2)}; three servers, times two: ${third.toFixed(2)}`,
    );
  }
  const whole = rounds.every(
    ([, { toPanels, sent, unanswered }]) => unanswered === 0 && toPanels.count === sent * plan.panels,
  );
  console.log(
    whole ? "every command was accepted and reached every panel" : "NOT EVERY COMMAND REACHED EVERY PANEL",
  );
  return whole;
}

async function bareRound({ sessions, ...plan }: Shape, redis: string): Promise<LoadResult> {
  const script = ["--import", "tsx", "tests/bench/bare-streams.ts"];
  const servers = await Promise.all([1, 2].map(() => serve(script, { REDIS_URL: redis })));
  const names = Array.from({ length: sessions }, (_, i) => `bare-${i}`);
  return measured(servers, { ...plan, sessions: names, tokens: ["none"] });
}

async function ourRound(
  { sessions, ...plan }: Shape,
  count: number,
  database: string,
  redis: string,
): Promise<LoadResult> {
  const environment = {
    ...{ PORT: "0", DATABASE_URL: database, REDIS_URL: redis, CHOCKSIDE_SECRET: SECRET },
    ...{ CHOCKSIDE_DEVICES: "any", CHOCKSIDE_LOG: "warn" },
  };
  const tokens = await crowd(environment, sessions);
  const servers = await Promise.all(
    Array.from({ length: count }, () => serve(["server/dist/main.js"], environment)),
  );
  const planned = await planSessions(servers[0]?.url ?? "", tokens);
  return measured(servers, { ...plan, sessions: planned, tokens });
}

async function measured(
  servers: readonly Serving[],
  plan: Omit<Parameters<typeof drive>[0], "url" | "others" | "transport">,
): Promise<LoadResult> {
  const [url = "", ...others] = servers.map((server) => server.url);
  const result = await drive({ ...plan, url, others, transport: "socket.io" });
  for (const server of servers) await server.stop();
  return result;
}
