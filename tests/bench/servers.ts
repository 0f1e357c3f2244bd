import { PostgresServer } from "../servers/postgres-server.ts";
import { RedisServer } from "../servers/redis-server.ts";
import { cpuSeconds, cpuSecondsOf } from "./cpu.ts";
import { crowd } from "./crowd.ts";
import type { Shape } from "./fan-out.ts";
import type { LoadResult } from "./load.ts";
import { planSessions } from "./prepare.ts";
import { drive, type Serving, serve } from "./processes.ts";
import { headings, row } from "./table.ts";

const SECRET = "b3VyIHNlcnZlcnMga25vdyBlYWNoIG90aGVyIGJ5IHRoaXM=";

/** The processor time that one load took, in milliseconds a command. */
interface Cost {
  /** Of the server that takes the commands. */
  first: number;
  /** Of each other server. Panels of its own watch the same sessions. */
  others: number[];
  postgres: number;
  redis: number;
}

interface Measured extends LoadResult {
  cost: Cost;
}

/**
 * Measures from a command on one server to the panels of another, through PostgreSQL with every commit flushed,
 * beside the library's own broadcast over Redis Streams in the same run: the same load on one server, on two and on
 * three, and the processor time that each program takes for it.
 */
export async function benchServers(plan: Shape): Promise<boolean> {
  const [postgres, redis] = await Promise.all([PostgresServer.start(), RedisServer.start()]);
  const rounds: [string, Measured][] = [];
  try {
    const bare = async (name: string) => rounds.push([name, await bareRound(plan, redis.url)]);
    const ours = async (name: string, servers: number) =>
      rounds.push([
        name,
        await ourRound(plan, servers, await postgres.database(`bench_${servers}`), redis.url),
      ]);
    await bare("bare over Redis Streams, before");
    await ours("Chockside, one server", 1);
    await ours("Chockside, two servers", 2);
    await ours("Chockside, three servers", 3);
    await bare("bare over Redis Streams, after");
  } finally {
    await Promise.all([postgres.stop(), redis.stop()]);
  }
  console.log(headings("from a command meant to be sent to:"));
  for (const [name, result] of rounds)
    if (result.across.count > 0) console.log(row(`${name}: across`, result.across));
  for (const [name, result] of rounds) console.log(row(`${name}: acknowledged`, result.toAck));
  for (const [name, { cost }] of rounds)
    console.log(
      `${name}: ms of processor a command: ${figures(cost.first)}; other servers ${cost.others.map(figures).join(", ") || "none"}; PostgreSQL ${figures(cost.postgres)}; Redis ${figures(cost.redis)}`,
    );
  const [before, , two, three, after] = rounds.map(([, result]) => result.across);
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

const figures = (ms: number): string => ms.toFixed(2);

async function bareRound({ sessions, ...plan }: Shape, redis: string): Promise<Measured> {
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
): Promise<Measured> {
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
): Promise<Measured> {
  const [url = "", ...others] = servers.map((server) => server.url);
  const used = () => ({
    servers: servers.map(({ pid }) => cpuSeconds(pid)),
    postgres: cpuSecondsOf("postgres"),
    redis: cpuSecondsOf("redis-server"),
  });
  const before = used();
  const result = await drive({ ...plan, url, others, transport: "socket.io" });
  const after = used();
  for (const server of servers) await server.stop();
  const each = (from: number, to: number) => ((to - from) * 1_000) / result.sent;
  const [first = Number.NaN, ...rest] = after.servers.map((to, i) => each(before.servers[i] ?? to, to));
  return {
    ...result,
    cost: {
      ...{ first, others: rest },
      postgres: each(before.postgres, after.postgres),
      redis: each(before.redis, after.redis),
    },
  };
}
