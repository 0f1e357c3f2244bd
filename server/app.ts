import Fastify, { type FastifyBaseLogger, type FastifyInstance, LogController } from "fastify";
import { serializerCompiler, validatorCompiler, type ZodTypeProvider } from "fastify-type-provider-zod";
import { Refusals } from "./audit.ts";
import { AccountUses } from "./auth/account-uses.ts";
import { Nonces } from "./auth/nonces.ts";
import { Passkeys } from "./auth/passkeys.ts";
import { Proofs } from "./auth/proofs.ts";
import { SingleUse } from "./auth/single-use.ts";
import type { DemoYear } from "./demo-year.ts";
import { Door } from "./door.ts";
import { aircraftRoutes } from "./http/aircraft.ts";
import { begunTypeRoutes } from "./http/begun-types.ts";
import { channelRoutes } from "./http/channels.ts";
import { allowCompression } from "./http/compressed.ts";
import { currencyRoutes } from "./http/currencies.ts";
import { demoRoute, demoYearRoute } from "./http/demo.ts";
import { deviceRoutes, enrolRoutes } from "./http/devices.ts";
import { directoryRoutes } from "./http/directory.ts";
import { document } from "./http/docs.ts";
import { dueCalendarRoute } from "./http/due-calendar.ts";
import { duesRoutes } from "./http/dues.ts";
import { evidenceRoutes } from "./http/evidence.ts";
import { feedRoutes } from "./http/feeds.ts";
import { healthRoutes } from "./http/health.ts";
import { historyRoutes } from "./http/history.ts";
import { firstRunRoutes, houseRoutes, houseSettingsRoutes } from "./http/house.ts";
import { houseAircraftRoutes } from "./http/house-aircraft.ts";
import { tellOfHouse } from "./http/house-changes.ts";
import { houseEquipmentRoutes } from "./http/house-equipment.ts";
import { houseListRoutes } from "./http/house-lists.ts";
import { limitBySignIn, type PerMinute } from "./http/limits.ts";
import { liveRoute } from "./http/live.ts";
import { livesRoutes } from "./http/lives.ts";
import { metricsRoute } from "./http/metrics.ts";
import { noiseRoute } from "./http/noise.ts";
import { ownRoutes } from "./http/own.ts";
import { ownPasskeyRoutes, passkeySignInRoutes } from "./http/passkeys.ts";
import { peopleRoutes } from "./http/people.ts";
import { pictureRoutes } from "./http/pictures.ts";
import { answerErrors } from "./http/problem.ts";
import { proofRoutes } from "./http/proofs.ts";
import { rehearsalRoutes } from "./http/rehearsals.ts";
import { scriptRoutes } from "./http/scripts.ts";
import { searchRoutes } from "./http/search.ts";
import { secure } from "./http/security.ts";
import { serviceAccountRoutes } from "./http/service-accounts.ts";
import { sessionRoutes } from "./http/sessions.ts";
import { signInRoute } from "./http/sign-in.ts";
import { requireSignIn } from "./http/signed-in.ts";
import { serveSite } from "./http/site.ts";
import { trainingRoutes } from "./http/training.ts";
import { typeRoutes } from "./http/types.ts";
import { webhookRoutes } from "./http/webhooks.ts";
import { type LiveOptions, live } from "./live/attach.ts";
import { Bounds } from "./live/person-bounds.ts";
import { Readers } from "./live/readers.ts";
import { tellPeers } from "./peer.ts";
import { PaperProcesses } from "./print/paper-process.ts";
import { Press, type Printer } from "./print/press.ts";
import { printRoutes } from "./print/routes.ts";
import type { Services } from "./services.ts";
import { Recordable } from "./store/recordable.ts";
import { Metrics } from "./telemetry/metrics.ts";
import type { Surrounding } from "./telemetry/surroundings.ts";
import { SUITES, type Tls } from "./tls.ts";
import type { Webhooks } from "./webhooks/webhooks.ts";

