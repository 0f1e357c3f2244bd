import { randomUUID } from "node:crypto";
import { once } from "node:events";
import { performance } from "node:perf_hooks";
import { Worker } from "node:worker_threads";
import { tokenOf } from "./crowd.ts";
import { type Spread, spreadOf } from "./histogram.ts";
import { type Line, openLine } from "./lines.ts";

/** One run of the driver: sessions, panels, commands and duration. */
export interface LoadPlan {
  url: string;
  /** The panels after the first of each session connect to these in turn; to `url` by default. */
  others?: readonly string[];
  /** One for each session, whose first panel sends. */
  sessions: readonly string[];
  panels: number;
  /** Commands per second over all sessions. */
  rate: number;
  seconds: number;
  /** Seconds at the beginning whose latencies are not counted: code is not compiled yet. Default: none. */
  warming?: number;
  /** The people of the panels (`crowd.ts`). */
  tokens: readonly string[];
  transport: "socket.io" | "ws";
}

export interface LoadResult {
  /** From the intended moment of a command to its event at each panel. */
  toPanels: Spread;
  /** From the same moment to the acknowledgement. */
  toAck: Spread;
  /** To panels on servers other than the one that received the command. */
  across: Spread;
  sent: number;
  unanswered: number;
}

const PATIENCE_MS = 5_000;
/** Time for the metronome to start. */
const LEAD_MS = 1_000;

/**
 * Sends commands at their intended times, whatever happened to earlier ones, and counts latency from the intended
 * moment. A driver that waits for a stalled server would hide the stall.
 */
export async function runLoad(plan: LoadPlan): Promise<LoadResult> {
  const meant = new Map<string, number>();
  const toPanels: number[] = [];
  const toAck: number[] = [];
  const across: number[] = [];
  /** Events at panels, those of the warming too. */
  let seen = 0;
  let counted = Number.NEGATIVE_INFINITY;
  const senders: Line[] = [];
  const all: Line[] = [];
  for (const [i, session] of plan.sessions.entries()) {
    for (let panel = 0; panel < plan.panels; panel += 1) {
      const { others = [] } = plan;
      const url = panel === 0 ? plan.url : (others[(panel - 1) % others.length] ?? plan.url);
      const line = await openLine(plan.transport, url, tokenOf(plan.tokens, plan.sessions.length, i, panel));
      line.onEvents((commands) => {
        const now = performance.now();
        for (const command of commands) {
          const at = command === null ? undefined : meant.get(command);
          if (at === undefined) continue;
          seen += 1;
          if (at < counted) continue;
          toPanels.push(now - at);
          if (url !== plan.url) across.push(now - at);
        }
      });
      await line.watch(session);
      if (panel === 0) senders.push(line);
      all.push(line);
    }
  }

  const count = Math.round(plan.rate * plan.seconds);
  const gapMs = 1_000 / plan.rate;
  const begin = performance.now() + LEAD_MS;
  counted = begin + (plan.warming ?? 0) * 1_000;
  const answers: Promise<void>[] = [];
  let unanswered = 0;
  const send = (i: number) => {
    const due = begin + i * gapMs;
    const session = i % plan.sessions.length;
    const id = randomUUID();
    meant.set(id, due);
    const command = {
      v: 1,
      id,
      session: plan.sessions[session],
      clientAt: Date.now(),
      action: { type: "send", kind: "negative", channel: "panel", note: "load" },
    };
    const answered = senders[session]?.command(command).then((accepted) => {
      if (!accepted) unanswered += 1;
      else if (due >= counted) toAck.push(performance.now() - due);
    });
    if (answered) answers.push(answered);
  };
  const metronome = new Worker(new URL("./metronome.mjs", import.meta.url), {
    workerData: { begin: performance.timeOrigin + begin, gapMs, count },
  });
  metronome.on("message", send);
  await once(metronome, "exit");
  await Promise.all(answers);
  // The last events may still be on their way, because an acknowledgement can overtake them.
  const patience = performance.now() + PATIENCE_MS;
  while (seen < count * plan.panels && performance.now() < patience) {
    await new Promise((r) => setTimeout(r, 20));
  }
  for (const line of all) line.close();
  return {
    toPanels: spreadOf(toPanels),
    toAck: spreadOf(toAck),
    across: spreadOf(across),
    sent: count,
    unanswered,
  };
}
