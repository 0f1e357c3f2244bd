import { randomBytes, randomUUID } from "node:crypto";
import { fileURLToPath } from "node:url";
import { multistream, pino } from "pino";
import { createApp } from "./app.ts";
import { PIN_COST } from "./auth/pin.ts";
import { ServerClock, systemTimers } from "./clock.ts";
import { type Config, readConfig } from "./config.ts";
import { seedDemo } from "./demo.ts";
import { DemoYear } from "./demo-year.ts";
import { openSigner } from "./evidence/signer.ts";
import { MqttFeeds } from "./feeds/mqtt.ts";
import { readMqtt } from "./feeds/mqtt-settings.ts";
import { RawSamples } from "./feeds/raw-samples.ts";
import { StartsKeeping } from "./history/keeping.ts";
import { randomIds } from "./ids.ts";
import { LOG_OPTIONS } from "./log.ts";
import { NO_BUS } from "./many/bus.ts";
import { ALONE } from "./many/duty.ts";
import { RedisBus } from "./many/redis-bus.ts";
import { eventLoop } from "./rehearsals/loop-share.ts";
import { buildServices } from "./services.ts";
import { StartRefused } from "./start-refused.ts";
import type { Directory } from "./store/directory.ts";
import { openStores } from "./store/stores.ts";
import { Syslog } from "./syslog.ts";
import { surroundings } from "./telemetry/surroundings.ts";
import { openTls, type Tls } from "./tls.ts";
import { resolveByDns } from "./webhooks/address.ts";
import { Progress } from "./webhooks/progress.ts";
import { readTargets } from "./webhooks/targets.ts";
import { Webhooks } from "./webhooks/webhooks.ts";

const SITE = fileURLToPath(new URL("../web/dist", import.meta.url));
/** A panel makes about sixty requests when it loads, and a few per minute afterwards. */
const PER_MINUTE = { signIns: 30, address: 6_000, signIn: 1_200, costly: 60 };
/** Addresses that only this machine reaches. */
const LOOPBACK = /^(localhost|127\.[\d.]+|::1)$/;
/** The process exits by force when a shutdown takes longer. Milliseconds. */
const STOP_MS = 5_000;

await main().catch((error: unknown) => {
  console.error(error instanceof StartRefused ? `chockside: ${error.message}` : error);
  process.exit(1);
});