export interface AppOptions {
  logger?: FastifyBaseLogger;
  /** Folder of the built panels. */
  site: string;
  perMinute: PerMinute;
  /** Addresses and networks of trusted proxies, whose `X-Forwarded-For` is believed. */
  proxies: readonly string[];
  live: LiveOptions;
  /** Makes the PDFs. Default: each in a process of its own. */
  printer?: Printer;
  /** `token` admits scrapers on other machines. `process` adds Node's own figures; set it once per process. */
  metrics?: { token: string | null; process: boolean; surroundings?: readonly Surrounding[] };
  /** Tells other systems of events; without it nobody is told. */
  webhooks?: Webhooks;
  /** True when the demo's sign-in page offers to begin a rehearsal with one touch. */
  crews?: boolean;
  /** The demo's invented year; without it nobody can have it made. */
  year?: DemoYear;
  /** The TLS certificate; null for plain HTTP. */
  tls: Tls | null;
}

/** Largest request body in bytes: twenty times a plan with every field full. */
const BODY_BYTES = 64 * 1024;

const SPOKEN = { minVersion: "TLSv1.2", ciphers: SUITES } as const;

/** Time limit for a request's headers, and the interval between checks of it. Milliseconds. */
const SLOW = { headersTimeout: 10_000, connectionsCheckingInterval: 2_000 };

/** A connection without a request is closed after this. Milliseconds. */
const KEEP_ALIVE_MS = 5_000;

