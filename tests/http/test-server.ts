import { randomBytes } from "node:crypto";
import type { FastifyBaseLogger, FastifyInstance } from "fastify";
import { createApp } from "../../server/app.ts";
import { hashPin } from "../../server/auth/pin.ts";
import type { DeviceRule } from "../../server/auth/sign-ins.ts";
import type { DemoYear } from "../../server/demo-year.ts";
import type { EvidenceSigner } from "../../server/evidence/signer.ts";
import { RawSamples } from "../../server/feeds/raw-samples.ts";
import type { PerMinute } from "../../server/http/limits.ts";
import { randomIds } from "../../server/ids.ts";
import type { Others } from "../../server/many/bus.ts";
import { PICTURE_LIMITS, type PictureLimits } from "../../server/pictures/limits.ts";
import type { Printer } from "../../server/print/press.ts";
import { printJob } from "../../server/print/sheet-job.ts";
import { buildServices, type Services } from "../../server/services.ts";
import type { Directory, PersonRecord } from "../../server/store/directory.ts";
import type { EventStore } from "../../server/store/events.ts";
import { MemoryDirectory } from "../../server/store/memory-directory.ts";
import { MemoryEventStore } from "../../server/store/memory-events.ts";
import { MemorySearchIndex } from "../../server/store/memory-search-index.ts";
import type { SearchIndex } from "../../server/store/search-index.ts";
import type { Surrounding } from "../../server/telemetry/surroundings.ts";
import { type ProblemTrace, TRACES } from "../../server/telemetry/trace.ts";
import type { Tls } from "../../server/tls.ts";
import type { Webhooks } from "../../server/webhooks/webhooks.ts";
import { bareAircraft } from "../../shared/house/aircraft.ts";
import { firstEntry } from "../../shared/house/register.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { FOUR } from "../spec/aircraft.ts";
import { HandClock, START } from "./hand-clock.ts";
import { testSigner } from "./test-signer.ts";

/** A cheap hash for tests; the real cost has a test of its own. */
export const CHEAP = { memoryCost: 8, timeCost: 1, parallelism: 1 };
export const PIN = "271828";

const person = (id: string, mayHold: Post[], more: Partial<PersonRecord> = {}) => ({
  id,
  handle: id,
  name: `${id[0]?.toUpperCase()}${id.slice(1)}`,
  mayHold,
  active: true,
  createdAt: START,
  demo: false,
  ...more,
});

const PEOPLE = [
  person("ada", ["cockpit"]),
  person("bo", ["fireGuard"]),
  person("cy", ["groundPower"]),
  person("di", ["supervisor"]),
  person("ed", []),
  person("fay", [...POSTS]),
  person("gone", ["cockpit"], { active: false }),
  person("dot", ["cockpit"], { demo: true }),
];

export interface TestServer {
  services: Services;
  app: FastifyInstance;
  hand: HandClock;
  close(): Promise<void>;
}

export interface TestOptions {
  store?: EventStore;
  signer?: EvidenceSigner;
  directory?: Directory;
  index?: SearchIndex;
  hand?: HandClock;
  demo?: boolean;
  /** True unless said: the tests' own figures are invented. */
  demoFigures?: boolean;
  perMinute?: Partial<PerMinute>;
  proxies?: string[];
  origins?: string[];
  devices?: DeviceRule;
  idleMs?: number;
  pinLength?: number;
  tls?: Tls;
  site?: string;
  metricsToken?: string;
  surroundings?: readonly Surrounding[];
  others?: Others;
  secret?: Buffer;
  pictures?: Partial<PictureLimits>;
  /** Folder for the samples of instruments; without it none are kept. */
  samples?: string;
  logger?: FastifyBaseLogger;
  printer?: Printer;
  year?: (services: Services) => DemoYear;
  webhooks?: Webhooks;
}

/** The test type with an approval, because a draft is never planned. */
export const APPROVED: AircraftType = { ...FOUR, approvedBy: "Chief engineer" };

/** Returns a directory with the crew, one PIN for everyone, and one aircraft. */
export async function crewDirectory(): Promise<MemoryDirectory> {
  const directory = new MemoryDirectory();
  const pinHash = await hashPin(PIN, CHEAP);
  await directory.addPeople(PEOPLE.map((p) => ({ ...p, pinHash })));
  await directory.addTypes([APPROVED], START);
  await addAircraft(directory, { id: "CH-TST", name: "Test bird", typeId: FOUR.id });
  return directory;
}

/** Adds aircraft of which only name and type are known. */
export async function addAircraft(
  directory: Directory,
  ...known: Parameters<typeof bareAircraft>[0][]
): Promise<void> {
  const entries = known.map((a) => firstEntry("aircraft", bareAircraft(a), "program", START));
  if (!(await directory.register.append(entries))) throw new Error("one of them is there already");
}

const beside = new WeakMap<EventStore, Promise<MemoryDirectory>>();

