import { connect } from "node:net";
import type { FastifyInstance } from "fastify";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import { signIn } from "../http/test-server.ts";
import { TestPanel } from "../live/panel.ts";
import type { Chance } from "../sim/chance.ts";

export interface FuzzOptions {
  frames: number;
  requests: number;
  chance: Chance;
  /** Lets time pass on the server, so that messages are not refused only for their number. */
  pause(): Promise<void>;
}

export interface FuzzRun {
  frames: number;
  requests: number;
  /** Sockets that the server cut because of what they sent. */
  cut: number;
  /** Number of answers by status. */
  statuses: Record<number, number>;
  /** Answers that must never come, with what was sent. */
  faults: string[];
}

/** Frames sent on one socket before its answers are awaited. */
const BATCH = 40;

const WORDS = [
  "",
  "hold",
  "send",
  "__proto__",
  "constructor",
  "../../etc/passwd",
  "\u0000",
  "\ud800",
  "<b>",
  "'--",
  "%00",
];
const EVENTS = ["command", "watch", "unwatch", "time", "events", "disconnect", "connect", "error", ""];
const PATHS = [
  "/",
  "/api/me",
  "/api/sessions",
  "/api/sessions/x/events",
  "/api/types/x/1",
  "/api/join/AAAAAA",
  "/api/sign-in",
  "/api/devices",
  "/api/nonce",
  "/docs/json",
  "/health/ready",
  "/assets/x",
  "/live/",
  "/%2e%2e/%2e%2e/etc/passwd",
  "//evil.example/%2f..",
  "/api/sessions/%00",
  "/api/sessions/%ff",
];
const METHODS = ["GET", "POST", "PUT", "DELETE", "PATCH", "OPTIONS", "HEAD"] as const;

/** Returns any JSON, sometimes deep, sometimes odd. */
function anything(chance: Chance, depth = 0): unknown {
  switch (chance.below(depth > 6 ? 5 : 8)) {
    case 0:
      return null;
    case 1:
      return chance.is(0.5);
    case 2:
      return [0, -1, 1.5, 1e308, -0, 2 ** 53, Number.MIN_VALUE][chance.below(7)];
    case 3:
      return WORDS[chance.below(WORDS.length)];
    case 4:
      return "x".repeat(chance.below(300));
    case 5:
      return Array.from({ length: chance.below(5) }, () => anything(chance, depth + 1));
    default:
      return Object.fromEntries(
        Array.from({ length: chance.below(5) }, () => [
          WORDS[chance.below(WORDS.length)] ?? "",
          anything(chance, depth + 1),
        ]),
      );
  }
}

/** Returns a valid command with one spoiled part, because that gets furthest into the server. */
function nearly(chance: Chance, session: string): unknown {
  const command: Record<string, unknown> = {
    v: 1,
    id: `00000000-0000-4000-8000-${String(chance.below(1e9)).padStart(12, "0")}`,
    session,
    clientAt: 1,
    action: { type: "send", kind: "release", ref: chance.below(50), channel: "panel" },
  };
  const keys = Object.keys(command);
  const key = keys[chance.below(keys.length)] ?? "v";
  if (key === "action" && chance.is(0.7))
    (command.action as Record<string, unknown>)[
      ["type", "kind", "ref", "channel", "note", "engine"][chance.below(6)] ?? ""
    ] = anything(chance);
  else command[key] = anything(chance);
  return command;
}

/** Returns a frame as text: mostly whole packets with strange content, now and then no packet at all. */
function frame(chance: Chance, session: string, ack: number): string {
  const kind = chance.below(1_000);
  if (kind === 0)
    return String.fromCharCode(...Array.from({ length: chance.below(40) }, () => 32 + chance.below(95)));
  if (kind === 1) return `4${chance.below(10)}${JSON.stringify(anything(chance))}`;
  if (kind === 2) return `42${"[".repeat(chance.below(3_000))}`;
  const event = EVENTS[chance.below(EVENTS.length)];
  const body = chance.is(0.6) ? nearly(chance, session) : anything(chance);
  return `42${chance.is(0.9) ? ack : ""}${JSON.stringify([event, body])}`;
}

/**
 * Sends `count` malformed frames and requests to a listening server; between them a well-behaved panel must be
 * answered.
 */
export async function fuzz(
  app: FastifyInstance,
  url: string,
  session: string,
  { frames, requests, chance, pause }: FuzzOptions,
): Promise<FuzzRun> {
  const run: FuzzRun = { frames: 0, requests: 0, cut: 0, statuses: {}, faults: [] };
  const token = await signIn(app, "ada");
  const open = () => new TestPanel(url, { token, proto: PROTOCOL }).settled();
  let panel = await open();
  while (run.frames < frames) {
    for (let i = 0; i < BATCH && run.frames < frames; i += 1) {
      panel.socket.io.engine.write(frame(chance, session, run.frames));
      run.frames += 1;
    }
    await Promise.race([panel.exchange(), panel.cut()]);
    await pause();
    if (panel.socket.connected) continue;
    run.cut += 1;
    panel = await open();
  }
  panel.close();
  while (run.requests < requests) {
    run.requests += 1;
    if (chance.is(0.02)) await rawRequest(url, chance);
    else await oneRequest(app, token, chance, run);
  }
  return run;
}

async function oneRequest(app: FastifyInstance, token: string, chance: Chance, run: FuzzRun): Promise<void> {
  const method = METHODS[chance.below(METHODS.length)] ?? "GET";
  const query = chance.is(0.3) ? `?since=${encodeURIComponent(String(WORDS[chance.below(6)]))}` : "";
  const url = `${PATHS[chance.below(PATHS.length)]}${query}`;
  const headers: Record<string, string> = {
    ...(chance.is(0.7) ? { authorization: `Bearer ${token}` } : {}),
    ...(chance.is(0.3)
      ? { "content-type": ["application/json", "text/html", "x"][chance.below(3)] ?? "" }
      : {}),
    ...(chance.is(0.1) ? { dpop: "a.b.c" } : {}),
    ...(chance.is(0.1) ? { "if-match": '"1"' } : {}),
    ...(chance.is(0.1) ? { "content-length": "-1" } : {}),
  };
  const payload = chance.is(0.5) ? JSON.stringify(anything(chance)).slice(0, chance.below(400)) : undefined;
  const sent = method !== "GET" && method !== "HEAD" && payload !== undefined ? { payload } : {};
  const reply = await app.inject({ method, url, headers, ...sent });
  run.statuses[reply.statusCode] = (run.statuses[reply.statusCode] ?? 0) + 1;
  if (reply.statusCode >= 500) run.faults.push(`${reply.statusCode} to ${method} ${url} ${payload ?? ""}`);
}

/** Sends bytes that are not HTTP. The connection may be answered or cut, and ends. */
function rawRequest(url: string, chance: Chance): Promise<void> {
  const socket = connect(Number(new URL(url).port), "127.0.0.1");
  const bytes = Buffer.from(Array.from({ length: 1 + chance.below(200) }, () => chance.below(256)));
  socket.on("error", () => {}).resume();
  socket.end(
    chance.is(0.5)
      ? Buffer.concat([Buffer.from("GET / HTTP/1.1\r\n"), bytes, Buffer.from("\r\n\r\n")])
      : bytes,
  );
  return new Promise((resolve) => socket.on("close", () => resolve()));
}