/** Returns the whole server on the given services, ready to listen. */
export async function createApp(services: Services, options: AppOptions): Promise<FastifyInstance> {
  const app = Fastify({
    ...(options.logger ? { loggerInstance: options.logger } : { logger: false }),
    ...(options.tls
      ? { https: { cert: options.tls.cert, key: options.tls.key, ...SPOKEN, ...SLOW } }
      : { http: SLOW }),
    bodyLimit: BODY_BYTES,
    trustProxy: options.proxies.length > 0 && [...options.proxies],
    requestTimeout: 15_000,
    // Two lines for each request would let strangers fill a disk. Refusals and acts have lines of their own.
    logController: new LogController({ disableRequestLogging: true }),
    keepAliveTimeout: KEEP_ALIVE_MS,
    routerOptions: { maxParamLength: 100 },
  }).withTypeProvider<ZodTypeProvider>();
  const door = new Door(app.server, options.proxies, () => services.clock.now());
  app.decorate("door", door);
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  // Accept JSON only: a form on another site can send text/plain without a CORS preflight.
  app.removeContentTypeParser("text/plain");
  app.decorateRequest("identity", null);
  app.decorateRequest("account", null);
  const refusals = new Refusals(app.log, () => services.clock.now());
  answerErrors(app as unknown as FastifyInstance, refusals);
  const {
    store,
    directory,
    sessions,
    records,
    pictures,
    histories,
    writings,
    lives,
    aircraft,
    equipment,
    channels,
    feeds,
    currencies,
    inspections,
    dues,
    firstRun,
    lists,
    planning,
    rehearsals,
    scripts,
    trainings,
    signIns,
    accounts,
    devices,
    types,
    begun,
    seals,
    notary,
    names,
    clock,
    demoSignIns,
  } = services;
  const singleUse = new SingleUse(clock, services.timers, services.others && directory);
  const press = new Press(
    options.printer ?? new PaperProcesses(),
    () => clock.now(),
    (error) => app.log.error({ err: error }, "a sheet could not be made"),
  );
  app.addHook("onClose", async () => press.close());
  const bounds = new Bounds();
  const nonces = new Nonces(services.secret, clock);
  const { origins } = options.live;
  const proofs = new Proofs(nonces, singleUse, origins);
  const passkeys = new Passkeys({ directory, clock, nonces, singleUse, signIns });
  await secure(app as unknown as FastifyInstance, {
    proofs,
    tls: options.tls,
    origins,
    perMinute: options.perMinute.address,
  });
  const within = limitBySignIn(app as unknown as FastifyInstance, options.perMinute);
  const uses = new AccountUses(app.log, () => clock.now());
  const admitting = { signIns, proofs, accounts, uses, within };
  await document(app as unknown as FastifyInstance);
  await allowCompression(app as unknown as FastifyInstance);

  const readers = new Readers({ sessions, signIns, accounts, timers: services.timers, log: app.log });
  // Fastify waits for every request before it closes, and a stream never ends by itself.
  app.addHook("preClose", async () => readers.close());
  const perMinute = options.perMinute.signIns;
  const recordable = new Recordable(store, services.timers);
  app.addHook("onClose", async () => recordable.close());
  await app.register(healthRoutes, { prefix: "/health", recordable });
  await app.register(signInRoute, { prefix: "/api", signIns, proofs, perMinute });
  await app.register(passkeySignInRoutes, { prefix: "/api", passkeys, signIns, proofs, origins, perMinute });
  await app.register(enrolRoutes, { prefix: "/api", devices, proofs, perMinute });
  const pinLength = signIns.pinLength;
  await app.register(firstRunRoutes, { prefix: "/api", firstRun, directory, proofs, pinLength, perMinute });
  await app.register(demoRoute, {
    prefix: "/api",
    directory,
    demoSignIns,
    crews: options.crews === true,
  });
  await app.register(ownRoutes, { prefix: "/api", ...admitting });
  await app.register(dueCalendarRoute, { prefix: "/api", accounts, uses, dues, clock });
  await app.register(
    async (inner) => {
      requireSignIn(inner, admitting);
      tellOfHouse(inner, () => sessions.houseChanged());
      await inner.register(directoryRoutes, { directory });
      await inner.register(houseAircraftRoutes, { register: aircraft, directory });
      await inner.register(currencyRoutes, { currencies, directory });
      await inner.register(duesRoutes, { inspections, dues, directory, clock });
      await inner.register(channelRoutes, { register: channels, feeds });
      await inner.register(feedRoutes, { feeds });
      await inner.register(houseEquipmentRoutes, { register: equipment, directory });
      await inner.register(aircraftRoutes, { directory, records, pictures });
      await inner.register(pictureRoutes, { directory, pictures, clock });
      await inner.register(historyRoutes, { directory, histories, names, clock });
      await inner.register(searchRoutes, { writings });
      await inner.register(livesRoutes, { lives, directory });
      await inner.register(ownPasskeyRoutes, { passkeys, directory, signIns, origins });
      await inner.register(deviceRoutes, { devices, directory, signIns, sessions });
      const { ids, pinCost } = services;
      await inner.register(peopleRoutes, { directory, signIns, sessions, clock, ids, pinCost });
      await inner.register(houseListRoutes, { lists, signIns, sessions });
      await inner.register(houseRoutes, { directory, store });
      await inner.register(houseSettingsRoutes, { directory, clock });
      await inner.register(serviceAccountRoutes, { accounts });
      await inner.register(webhookRoutes, { webhooks: options.webhooks ?? null });
      await inner.register(begunTypeRoutes, { begun, directory });
      await inner.register(typeRoutes, { directory, types, seals, signIns });
      if (options.year) await inner.register(demoYearRoute, { year: options.year });
      await inner.register(sessionRoutes, { store, sessions, planning, names, clock, bounds });
      await inner.register(liveRoute, { store, sessions, names, clock, readers });
      await inner.register(rehearsalRoutes, { store, sessions, rehearsals });
      await inner.register(scriptRoutes, { scripts, directory });
      await inner.register(trainingRoutes, { trainings, directory });
      await inner.register(noiseRoute, { store, names, clock });
      await inner.register(evidenceRoutes, { store, notary, names, register: directory.register, clock });
      await inner.register(proofRoutes, { store, notary });
      await inner.register(printRoutes, {
        store,
        directory,
        sessions,
        names,
        clock,
        press,
        dues,
        histories,
        trainings,
      });
    },
    { prefix: "/api" },
  );
  await serveSite(app as unknown as FastifyInstance, options.site);
  tellPeers(app.server, options.proxies);
  const doors = { proofs, refusals, bounds, recordable };
  const sockets = live(app as unknown as FastifyInstance, services, doors, options.live);
  const sources = {
    overview: () => sessions.overview(),
    sockets,
    ready: () => recordable.check(),
    streams: () => readers.size,
    peers: () => services.peers.count(clock.now()),
    samples: () => feeds.counts,
    surroundings: options.metrics?.surroundings ?? [],
  };
  const metrics = new Metrics(sources);
  if (options.metrics?.process) metrics.withProcess();
  app.addHook("onClose", async () => metrics.close());
  await app.register(metricsRoute, { metrics, token: options.metrics?.token ?? null });
  return app as unknown as FastifyInstance;
}
