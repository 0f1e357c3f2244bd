import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Demo } from "../../seed/demo-data.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { crowd, perPanels, tokenOf } from "./crowd.ts";
import type { LoadPlan, LoadResult } from "./load.ts";
import type { Moment } from "./moments.ts";
import { planSession, planSessions } from "./prepare.ts";
import { drive, type Serving, serve } from "./processes.ts";
import { TYPE } from "./recorded.ts";

/** The number of sessions, panels per session and commands per second in all, and the duration (see `LoadPlan`). */
export interface Shape {
  sessions: number;
  panels: number;
  rate: number;
  seconds: number;
  start?: readonly Moment[];
}

/** Sends the same payload to the same number of panels through a server that stores nothing. */
export async function bareRound(
  { sessions: count, ...shape }: Shape,
  transport: LoadPlan["transport"] = "socket.io",
): Promise<LoadResult> {
  const script = transport === "ws" ? "bare-ws" : "bare";
  const server = await serve(["--import", "tsx", `tests/bench/${script}.ts`]);
  const sessions = Array.from({ length: count }, (_, i) => `bare-${i}`);
  const result = await drive({ url: server.url, sessions, ...shape, tokens: ["none"], transport });
  await server.stop();
  return result;
}

/** Starts our server on an empty SQLite file, with this many people and these aircraft. */
async function withPeople<T>(
  people: number,
  aircraft: Demo["aircraft"],
  work: (server: Serving, tokens: string[]) => Promise<T>,
): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), "chockside-bench-"));
  const environment = {
    ...{ PORT: "0", CHOCKSIDE_DATA: join(folder, "bench.db") },
    ...{ CHOCKSIDE_DEVICES: "any", CHOCKSIDE_LOG: "warn" },
  };
  const tokens = await crowd(environment, people, aircraft);
  const server = await serve(["server/dist/main.js"], environment);
  try {
    return await work(server, tokens);
  } finally {
    await server.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Starts our server on an empty SQLite file, with a session for each person of a crowd. */
export function withServer<T>(
  { sessions: count, panels }: Pick<Shape, "sessions" | "panels">,
  work: (server: Serving, sessions: string[], tokens: string[]) => Promise<T>,
): Promise<T> {
  return withPeople(count * perPanels(panels), [], async (server, tokens) =>
    work(server, await planSessions(server.url, tokens.slice(0, count)), tokens),
  );
}

/**
 * Sends the same commands through the product, which decides, records with synchronous FULL, broadcasts and
 * answers.
 */
export function ourRound(shape: Shape): Promise<LoadResult> {
  if (shape.start)
    return withStarts(shape.sessions, (server, sessions, tokens) =>
      drive({ ...shape, url: server.url, sessions, tokens, each: 1, transport: "socket.io" }),
    );
  return withServer(shape, (server, sessions, tokens) =>
    drive({ ...shape, url: server.url, sessions, tokens, transport: "socket.io" }),
  );
}

/** Starts our server with sessions that have an aircraft, a place and four people each, as on a real ramp. */
export function withStarts<T>(
  count: number,
  work: (server: Serving, sessions: string[], tokens: string[]) => Promise<T>,
): Promise<T> {
  const aircraft = Array.from({ length: count }, (_, i) => {
    return { id: `QX-B${i}`, name: `Bench ${i}`, typeId: TYPE };
  });
  return withPeople(count * POSTS.length, aircraft, async (server, tokens) => {
    const sessions: string[] = [];
    for (const [i, { id, name }] of aircraft.entries()) {
      const supervisor = tokenOf(tokens, count, i, POSTS.indexOf("supervisor"), 1);
      sessions.push(await planSession(server.url, supervisor, id, name));
    }
    return work(server, sessions, tokens);
  });
}
