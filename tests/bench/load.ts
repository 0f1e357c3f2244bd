import { randomUUID } from "node:crypto";
import { once } from "node:events";
import { performance } from "node:perf_hooks";
import { Worker } from "node:worker_threads";
import { tokenOf } from "./crowd.ts";
import { type Spread, spreadOf } from "./histogram.ts";
import { type Line, openLine } from "./lines.ts";
import type { Moment } from "./moments.ts";
import { type Due, starts, steady } from "./schedule.ts";

/** One run of the driver: sessions, panels, commands and duration. */
export interface LoadPlan {
  url: string;
  /** The panels after the first of each session connect to these in turn; to `url` by default. */
  others?: readonly string[];
  sessions: readonly string[];
  panels: number;
  /** Commands per second over all sessions, from the first panel of each. */
  rate: number;
  seconds: number;
  /** Sends a recorded start in every session instead, begun evenly over `seconds`; each command from its own panel. */
  start?: readonly Moment[];
  /** Seconds at the beginning whose latencies are not counted: code is not compiled yet. Default: none. */
  warming?: number;
  /** The people of the panels (`crowd.ts`). */
  tokens: readonly string[];
  /** Panels that one person holds. */
  each?: number;
  transport: "socket.io" | "ws";
}

export interface LoadResult {
  /** From the intended moment of a command to its event at each panel. */
  toPanels: Spread;
  /** From the same moment to the acknowledgement. */
  toAck: Spread;
  /** To panels on servers other than the one that received the command. */
  across: Spread;
  /** The commands that were to be accepted. */
  sent: number;
  /** The commands whose verdict was another than expected, or which were not answered. */
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
  /** By session and panel. */
  const lines: Line[][] = [];
  for (const [i, session] of plan.sessions.entries()) {
    const own: Line[] = [];
    lines.push(own);
    for (let panel = 0; panel < plan.panels; panel += 1) {
      const { others = [] } = plan;
      const url = panel === 0 ? plan.url : (others[(panel - 1) % others.length] ?? plan.url);
      const token = tokenOf(plan.tokens, plan.sessions.length, i, panel, plan.each);
      const line = await openLine(plan.transport, url, token);
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
      own.push(line);
    }
  }

  const dues = plan.start
    ? starts(plan.start, plan.sessions.length, plan.seconds * 1_000)
    : steady(plan.sessions.length, plan.rate, plan.seconds);
  const sent = dues.filter(({ accepted }) => accepted).length;
  const begin = performance.now() + LEAD_MS;
  counted = begin + (plan.warming ?? 0) * 1_000;
  const answers: Promise<void>[] = [];
  let unanswered = 0;
  const send = (i: number) => {
    const { at, session, panel, action, accepted } = dues[i] as Due;
    const due = begin + at;
    const id = randomUUID();
    // A refused command gives no event.
    if (accepted) meant.set(id, due);
    const command = { v: 1, id, session: plan.sessions[session], clientAt: Date.now(), action };
    const answered = lines[session]?.[panel]?.command(command).then((taken) => {
      if (taken !== accepted) unanswered += 1;
      else if (due >= counted) toAck.push(performance.now() - due);
    });
    if (answered) answers.push(answered);
  };
  const metronome = new Worker(new URL("./metronome.mjs", import.meta.url), {
    workerData: { begin: performance.timeOrigin + begin, dues: Float64Array.from(dues, ({ at }) => at) },
  });
  metronome.on("message", send);
  await once(metronome, "exit");
  await Promise.all(answers);
  // The last events may still be on their way, because an acknowledgement can overtake them.
  const patience = performance.now() + PATIENCE_MS;
  while (seen < sent * plan.panels && performance.now() < patience) {
    await new Promise((r) => setTimeout(r, 20));
  }
  for (const line of lines.flat()) line.close();
  return {
    toPanels: spreadOf(toPanels),
    toAck: spreadOf(toAck),
    across: spreadOf(across),
    sent,
    unanswered,
  };
}
