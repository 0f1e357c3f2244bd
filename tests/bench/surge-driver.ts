import { randomUUID } from "node:crypto";
import { createInterface } from "node:readline";
import type { Socket } from "socket.io-client";
import { RETRY } from "../../web/net/retry.ts";
import { tokenOf } from "./crowd.ts";
import { type Spread, spreadOf } from "./histogram.ts";
import { panelSocket } from "./panel-socket.ts";

/** One crowd: every panel of every session, each with a person of its own. */
export interface SurgePlan {
  url: string;
  sessions: readonly string[];
  panels: number;
  tokens: readonly string[];
  /** Milliseconds over which they come, and over which they press hold. */
  withinMs: number;
}

/** The milliseconds that each panel of the crowd took, and how many got no answer. */
export interface Surged {
  took: Spread;
  lost: number;
}

const ANSWER_MS = 30_000;

/**
 * The crowd in its own process, so that a kill makes all vanish at once. The first line of standard input is the plan;
 * "come" and "hold" are the next. Each is answered by a line of JSON.
 */
const lines = createInterface({ input: process.stdin })[Symbol.asyncIterator]();
const plan = JSON.parse(String((await lines.next()).value)) as SurgePlan;
const count = plan.sessions.length * plan.panels;
const sockets: Socket[] = [];

const sessionOf = (n: number): number => n % plan.sessions.length;

/** Does the same for every panel, evenly over the time of the plan. */
async function all(act: (n: number) => Promise<unknown>): Promise<Surged> {
  const took: number[] = [];
  const each = Array.from({ length: count }, async (_, n) => {
    await new Promise((r) => setTimeout(r, (plan.withinMs * n) / count));
    const began = performance.now();
    await act(n).then(
      () => took.push(performance.now() - began),
      () => {},
    );
  });
  await Promise.all(each);
  return { took: spreadOf(took), lost: count - took.length };
}

async function come(n: number): Promise<void> {
  const i = sessionOf(n);
  const panel = Math.floor(n / plan.sessions.length);
  const token = tokenOf(plan.tokens, plan.sessions.length, i, panel, 1);
  // Each tablet has an address of its own, because a server takes a bounded number of strangers of one address at once.
  // The rest try again, as the panels do.
  const own = { localAddress: `127.1.${n >> 8}.${n & 255}` };
  const socket = panelSocket(plan.url, token, { ...RETRY, ...own });
  sockets[n] = socket;
  await new Promise<void>((done) => socket.once("connect", done));
  await socket.timeout(ANSWER_MS).emitWithAck("watch", { session: plan.sessions[i], since: 0 });
}

async function hold(n: number): Promise<void> {
  const action = { type: "send", kind: "hold", channel: "panel" };
  const session = plan.sessions[sessionOf(n)];
  const command = { v: 1, id: randomUUID(), session, clientAt: Date.now(), action };
  const answer = await sockets[n]?.timeout(ANSWER_MS).emitWithAck("command", command);
  if (answer?.status !== "accepted") throw new Error(JSON.stringify(answer));
}

for await (const line of lines) console.log(JSON.stringify(await all(line === "come" ? come : hold)));
