import { execFile } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import { spreadOf } from "../bench/histogram.ts";
import { HOLD, TestPanel } from "../live/panel.ts";
import { prepareServer, ServerProcess } from "../live/server-process.ts";
import type { Target } from "../security/siege.ts";

const ATTACK = fileURLToPath(new URL("siege-attack.ts", import.meta.url));

/** Bounds for a crew's hold under siege, milliseconds. */
const GOAL = { p99: 100, worst: 250 };
/** Time between two holds. Milliseconds. */
const EVERY_MS = 100;

/**
 * Lays siege to the real server for so many seconds, on loopback, beside a crew that holds and releases. Says what a
 * hold took, quiet and under siege, and the memory and disk of the server. Returns true when the goal is met.
 */
export async function siegeSoak(seconds: number): Promise<boolean> {
  prepareServer();
  const folder = mkdtempSync(join(tmpdir(), "chockside-siege-"));
  const data = join(folder, "chockside.db");
  const server = await ServerProcess.start(data, { CHOCKSIDE_LOG: "warn", CHOCKSIDE_TLS: "off" });
  const people = await json(server.url, "/api/demo");
  const enter = async (post: string, device: string, skip = 0): Promise<string> => {
    const able = people.signIns.filter((p: { mayHold: string[] }) => p.mayHold.includes(post));
    const { handle, pin } = able[skip % able.length];
    return (await json(server.url, "/api/sign-in", null, { handle, pin, device: { id: device, name: "T" } }))
      .token;
  };
  const crewToken = await enter("supervisor", "crew");
  const [aircraft] = await json(server.url, "/api/aircraft", crewToken);
  const plan = () =>
    json(server.url, "/api/sessions", crewToken, {
      commandId: crypto.randomUUID(),
      aircraft: aircraft.id,
      place: "North ramp",
      powerSource: "batteries",
      crew: { cockpit: null, fireGuard: null, groundPower: null, supervisor: null },
    });
  const [running, ended] = [await plan(), await plan()];
  const panel = await new TestPanel(server.url, { token: crewToken, proto: PROTOCOL }).settled();
  for (const action of [
    { type: "claimPost", post: "supervisor" },
    { type: "abandon", reason: "weather" },
  ]) {
    const answer = await panel.command(ended.id, action);
    if (answer.status !== "accepted") throw new Error(JSON.stringify(answer));
  }
  await panel.watch(running.id);
  const target: Target = {
    url: server.url,
    guest: await enter("fireGuard", "guest", 1),
    supervisor: await enter("supervisor", "office", 1),
    session: running.id,
    over: ended.id,
    aircraft: aircraft.id,
  };
  const quiet = await holds(panel, running.id, 10);
  let peakMb = 0;
  const watch = setInterval(() => {
    peakMb = Math.max(peakMb, memoryMb(server.pid));
  }, 500);
  const attack = promisify(execFile)(process.execPath, [
    "--import",
    "tsx",
    ATTACK,
    JSON.stringify(target),
    String(seconds),
  ]);
  const under = await holds(panel, running.id, seconds);
  const { stdout } = await attack;
  clearInterval(watch);
  const diskMb = readdirSync(folder).reduce((sum, name) => sum + statSync(join(folder, name)).size, 0) / 1e6;
  const met = under.p99 <= GOAL.p99 && under.max <= GOAL.worst && under.unanswered === 0;
  const told = ({ p50, p99, max, n, unanswered }: Taken) =>
    `p50 ${p50.toFixed(1)}, p99 ${p99.toFixed(1)}, worst ${max.toFixed(1)} ms of ${n} holds, ${unanswered} not recorded`;
  console.log(`quiet: ${told(quiet)}`);
  console.log(`under siege, ${seconds} s: ${told(under)}; goal p99 ${GOAL.p99}, worst ${GOAL.worst} ms`);
  console.log(`memory at most ${peakMb.toFixed(0)} MB, database ${diskMb.toFixed(1)} MB`);
  console.log(stdout.trim());
  panel.close();
  await server.stop("SIGTERM");
  rmSync(folder, { recursive: true, force: true });
  return met;
}

interface Taken {
  p50: number;
  p99: number;
  max: number;
  n: number;
  unanswered: number;
}

/** Holds and releases for so long, and gives what the holds took. */
async function holds(panel: TestPanel, session: string, seconds: number): Promise<Taken> {
  const took: number[] = [];
  let unanswered = 0;
  const end = performance.now() + seconds * 1_000;
  while (performance.now() < end) {
    const began = performance.now();
    const held = await panel.command(session, HOLD);
    took.push(performance.now() - began);
    if (held.status === "accepted")
      await panel.command(session, { type: "send", kind: "release", ref: held.seq, channel: "panel" });
    else if (held.status !== "duplicate") unanswered += 1;
    await new Promise((resolve) => setTimeout(resolve, EVERY_MS));
  }
  const { p50, p99, max } = spreadOf(took);
  return { p50, p99, max, n: took.length, unanswered };
}

/** Resident memory of a process (Linux), megabytes. */
function memoryMb(pid: number): number {
  const kb = /VmRSS:\s+(\d+) kB/.exec(readFileSync(`/proc/${pid}/status`, "utf8"))?.[1];
  return Number(kb ?? 0) / 1_000;
}

async function json(url: string, path: string, token: string | null = null, body?: object) {
  const reply = await fetch(url + path, {
    headers: {
      ...(token === null ? {} : { authorization: `Bearer ${token}` }),
      ...(body ? { "content-type": "application/json" } : {}),
    },
    ...(body ? { method: "POST", body: JSON.stringify(body) } : {}),
  });
  if (!reply.ok) throw new Error(`${path}: ${await reply.text()}`);
  return reply.json();
}
