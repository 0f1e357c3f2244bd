import { randomBytes } from "node:crypto";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { monitorEventLoopDelay } from "node:perf_hooks";
import { demo } from "../../seed/demo-data.ts";
import { year } from "../../seed/year/year.ts";
import { createApp } from "../../server/app.ts";
import { machineClocks, ServerClock, systemTimers } from "../../server/clock.ts";
import { readConfig } from "../../server/config.ts";
import { seedDemo } from "../../server/demo.ts";
import { noPseudonyms } from "../../server/evidence/names.ts";
import { StartsKeeping } from "../../server/history/keeping.ts";
import { StartHistories } from "../../server/history/starts.ts";
import { randomIds } from "../../server/ids.ts";
import { PICTURE_LIMITS } from "../../server/pictures/limits.ts";
import { eventLoop } from "../../server/rehearsals/loop-share.ts";
import { buildServices } from "../../server/services.ts";
import type { Stores } from "../../server/store/opened.ts";
import { openStores } from "../../server/store/stores.ts";
import { storeSession } from "../../server/store-session.ts";
import { bareAircraft } from "../../shared/house/aircraft.ts";
import { firstEntry } from "../../shared/house/register.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { evolve } from "../../shared/session/evolve.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { testSigner } from "../http/test-signer.ts";
import { spreadOf } from "./histogram.ts";
import { headings, row } from "./table.ts";

const CHEAP = { memoryCost: 1_024, timeCost: 2, parallelism: 1 };
const LIMITS = { shiftMs: 24 * 3_600_000, idleMs: 12 * 3_600_000, pinLength: 6 };
const AIRCRAFT = 20;
/** Starts that are played; the others are these again, at other times and aircraft. */
const PLAYED = 3;
const DAY_MS = 86_400_000;
/** Of each page. */
const REQUESTS = 60;
const GOAL_MS = 200;
/** Processor time of a page's first look after a start, milliseconds, once the starts are kept. */
const GOAL_FIRST_MS = 500;

/**
 * Measures the pages of the history over many sessions: the time of each request, and the processor time that it took,
 * because a machine that is shared says little by the clock alone. The first look of each page is that of a server that has
 * just started, and is told with the longest time in which nothing else was heard. Returns true if every page's p95 and
 * its first look are below their goals.
 * @param file keeps the database there and uses it again; a PostgreSQL is used where `DATABASE_URL` names one
 */