async function main(): Promise<void> {
  const config = readConfig(process.env);
  const syslog =
    config.syslog &&
    new Syslog(config.syslog.url, config.syslog.ca, {
      timers: systemTimers,
      now: Date.now,
      say: (words) => console.log(`chockside: ${words}`),
    });
  const options = { ...LOG_OPTIONS, level: config.logLevel };
  const log = syslog
    ? // The logger has picked the lines by their level already.
      pino(options, multistream([process.stdout, syslog].map((stream) => ({ stream, level: "trace" }))))
    : pino(options);
  const tls = await openTls(config.tls, Date.now());
  const signer = openSigner(config.signingKey);
  const stores = await openStores(config, Date.now(), { ownThread: true });
  const { store, directory, enter } = stores;
  const index = await stores.openIndex();
  const clock = new ServerClock(stores.clocks, await store.newestAt());
  // Take turns: servers that start together on an empty database must not both fill it.
  // Loaded only with the demo on: real use never runs a line of it.
  const demo = config.demo ? (await import("../seed/demo-data.ts")).demo : null;
  if (demo) await directory.inTurn(["demo"], () => seedDemo(directory, demo, clock.now(), PIN_COST));
  const demoSignIns = demo ? demo.people : [];
  const secret = config.secret ?? randomBytes(32);
  const bus = config.redis === null ? NO_BUS : new RedisBus(config.redis, secret, log);
  const others = enter && { bus, enter, server: randomUUID() };
  const services = await buildServices({
    store,
    directory,
    index,
    clock,
    timers: systemTimers,
    ids: randomIds,
    pinCost: PIN_COST,
    signer,
    log,
    others,
    demoSignIns,
    demoFigures: config.demo,
    deviceRule: config.deviceRule,
    limits: config.limits,
    secret,
    raw: new RawSamples(config.samples),
    pictureLimits: config.pictures,
    loop: eventLoop,
  });
  const duty = stores.shared?.duty(log) ?? ALONE;
  const progress = stores.shared?.webhooks ?? new Progress(config.webhookProgress);
  const webhooks =
    config.webhooks === null
      ? null
      : new Webhooks(
          { ...services, log, resolve: resolveByDns, progress, duty },
          readTargets(config.webhooks),
        );
  const broker = config.mqtt === null ? null : readMqtt(config.mqtt, config.plainLinks);
  // Of several servers one listens to the broker: each would record every reading.
  const stopMqtt =
    broker && duty.share("mqtt", () => MqttFeeds.begin({ ...services, log, timers: systemTimers }, broker));
  // Of several servers one works out the starts of ended sessions: each would work out the same.
  const stopKeeping = duty.share("starts", () =>
    StartsKeeping.begin({ ...services, log, timers: systemTimers }),
  );
  const app = await createApp(services, {
    logger: log,
    site: SITE,
    perMinute: PER_MINUTE,
    proxies: config.proxies,
    live: { origins: config.origins },
    metrics: {
      token: config.metricsToken,
      process: true,
      surroundings: surroundings({
        data: config.postgres === null ? config.data : null,
        disk: config.data,
        tls,
        bus: config.redis === null ? null : bus,
        now: Date.now,
      }),
    },
    tls,
    ...(webhooks ? { webhooks } : {}),
    crews: demo !== null,
    ...(demo
      ? { year: new DemoYear(services, async (now) => (await import("../seed/year/year.ts")).year(now)) }
      : {}),
  });
  await app.listen({ port: config.port, host: config.host }).catch((error: NodeJS.ErrnoException) => {
    throw asRefusal(error, config.host, config.port);
  });

  const address = app.server.address();
  const port = typeof address === "object" && address ? address.port : config.port;
  const scheme = tls ? "https" : "http";
  console.log(`chockside: listening on ${scheme}://localhost:${port} (documentation at /docs)`);
  sayTls(tls, config);
  await sayDemo(directory);
  await sayFirst(config.origins[0] ?? `${scheme}://localhost:${port}`);

  let stopping = false;
  const stop = async (signal: string) => {
    if (stopping) return;
    stopping = true;
    log.info({ signal }, "stopping");
    setTimeout(() => process.exit(1), STOP_MS).unref();
    await app.close();
    await webhooks?.close();
    await stopMqtt?.();
    await stopKeeping();
    services.close();
    await services.notary.idle();
    await services.writings.close();
    await index.close();
    await bus.close();
    await stores.close();
    syslog?.destroy();
  };
  for (const signal of ["SIGTERM", "SIGINT"]) process.on(signal, () => void stop(signal));

  /** Prints the link that opens an empty house. Each start of the server makes it anew. */
  async function sayFirst(address: string): Promise<void> {
    if (!(await services.firstRun.isOpen())) return;
    const { code } = await services.firstRun.code();
    console.log(
      "\nchockside: nobody can sign in yet. Open this once, within 60 minutes, on the device that begins:",
    );
    console.log(`    ${address}/first#${code}`);
    console.log("    Too late, or another device? npm run house -- link gives another.\n");
  }

  async function sayDemo(people: Directory): Promise<void> {
    const there = new Set((await people.people()).filter((p) => p.demo).map((p) => p.handle));
    const known = demoSignIns.filter((p) => there.has(p.handle));
    if (known.length === 0) return;
    console.log(
      "\n*** DEMO DATA: everything is invented, and anyone may sign in. Not for use at an aircraft. ***",
    );
    for (const { handle, pin, name, mayHold } of known)
      console.log(`    ${handle.padEnd(10)} PIN ${pin}   ${name}, may hold ${mayHold.join(", ")}`);
    console.log(
      "*** For real use set CHOCKSIDE_DEMO=off and another CHOCKSIDE_DATA: an empty house prints a link ***\n",
    );
  }
}

/** Prints how panels reach this server: its certificate, or that it speaks plain HTTP. */
function sayTls(tls: Tls | null, { tls: choice, host }: Config): void {
  if (tls)
    console.log(
      `chockside: ${tls.root ? "authority" : "certificate"}, SHA-256 fingerprint ${tls.fingerprint}`,
    );
  if (tls?.advice) console.log(`chockside: ${tls.advice}`);
  if (choice.is === "own")
    console.log(
      `chockside: trust ${tls?.root ? choice.root : choice.cert} on each device, and compare the fingerprint before you do`,
    );
  if (tls) return;
  console.log(
    LOOPBACK.test(host)
      ? "chockside: plain http, to this machine alone: for other devices set CHOCKSIDE_TLS=own"
      : "chockside: plain http: other devices need https, from a proxy before this server or by CHOCKSIDE_TLS=own",
  );
}

function asRefusal(error: NodeJS.ErrnoException, host: string, port: number): Error {
  if (error.code === "EADDRINUSE")
    return new StartRefused(`port ${port} is in use: stop what listens there, or set PORT to another`);
  if (error.code === "EACCES")
    return new StartRefused(`port ${port} may not be used by this user: set PORT to another`);
  if (error.code === "EADDRNOTAVAIL" || error.code === "ENOTFOUND")
    return new StartRefused(`HOST ${host} is no address of this machine`);
  return error;
}
