import { randomBytes } from "node:crypto";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { type Demo, demo } from "../../seed/demo-data.ts";
import { createApp } from "../../server/app.ts";
import { machineClocks, ServerClock, systemTimers } from "../../server/clock.ts";
import { seedDemo } from "../../server/demo.ts";
import { randomIds } from "../../server/ids.ts";
import { buildServices } from "../../server/services.ts";
import { openDatabase } from "../../server/store/open.ts";
import { PrismaDirectory } from "../../server/store/prisma-directory.ts";
import { SqliteEventStore } from "../../server/store/sqlite-events.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { testSigner } from "../http/test-signer.ts";

const SITE = fileURLToPath(new URL("../../web/dist", import.meta.url));
const CHEAP = { memoryCost: 8, timeCost: 1, parallelism: 1 };

/** A demonstration type with limits short enough to wait for, and without a run-up, whose every figure is asked. */
function hurried({ runUp: _long, ...type }: AircraftType): AircraftType {
  const s = <T extends { value: number }>(limit: T, value: number): T => ({ ...limit, value });
  return {
    ...type,
    starter: {
      ...type.starter,
      ladder: type.starter.ladder.map((rung) => ({ ...rung, rest: s(rung.rest, 8) })),
    },
    oil: {
      ...type.oil,
      firstIndication: { ...type.oil.firstIndication, within: s(type.oil.firstIndication.within, 6) },
      normal: { ...type.oil.normal, within: s(type.oil.normal.within, 30) },
    },
  };
}

/** The real server on a database of its own, serving the built panels. */
export class TestServer {
  readonly #folder = mkdtempSync(join(tmpdir(), "chockside-browser-"));
  readonly #site: string;
  #port = 0;
  #stop: () => Promise<void> = async () => {};

  readonly #data: Demo;

  /**
   * @param site the folder of the built panels, null for this build's
   * @param more aircraft besides those of the demonstration, for as many sessions at once
   */
  constructor(site: string | null = null, more: Demo["aircraft"] = []) {
    this.#site = site ?? SITE;
    this.#data = { ...demo, types: demo.types.map(hurried), aircraft: [...demo.aircraft, ...more] };
  }

  get url(): string {
    return `http://127.0.0.1:${this.#port}`;
  }

  /** Starts, or starts again: on the same port and the same database. @param origins addresses it is told it has */
  async start(origins: string[] = []): Promise<void> {
    if (!existsSync(join(this.#site, "index.html")))
      throw new Error("the panels are not built: npm run build");
    const file = join(this.#folder, "chockside.db");
    const store = new SqliteEventStore(openDatabase(file, Date.now()));
    const directory = await PrismaDirectory.open(file);
    const clock = new ServerClock(machineClocks, await store.newestAt());
    await seedDemo(directory, this.#data, clock.now(), CHEAP);
    const log = { error() {}, info() {} };
    const services = await buildServices({
      store,
      directory,
      clock,
      timers: systemTimers,
      ids: randomIds,
      pinCost: CHEAP,
      signer: testSigner,
      log,
      others: null,
      demoSignIns: demo.people,
      deviceRule: "auto",
      limits: { shiftMs: 12 * 3_600_000, idleMs: 30 * 60_000, pinLength: 6 },
      secret: randomBytes(32),
    });
    const app = await createApp(services, {
      site: this.#site,
      perMinute: { signIns: 1_000, address: 100_000, signIn: 100_000, costly: 100_000 },
      proxies: [],
      live: { origins },
      tls: null,
    });
    await app.listen({ port: this.#port, host: "127.0.0.1" });
    this.#port = (app.server.address() as AddressInfo).port;
    this.#stop = async () => {
      await app.close();
      services.close();
      await store.close();
      await directory.close();
    };
  }

  stop(): Promise<void> {
    return this.#stop();
  }

  async end(): Promise<void> {
    await this.stop();
    rmSync(this.#folder, { recursive: true, force: true });
  }
}