/**
 * Returns the directory of a server that starts again: it has the same people, because its records hold their names.
 */
function directoryBeside(store: EventStore): Promise<MemoryDirectory> {
  const directory = beside.get(store) ?? crewDirectory();
  beside.set(store, directory);
  return directory;
}

const strange = new Set<string>();
TRACES.problem.subscribe((message) => {
  const { route, problem, documented } = message as ProblemTrace;
  if (!documented) strange.add(`${route}: ${problem}`);
});

/** @throws Error when a route answered with a problem that the API's description lacks for it */
function undocumented(): void {
  const found = [...strange].sort();
  strange.clear();
  if (found.length > 0) throw new Error(`not in the API's description: ${found.join(", ")}`);
}

/** Opens the whole server on memory stores, with clocks moved by hand. */
export async function testServer(options: TestOptions = {}): Promise<TestServer> {
  const hand = options.hand ?? new HandClock();
  const store = options.store ?? new MemoryEventStore();
  const services = await buildServices({
    store,
    directory: options.directory ?? (await directoryBeside(store)),
    index: options.index ?? new MemorySearchIndex(),
    clock: hand.clock,
    timers: hand,
    ids: randomIds,
    pinCost: CHEAP,
    signer: options.signer ?? testSigner,
    log: { error() {}, info() {} },
    others: options.others ?? null,
    demoSignIns: options.demo ? [{ handle: "dot", pin: PIN, name: "Dot", mayHold: ["cockpit"] }] : [],
    demoFigures: options.demoFigures ?? true,
    deviceRule: options.devices ?? "any",
    limits: {
      shiftMs: 12 * 3_600_000,
      idleMs: options.idleMs ?? 12 * 3_600_000,
      pinLength: options.pinLength ?? 6,
    },
    secret: options.secret ?? randomBytes(32),
    pictureLimits: { ...PICTURE_LIMITS, ...options.pictures },
    raw: options.samples === undefined ? null : new RawSamples(options.samples),
    loop: { passed: () => hand.steady(), worked: () => hand.steady() },
  });
  const app = await createApp(services, {
    ...(options.logger ? { logger: options.logger } : {}),
    site: options.site ?? "/nowhere",
    perMinute: { signIns: 1_000, address: 1e9, signIn: 1e9, costly: 1e9, ...options.perMinute },
    proxies: options.proxies ?? [],
    live: { origins: options.origins ?? [] },
    printer: options.printer ?? { print: printJob, close() {} },
    metrics: {
      token: options.metricsToken ?? null,
      process: false,
      ...(options.surroundings ? { surroundings: options.surroundings } : {}),
    },
    tls: options.tls ?? null,
    ...(options.year ? { year: options.year(services) } : {}),
    ...(options.webhooks ? { webhooks: options.webhooks } : {}),
  });
  const close = async () => {
    await app.close();
    services.close();
    undocumented();
  };
  return { services, app, hand, close };
}

/** Moves the aircraft to another version of its type, as a supervisor does on its page. */
export async function moveTo(app: FastifyInstance, token: string, typeVersion: number): Promise<void> {
  const url = "/api/aircraft/CH-TST";
  const read = await app.inject({ url, headers: bearer(token) });
  const { name, typeId, fitted, stand, notes } = read.json();
  const headers = { ...bearer(token), "if-match": String(read.headers.etag) };
  const payload = { name, typeId, typeVersion, fitted, stand, notes };
  const reply = await app.inject({ method: "PUT", url, headers, payload });
  if (reply.statusCode !== 200) throw new Error(reply.body);
}

/** Signs a person in and returns the token. */
export async function signIn(
  app: FastifyInstance,
  handle: string,
  device = `${handle}-tablet`,
): Promise<string> {
  const reply = await app.inject({
    method: "POST",
    url: "/api/sign-in",
    payload: { handle, pin: PIN, device: { id: device, name: "Tablet" } },
  });
  if (reply.statusCode !== 200) throw new Error(reply.body);
  return reply.json().token;
}

export const bearer = (token: string) => ({ authorization: `Bearer ${token}` });

export const NO_CREW = { cockpit: null, fireGuard: null, groundPower: null, supervisor: null };

let plans = 0;

/** Returns the body of a valid plan, with a command id of its own. */
export function planBody(over: Record<string, unknown> = {}) {
  plans += 1;
  const commandId = `00000000-0000-4000-8000-${String(plans).padStart(12, "0")}`;
  return {
    commandId,
    aircraft: "CH-TST",
    place: "North ramp",
    powerSource: "groundPower",
    crew: NO_CREW,
    ...over,
  };
}

export async function planned(app: FastifyInstance, token: string, over: Record<string, unknown> = {}) {
  const reply = await app.inject({
    method: "POST",
    url: "/api/sessions",
    headers: bearer(token),
    payload: planBody(over),
  });
  if (reply.statusCode !== 201) throw new Error(reply.body);
  return reply.json() as { id: string; code: string };
}
