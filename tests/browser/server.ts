import { randomBytes } from "node:crypto";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Duplex } from "node:stream";
import { fileURLToPath } from "node:url";
import { type Demo, demo } from "../../seed/demo-data.ts";
import { year as wholeYear } from "../../seed/year/year.ts";
import { createApp } from "../../server/app.ts";
import { ServerClock } from "../../server/clock.ts";
import { seedDemo } from "../../server/demo.ts";
import { DemoYear, type YearProgram } from "../../server/demo-year.ts";
import { randomIds } from "../../server/ids.ts";
import { PICTURE_LIMITS } from "../../server/pictures/limits.ts";
import { eventLoop, type LoopMeasure } from "../../server/rehearsals/loop-share.ts";
import { buildServices } from "../../server/services.ts";
import { MemorySearchIndex } from "../../server/store/memory-search-index.ts";
import { openDatabase } from "../../server/store/open.ts";
import { PrismaDirectory } from "../../server/store/prisma-directory.ts";
import { SqliteEventStore } from "../../server/store/sqlite-events.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { testSigner } from "../http/test-signer.ts";
import { MovedClock } from "./movedClock.ts";
import { patientType } from "./patientType.ts";

const SITE = fileURLToPath(new URL("../../web/dist", import.meta.url));
const CHEAP = { memoryCost: 8, timeCost: 1, parallelism: 1 };

interface Setup {
  /** The folder of the built panels; this build's by default. */
  site?: string;
  /** Aircraft besides those of the demo, for more sessions at once. */
  aircraft?: Demo["aircraft"];
  /** Multiplies the limits that the demo's types set on people. */
  patience?: number;
  /** True shows the keys that begin a rehearsal on the sign-in page. */
  crews?: boolean;
  /** True gives rehearsals as much of the machine as they take, so that they keep up with a clock that is moved. */
  unhurried?: boolean;
  /** The aircraft of which people can have an invented year made. */
  year?: string;
}

/** The real server on a database of its own, which serves the built panels. */
export class TestServer {
  readonly #folder = mkdtempSync(join(tmpdir(), "chockside-browser-"));
  readonly #clock = new MovedClock();
  readonly #site: string;
  readonly #data: Demo;
  #port = 0;
  /** The panels' sockets. */
  readonly #links = new Set<Duplex>();
  #stop: () => Promise<void> = async () => {};

  readonly #crews: boolean;
  readonly #year: string | undefined;
  readonly #loop: LoopMeasure;

  constructor({ site = SITE, aircraft = [], patience, crews = false, unhurried = false, year }: Setup = {}) {
    this.#year = year;
    this.#loop = unhurried ? { ...eventLoop, worked: () => 0 } : eventLoop;
    this.#crews = crews;
    this.#site = site;
    this.#data = {
      ...demo,
      types: demo.types.map((type) => patientType(type, patience)),
      aircraft: [...demo.aircraft, ...aircraft],
    };
  }

  get url(): string {
    return `http://127.0.0.1:${this.#port}`;
  }

  /** Returns the server's time in milliseconds. */
  now(): number {
    return this.#clock.wall();
  }

  /** Moves the server's clock forward. A panel learns of it when it connects again. */
  pass(ms: number): void {
    this.#clock.pass(ms);
  }

  /** Cuts the link of every panel. They connect again by themselves. */
  cutLinks(): void {
    for (const link of this.#links) link.destroy();
  }

  /** Returns a demo type as this server holds it. */
  type(id: string): AircraftType {
    const type = this.#data.types.find((t) => t.id === id);
    if (!type) throw new Error(`no type ${id}`);
    return type;
  }

  /** Starts, or starts again on the same port and database. @param origins the addresses it answers to */
  async start(origins: string[] = []): Promise<void> {
    if (!existsSync(join(this.#site, "index.html")))
      throw new Error("the panels are not built: npm run build");
    const file = join(this.#folder, "chockside.db");
    const store = new SqliteEventStore(openDatabase(file, this.now()));
    const directory = await PrismaDirectory.open(file);
    const clock = new ServerClock(this.#clock, await store.newestAt());
    await seedDemo(directory, this.#data, clock.now(), CHEAP);
    const log = { error() {}, info() {} };
    const services = await buildServices({
      store,
      directory,
      index: new MemorySearchIndex(),
      clock,
      timers: this.#clock,
      ids: randomIds,
      pinCost: CHEAP,
      signer: testSigner,
      log,
      others: null,
      demoSignIns: demo.people,
      demoFigures: true,
      deviceRule: "auto",
      limits: { shiftMs: 12 * 3_600_000, idleMs: 30 * 60_000, pinLength: 6 },
      secret: randomBytes(32),
      raw: null,
      pictureLimits: PICTURE_LIMITS,
      loop: this.#loop,
    });
    const app = await createApp(services, {
      site: this.#site,
      perMinute: { signIns: 1_000, address: 100_000, signIn: 100_000, costly: 100_000 },
      proxies: [],
      live: { origins },
      tls: null,
      crews: this.#crews,
      ...(this.#year === undefined ? {} : { year: new DemoYear(services, yearOf(this.#year)) }),
    });
    app.server.on("upgrade", (_request, link: Duplex) => {
      this.#links.add(link);
      link.on("close", () => this.#links.delete(link));
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

/** The invented year of one aircraft alone, which takes half as long. */
function yearOf(aircraft: string): (now: number) => Promise<YearProgram> {
  return async (now) => {
    const { starts, play } = wholeYear(now);
    const own = starts.flatMap((start, nth) => (start.aircraft === aircraft ? [{ start, nth }] : []));
    return { starts: own.map((o) => o.start), play: (i, of) => play(own[i]?.nth ?? -1, of) };
  };
}
