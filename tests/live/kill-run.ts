import { randomUUID } from "node:crypto";
import Database from "better-sqlite3";
import type { SessionRow, StoredEvent } from "../../server/store/events.ts";
import { PostgresEventStore } from "../../server/store/postgres/events.ts";
import { chance } from "../../shared/partners/chance.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import { type Acked, CrewLane, HoldLane, type Lane } from "./kill-load.ts";
import { findings, type KillFindings, type Stored } from "./kill-verify.ts";
import { TestPanel } from "./panel.ts";
import { ServerProcess } from "./server-process.ts";

/** Demo people, one for each post. */
export const CREW: Readonly<Record<Post, [handle: string, pin: string]>> = {
  cockpit: ["austol", "348209"],
  fireGuard: ["cador", "157492"],
  groundPower: ["lowen", "603781"],
  supervisor: ["merryn", "925364"],
};

/** Most answers that a server gives before it is killed. */
const MOST_ACKS = 40;

export interface KillReport extends KillFindings {
  kills: number;
  acked: number;
}

/** The database of a killed server, and a way to read it afterwards without a server. */
export interface KillGround {
  start(): Promise<ServerProcess>;
  record(): Promise<Stored[]>;
}

/** A SQLite file. */
export function onFile(file: string): KillGround {
  return {
    start: () => ServerProcess.start(file),
    async record() {
      const db = new Database(file, { readonly: true });
      const events = db.prepare(`SELECT * FROM "Event" WHERE "session" = ? ORDER BY "seq"`);
      const rows = db.prepare(`SELECT * FROM "Session"`).all() as SessionRow[];
      const stored = rows.map((row) => ({ row, events: events.all(row.id) as StoredEvent[] }));
      db.close();
      return stored;
    },
  };
}

/** A PostgreSQL database. */
export function onPostgres(url: string): KillGround {
  return {
    start: () => ServerProcess.start("", { DATABASE_URL: url }),
    async record() {
      const store = new PostgresEventStore({ url });
      const stored: Stored[] = [];
      for (const row of await store.sessions(1_000))
        stored.push({ row, events: await store.read(row.id, 0, row.headSeq) });
      await store.close();
      return stored;
    },
  };
}

/**
 * Starts the real server on its database, loads it and kills it, again and again. Each kill comes after a number of
 * answers that the seed decides, while commands are under way. Commands without an answer are sent again to the next
 * server. At the end the server is stopped in order, and the log is compared with every answer.
 */
export async function killRun(ground: KillGround, seed: number, kills: number): Promise<KillReport> {
  let server = await ground.start();
  const tokens = await Promise.all(POSTS.map((post) => signInOn(server.url, ...CREW[post])));
  // Each its own aircraft: a hold of one session stands in every other of the same aircraft, and nothing is cleared.
  const held = await planOn(server.url, tokens[3], "QX-KES");
  const started = await planOn(server.url, tokens[3], "QX-KIV");
  const lanes: { token: string; lane: Lane }[] = POSTS.flatMap((post, n) => [
    { token: tokens[n] as string, lane: new HoldLane(held) },
    { token: tokens[n] as string, lane: new CrewLane(started, post) },
  ]);

  for (let kill = 0; kill < kills; kill += 1) {
    const limit = Math.floor(chance(seed, kill, "acks") * (MOST_ACKS + 1));
    await loadUntil(server.url, lanes, limit, () => server.kill());
    server = await ground.start();
  }
  for (const { token, lane } of lanes) {
    const panel = await connect(server.url, token);
    await lane.flush(panel);
    if (!lane.idle) throw new Error("a command stayed without an answer");
    panel.close();
  }
  const code = await server.stop("SIGTERM");
  const acked = new Map<string, Acked>(lanes.flatMap(({ lane }) => [...lane.acked]));
  const report = findings(await ground.record(), acked);
  if (code !== 0) report.faults.push(`stopped in order it ended with ${code}`);
  return { ...report, kills, acked: acked.size };
}

/** Runs every lane until `limit` answers have come, then calls `kill` in the same turn of the event loop. */
async function loadUntil(
  url: string,
  lanes: readonly { token: string; lane: Lane }[],
  limit: number,
  kill: () => Promise<void>,
): Promise<void> {
  let answers = 0;
  let killed: Promise<void> | null = null;
  const count = () => {
    if (answers >= limit) killed ??= kill();
    answers += 1;
  };
  const running = lanes.map(async ({ token, lane }) => {
    const panel = await connect(url, token);
    if (panel.socket.connected) await panel.watch(lane.session).catch(() => {});
    if (limit === 0) count();
    await lane.run(panel, count);
    panel.close();
  });
  await Promise.all(running);
  await killed;
}

export async function connect(url: string, token: string): Promise<TestPanel> {
  return new TestPanel(url, { token, proto: PROTOCOL }).settled();
}

async function post<T>(url: string, body: unknown, token?: string): Promise<T> {
  const reply = await fetch(url, {
    method: "POST",
    headers: {
      "content-type": "application/json",
      ...(token === undefined ? {} : { authorization: `Bearer ${token}` }),
    },
    body: JSON.stringify(body),
  });
  if (!reply.ok) throw new Error(await reply.text());
  return (await reply.json()) as T;
}

export async function signInOn(url: string, handle: string, pin: string): Promise<string> {
  const device = { id: `${handle}-tablet`, name: "Tablet" };
  return (await post<{ token: string }>(`${url}/api/sign-in`, { handle, pin, device })).token;
}

export async function planOn(url: string, token = "", aircraft = "QX-KIV"): Promise<string> {
  const crew = { cockpit: null, fireGuard: null, groundPower: null, supervisor: null };
  const body = {
    commandId: randomUUID(),
    aircraft,
    place: "North ramp",
    powerSource: "groundPower",
    crew,
  };
  return (await post<{ id: string }>(`${url}/api/sessions`, body, token)).id;
}
