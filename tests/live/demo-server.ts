import { randomBytes } from "node:crypto";
import { demo } from "../../seed/demo-data.ts";
import { createApp } from "../../server/app.ts";
import { machineClocks, ServerClock, systemTimers } from "../../server/clock.ts";
import { seedDemo } from "../../server/demo.ts";
import { randomIds } from "../../server/ids.ts";
import { PICTURE_LIMITS } from "../../server/pictures/limits.ts";
import { eventLoop } from "../../server/rehearsals/loop-share.ts";
import { buildServices, type Services } from "../../server/services.ts";
import { MemoryDirectory } from "../../server/store/memory-directory.ts";
import { MemoryEventStore } from "../../server/store/memory-events.ts";
import { MemorySearchIndex } from "../../server/store/memory-search-index.ts";
import { testSigner } from "../http/test-signer.ts";

/** The cheapest hash that is allowed, because these PINs are no secret. */
const CHEAP = { memoryCost: 1_024, timeCost: 2, parallelism: 1 };

export interface DemoServer {
  url: string;
  services: Services;
  /** Closes the server and opens it again at the same address, on what it had recorded. */
  restart(): Promise<void>;
  close(): Promise<void>;
}

/** Opens a listening server with the demo in memory, or with nothing in it. */
export async function demoServer({ demo: withDemo = true } = {}): Promise<DemoServer> {
  const store = new MemoryEventStore();
  const directory = new MemoryDirectory();
  const clock = new ServerClock(machineClocks, 0);
  if (withDemo) await seedDemo(directory, demo, clock.now(), CHEAP);
  const open = async (port: number) => {
    const services = await buildServices({
      store,
      directory,
      index: new MemorySearchIndex(),
      clock,
      timers: systemTimers,
      ids: randomIds,
      pinCost: CHEAP,
      signer: testSigner,
      log: { info() {}, error() {} },
      others: null,
      demoSignIns: withDemo ? demo.people : [],
      demoFigures: true,
      deviceRule: "auto",
      limits: { shiftMs: 12 * 3_600_000, idleMs: 30 * 60_000, pinLength: 6 },
      secret: randomBytes(32),
      raw: null,
      pictureLimits: PICTURE_LIMITS,
      loop: eventLoop,
    });
    const app = await createApp(services, {
      site: "",
      perMinute: { signIns: 100, address: 100_000, signIn: 100_000, costly: 100_000 },
      proxies: [],
      live: { origins: [] },
      tls: null,
    });
    await app.listen({ port, host: "127.0.0.1" });
    const close = async () => {
      await app.close();
      services.close();
    };
    return { services, close, address: app.server.address() };
  };
  let now = await open(0);
  const { address } = now;
  if (address === null || typeof address === "string") throw new Error("the server has no port");
  return {
    url: `http://127.0.0.1:${address.port}`,
    services: now.services,
    async restart() {
      await now.close();
      now = await open(address.port);
    },
    close: () => now.close(),
  };
}
