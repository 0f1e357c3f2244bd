import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { Acked } from "../live/kill-load.ts";
import { CREW, onFile, planOn, signInOn } from "../live/kill-run.ts";
import { findings } from "../live/kill-verify.ts";
import { ServerProcess } from "../live/server-process.ts";
import { Chance } from "../sim/chance.ts";
import { historyFaults } from "./history.ts";
import { FaultPanel } from "./panel.ts";
import { CLEAR, FaultProxy } from "./proxy.ts";

/** Disturbs one link; resolves at the end of its time. */
export type Suffering = (proxy: FaultProxy, until: number, chance: Chance) => Promise<void>;

const sleep = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms));
const left = (until: number) => until - performance.now();

export const SUFFERINGS = {
  async slow(proxy, until) {
    proxy.conditions = { delayMs: [20, 120], loss: 0, stallMs: 0 };
    await sleep(left(until));
  },
  async lossy(proxy, until) {
    proxy.conditions = { delayMs: [1, 10], loss: 0.08, stallMs: 600 };
    await sleep(left(until));
  },
  async torn(proxy, until, chance) {
    for (let n = 0; left(until) > 0; n += 1) {
      await sleep(300 + chance.below(1_000));
      if (n % 3 === 2) proxy.halfOpen();
      else proxy.reset();
    }
  },
  async dark(proxy, until) {
    while (left(until) > 0) {
      await sleep(1_000);
      proxy.blackout(true);
      await sleep(5_000);
      proxy.blackout(false);
    }
  },
  async longDark(proxy, until) {
    while (left(until) > 0) {
      await sleep(5_000);
      proxy.blackout(true);
      await sleep(60_000);
      proxy.blackout(false);
    }
  },
} as const satisfies Record<string, Suffering>;

export interface FaultRun {
  faults: string[];
  answered: number;
  events: number;
  counts: FaultProxy["counts"][];
}

/**
 * Runs the real server on `file` with four people whose links are each disturbed differently for `ms`, while they
 * give and release holds. Then the links heal, everybody catches up, and the record is compared with everything
 * that each panel saw.
 */
export async function faultRun(
  file: string,
  {
    seed,
    ms,
    sufferings,
    kill = false,
  }: { seed: number; ms: number; sufferings: readonly Suffering[]; kill?: boolean },
): Promise<FaultRun> {
  let server = await ServerProcess.start(file);
  const people = Object.values(CREW);
  const tokens = await Promise.all(people.map(([handle, pin]) => signInOn(server.url, handle, pin)));
  const session = await planOn(server.url, tokens[3]);
  const portOf = () => Number(new URL(server.url).port);
  const proxies: FaultProxy[] = [];
  let now = 0;
  const panels: FaultPanel[] = [];
  for (const [i] of sufferings.entries()) {
    const proxy = await FaultProxy.to(portOf(), new Chance(seed * 100 + i));
    proxies.push(proxy);
    const token = tokens[i % tokens.length] ?? "";
    const client = `panel ${i}`;
    panels.push(new FaultPanel({ url: proxy.url, token, session, client, moment: () => (now += 1) }));
  }
  const until = performance.now() + ms;
  const loads = panels.map((panel, i) => load(panel, until, new Chance(seed * 1_000 + i), i));
  const suffered = proxies.map((p, i) => sufferings[i]?.(p, until, new Chance(seed * 10_000 + i)));
  while (kill && left(until) > 20_000) {
    await sleep(15_000);
    await server.kill();
    server = await ServerProcess.start(file);
    for (const proxy of proxies) proxy.upstream = portOf();
  }
  await Promise.all([...suffered, ...loads]);
  for (const proxy of proxies) {
    proxy.conditions = CLEAR;
    proxy.blackout(false);
  }
  const faults = await settled(panels);
  for (const panel of panels) panel.close();
  await Promise.all(proxies.map((p) => p.close()));
  const log = await logOf(server.url, session, tokens[3] ?? "");
  await server.stop("SIGTERM");

  const histories = panels.map((p) => p.history);
  const acked = new Map<string, Acked>();
  for (const { sent } of histories)
    for (const { id, answers } of sent)
      if (answers[0]) acked.set(id, { session, seq: answers[0].seq, action: { type: "present" } });
  faults.push(...panels.flatMap((p) => p.faults), ...historyFaults(log, histories));
  faults.push(...findings(await onFile(file).record(), acked).faults);
  return { faults, answered: acked.size, events: log.length, counts: proxies.map((p) => p.counts) };
}

/** Gives holds and releases its own. */
async function load(panel: FaultPanel, until: number, chance: Chance, i: number): Promise<void> {
  const me = Object.values(CREW)[i % 4]?.[0];
  while (left(until) > 0) {
    await sleep(60 + chance.below(200));
    // A person does not keep pressing while nothing is answered.
    if (panel.waiting > 10) continue;
    const mine = panel.state?.holds.find((h) => h.person === me);
    if (mine && chance.is(0.6)) panel.act({ type: "send", kind: "release", ref: mine.id, channel: "panel" });
    else panel.act({ type: "send", kind: "hold", channel: "panel" });
  }
}

/** Waits until everything is answered and every panel shows the same state. Returns the faults. */
async function settled(panels: readonly FaultPanel[]): Promise<string[]> {
  const late = performance.now() + 120_000;
  const same = () =>
    new Set(panels.map((p) => JSON.stringify(p.state))).size === 1 && panels[0]?.state !== null;
  while (performance.now() < late) {
    if (panels.every((p) => p.waiting === 0)) {
      await sleep(300);
      if (same()) return [];
    }
    await sleep(50);
  }
  return panels.flatMap((p, i) => [
    ...(p.waiting === 0 ? [] : [`panel ${i} waits for answers still`]),
    ...(p.state?.seq === panels[0]?.state?.seq
      ? []
      : [`panel ${i} is at ${p.state?.seq}, not ${panels[0]?.state?.seq}`]),
  ]);
}

/** Returns the whole record as the server gives it, with names in place of pseudonyms. */
async function logOf(url: string, session: string, token: string): Promise<SessionEvent[]> {
  const log: SessionEvent[] = [];
  for (;;) {
    const from = `${url}/api/sessions/${session}/events?limit=1000&since=${log.at(-1)?.seq ?? 0}`;
    const reply = await fetch(from, { headers: { authorization: `Bearer ${token}` } });
    const page = (await reply.json()) as { head: number; events: SessionEvent[] };
    log.push(...page.events);
    if (page.events.length === 0 || log.length >= page.head) return log;
  }
}
