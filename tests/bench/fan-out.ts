import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { crowd, perPanels } from "./crowd.ts";
import type { LoadPlan, LoadResult } from "./load.ts";
import { planSessions } from "./prepare.ts";
import { drive, type Serving, serve } from "./processes.ts";

/** The number of sessions, panels per session and commands per second in all, and the duration. */
export interface Shape {
  sessions: number;
  panels: number;
  rate: number;
  seconds: number;
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

/** Starts our server on an empty SQLite file, with a session for each person of a crowd. */
export async function withServer<T>(
  { sessions: count, panels }: Pick<Shape, "sessions" | "panels">,
  work: (server: Serving, sessions: string[], tokens: string[]) => Promise<T>,
): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), "chockside-bench-"));
  const environment = {
    ...{ PORT: "0", CHOCKSIDE_DATA: join(folder, "bench.db") },
    ...{ CHOCKSIDE_DEVICES: "any", CHOCKSIDE_LOG: "warn" },
  };
  const tokens = await crowd(environment, count * perPanels(panels));
  const server = await serve(["server/dist/main.js"], environment);
  try {
    return await work(server, await planSessions(server.url, tokens.slice(0, count)), tokens);
  } finally {
    await server.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

/**
 * Sends the same commands through the product, which decides, records with synchronous FULL, broadcasts and
 * answers.
 */
export function ourRound(shape: Shape): Promise<LoadResult> {
  return withServer(shape, (server, sessions, tokens) =>
    drive({ ...shape, url: server.url, sessions, tokens, transport: "socket.io" }),
  );
}