export async function benchHistory(sessions: number, file: string | null): Promise<boolean> {
  const folder = mkdtempSync(join(tmpdir(), "chockside-bench-history-"));
  const data = file ?? join(folder, "chockside.db");
  const isThere = existsSync(data);
  const environment = { CHOCKSIDE_DATA: data, DATABASE_URL: process.env.DATABASE_URL };
  const stores = await openStores(readConfig({ ...environment, CHOCKSIDE_LINKS: "plain" }), Date.now());
  try {
    if (!isThere) await fill(stores, sessions);
    await keepStarts(stores);
    return await measure(stores);
  } finally {
    await stores.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function fill({ store, directory }: Stores, sessions: number): Promise<void> {
  const now = Date.now();
  await seedDemo(directory, demo, now, CHEAP);
  const templates = await played(now);
  for (let i = 0; i < AIRCRAFT; i += 1) {
    const { aircraft, typeId } = templates[i % templates.length] as Template;
    const id = nameOf(aircraft, i);
    const bare = bareAircraft({ id, name: id, typeId });
    const fitted = fittedTo(id, typeId);
    const revision = id === aircraft ? 2 : 1;
    const entry = firstEntry("aircraft", { ...bare, fitted }, "console", now);
    await directory.register.append([{ ...entry, revision }]);
  }
  let events = 0;
  for (let i = 0; i < sessions; i += 1) {
    const nth = i % AIRCRAFT;
    const template = templates[nth % templates.length] as Template;
    // Each aircraft starts once a day, and the last ones are of today.
    const by = now - ((sessions - i) * DAY_MS) / AIRCRAFT - template.at;
    const aircraft = nameOf(template.aircraft, nth);
    const text = template.text
      .replaceAll(template.id, `s-${i}`)
      .replaceAll(template.aircraft, aircraft)
      // Every moment in it, moved by the same time.
      .replace(/\b1[6-9]\d{11}\b/g, (ms) => String(Number(ms) + Math.round(by)));
    const all = JSON.parse(text) as SessionEvent[];
    const state = all.reduce<SessionState | null>(evolve, null);
    const [first] = all;
    if (!state || !first) throw new Error("a start was played");
    const base = { code: `B${i}`, planCommand: `bench-${i}`, createdAt: first.at };
    await storeSession({ store, names: noPseudonyms }, { state, events: all }, base);
    events += all.length;
    if (i % 500 === 499) console.log(`${i + 1} sessions, ${events} events stored`);
  }
}

interface Template {
  id: string;
  aircraft: string;
  typeId: string;
  /** Server milliseconds of its plan. */
  at: number;
  /** The events as JSON. */
  text: string;
}

async function played(now: number): Promise<Template[]> {
  const { starts, play } = year(now);
  const made: Template[] = [];
  for (let nth = 0; nth < 2 * PLAYED; nth += 1) {
    const aircraft = starts[nth]?.aircraft ?? "";
    const { typeId } = demo.aircraft.find((a) => a.id === aircraft) ?? { typeId: "" };
    const id = `played-${nth}`;
    const { events } = await play(nth, { id, type: typeOf(typeId), fitted: fittedTo(aircraft, typeId) });
    made.push({ id, aircraft, typeId, at: events[0]?.at ?? now, text: JSON.stringify(events) });
  }
  return made;
}

function typeOf(typeId: string) {
  const type = demo.types.find((t) => t.id === typeId);
  if (!type) throw new Error(`the demo has no ${typeId}`);
  return type;
}

const fittedTo = (aircraft: string, typeId: string) =>
  typeOf(typeId).engines.map(({ n }) => ({
    n,
    engine: { serial: `${aircraft}-E${n}`, hours: null },
    propeller: { serial: null, hours: null },
    starter: null,
  }));

/** The first two keep their names, so that the demo's aircraft have a history. */
const nameOf = (aircraft: string, nth: number): string =>
  nth < 2 ? aircraft : `QX-B${String(nth).padStart(2, "0")}`;

/** Keeps the starts of all sessions, as a server does in the background. */
async function keepStarts({ store, openIndex }: Stores): Promise<void> {
  const index = await openIndex();
  const log = { error: (detail: object, message: string) => console.error(message, detail) };
  const starts = new StartHistories({ store, index, log });
  const begun = process.cpuUsage();
  // Without its pauses: at its first pause of a minute it is done.
  await new Promise<void>((done) => {
    const timers = {
      after: (ms: number, run: () => void) => {
        if (ms >= 60_000) done();
        else setImmediate(run);
        return () => {};
      },
    };
    void StartsKeeping.begin({ store, index, starts, timers, log });
  });
  const { user, system } = process.cpuUsage(begun);
  const kept = (await index.startHeads()).size;
  console.log(
    `the starts of ${kept} sessions are kept: ${((user + system) / 1e6).toFixed(1)} s of processor time`,
  );
  await index.close();
}

async function measure(stores: Stores): Promise<boolean> {
  const { store, directory } = stores;
  const index = await stores.openIndex();
  const clock = new ServerClock(machineClocks, await store.newestAt());
  const services = await buildServices({
    ...{ store, directory, index, clock, timers: systemTimers, ids: randomIds, pinCost: CHEAP },
    ...{ signer: testSigner, log: { info() {}, error() {} }, others: null, demoSignIns: demo.people },
    ...{ demoFigures: true, deviceRule: "any" as const, limits: LIMITS, secret: randomBytes(32), raw: null },
    ...{ pictureLimits: PICTURE_LIMITS, loop: eventLoop },
  });
  const perMinute = { signIns: 1e6, address: 1e9, signIn: 1e9, costly: 1e9 };
  const app = await createApp(services, {
    ...{ site: "", perMinute, proxies: [], live: { origins: [] }, tls: null },
  });
  const [person] = demo.people;
  const device = { id: "bench", name: "Bench" };
  const payload = { handle: person?.handle, pin: person?.pin, device };
  const signedIn = await app.inject({ method: "POST", url: "/api/sign-in", payload });
  const headers = { authorization: `Bearer ${signedIn.json().token}` };
  const ask = async (url: string) => {
    const [begun, before] = [performance.now(), process.cpuUsage()];
    const reply = await app.inject({ url, headers });
    if (reply.statusCode !== 200) throw new Error(`${url}: ${reply.statusCode} ${reply.body}`);
    const { user, system } = process.cpuUsage(before);
    return { ms: performance.now() - begun, cpuMs: (user + system) / 1_000, body: reply.body };
  };
  let behind = 1;
  const begun = process.cpuUsage();
  while (behind > 0) {
    behind = JSON.parse((await ask("/api/search?q=")).body).unread;
    await new Promise((go) => setTimeout(go, 200));
  }
  const { user, system } = process.cpuUsage(begun);
  console.log(
    `the search index was read to its end in ${((user + system) / 1e6).toFixed(1)} s of processor time\n`,
  );

  const pages: [string, (nth: number) => string][] = [
    ["aircraft", () => "/api/aircraft/QX-PEN/history"],
    ["aircraft's notes (in a brief)", () => "/api/aircraft/QX-PEN/notes"],
    ["engine", () => "/api/engines/QX-PEN-E2/history"],
    ["house, 104 weeks", () => "/api/house/history?weeks=104"],
    ["lives", () => "/api/house/lives"],
    ["defects' trend", () => "/api/aircraft/QX-PEN/defects/trend"],
    ["search: nothing", (n) => `/api/search?limit=50&aircraft=${n % 2 ? "QX-PEN" : "QX-CTD"}`],
    ["search: a common word", (n) => `/api/search?q=${["stand", "ramp", "apron"][n % 3]}`],
    ["search: a person", (n) => `/api/search?q=${demo.people[n % demo.people.length]?.name.split(" ")[0]}`],
    ["search: no such word", (n) => `/api/search?q=zz${n}`],
  ];
  console.log(headings("page, milliseconds"));
  let good = true;
  for (const [name, url] of pages) {
    const block = monitorEventLoopDelay({ resolution: 1 });
    block.enable();
    // The delay of a turn is told in the turn after it.
    const turn = () => new Promise((go) => setTimeout(go, 5));
    await turn();
    const first = await ask(url(0));
    await turn();
    block.disable();
    const all: { ms: number; cpuMs: number }[] = [];
    for (let n = 0; n < REQUESTS; n += 1) all.push(await ask(url(n)));
    const spread = spreadOf(all.map((one) => one.ms));
    console.log(row(name, spread));
    console.log(row("  processor time", spreadOf(all.map((one) => one.cpuMs))));
    console.log(
      `  the first: ${first.ms.toFixed(0)} ms, ${first.cpuMs.toFixed(0)} ms of processor time, at most ${(block.max / 1e6).toFixed(0)} ms in one piece`,
    );
    good &&= spread.p95 < GOAL_MS && first.cpuMs < GOAL_FIRST_MS;
  }
  await app.close();
  services.close();
  await services.writings.close();
  await index.close();
  return good;
}
