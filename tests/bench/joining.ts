import { randomUUID } from "node:crypto";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Socket } from "socket.io-client";
import { RETRY } from "../../web/net/retry.ts";
import { FaultProxy } from "../faults/proxy.ts";
import { Chance } from "../sim/chance.ts";
import { crowd } from "./crowd.ts";
import { spreadOf } from "./histogram.ts";
import { panelSocket } from "./panel-socket.ts";
import { serve } from "./processes.ts";
import { longSession, store } from "./record.ts";
import { headings, row } from "./table.ts";

const EVENTS = 2_000;
const JOINS = 300;
const PANELS = 10;
const OUTAGES = 5;
const OUTAGE_MS = 5_000;
const BACKLOG = 200;

/** Measures a panel that joins a long session late, and panels that return after their link was lost. */
export async function benchJoining(): Promise<boolean> {
  const folder = mkdtempSync(join(tmpdir(), "chockside-bench-"));
  const environment = {
    ...{ PORT: "0", CHOCKSIDE_DATA: join(folder, "bench.db") },
    ...{ CHOCKSIDE_DEVICES: "any", CHOCKSIDE_LOG: "warn" },
  };
  const tokens = await crowd(environment, 2 * PANELS);
  const [session = ""] = await store(environment.CHOCKSIDE_DATA, longSession(EVENTS), 1, "long");
  const server = await serve(["server/dist/main.js"], environment);
  try {
    const { late, size } = await joins(server.url, tokens, session);
    const back = await outages(server.url, tokens, session);
    console.log(headings());
    console.log(
      row(`late joiner, ${EVENTS} events, ${Math.round(size / 1_024)} kB of state`, spreadOf(late)),
    );
    console.log(row(`consistent after ${OUTAGE_MS / 1_000} s outage, ${BACKLOG} behind`, spreadOf(back)));
    return back.length === OUTAGES * PANELS;
  } finally {
    await server.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function joins(url: string, tokens: string[], session: string) {
  const late: number[] = [];
  let size = 0;
  for (let n = 0; n < JOINS; n += 1) {
    const socket = panelSocket(url, tokens[n % tokens.length] ?? "");
    await new Promise<void>((done) => socket.once("connect", done));
    const began = performance.now();
    const sync = await socket.timeout(10_000).emitWithAck("watch", { session, since: 0 });
    late.push(performance.now() - began);
    size = JSON.stringify(sync).length;
    socket.close();
  }
  return { late, size };
}

/** Runs panels with the product's own waits behind a link that is cut and refuses connections for a while. */
async function outages(url: string, tokens: string[], session: string): Promise<number[]> {
  const back: number[] = [];
  const proxy = await FaultProxy.to(Number(new URL(url).port), new Chance(1));
  const busy = tokens.slice(0, PANELS).map((token) => panelSocket(url, token));
  const panels = tokens.slice(PANELS).map((token) => {
    const socket = panelSocket(proxy.url, token, RETRY);
    const panel = { socket, seq: 0, consistent: () => {} };
    socket.on("events", ({ events }) => {
      panel.seq = events.at(-1)?.seq ?? panel.seq;
      panel.consistent();
    });
    socket.on("connect", () => {
      socket.emit("watch", { session, since: panel.seq }, (sync: { head: number }) => {
        panel.seq = sync.head;
        panel.consistent();
      });
    });
    return panel;
  });
  const all = (seq: number) =>
    Promise.all(
      panels.map(
        (panel) =>
          new Promise<number>((done) => {
            panel.consistent = () => panel.seq >= seq && done(performance.now());
            panel.consistent();
          }),
      ),
    );
  let head = EVENTS;
  await all(head);
  for (let n = 0; n < OUTAGES; n += 1) {
    const began = performance.now();
    proxy.refuse(true);
    head = await goOn(busy, session);
    await new Promise((r) => setTimeout(r, OUTAGE_MS - (performance.now() - began)));
    const returned = performance.now();
    proxy.refuse(false);
    back.push(...(await all(head)).map((at) => at - returned));
  }
  for (const { socket } of panels) socket.close();
  for (const socket of busy) socket.close();
  await proxy.close();
  return back;
}

/** The others give this many events. Returns the number of the last. */
async function goOn(busy: readonly Socket[], session: string): Promise<number> {
  const seqs = Array.from({ length: BACKLOG }, async (_, n) => {
    const action = { type: "send", kind: "negative", channel: "panel", note: "load" };
    const command = { v: 1, id: randomUUID(), session, clientAt: Date.now(), action };
    const answer = await busy[n % busy.length]?.timeout(10_000).emitWithAck("command", command);
    return Number(answer.seq ?? 0);
  });
  return Math.max(...(await Promise.all(seqs)));
}
