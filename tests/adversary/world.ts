import { demo } from "../../seed/demo-data.ts";
import type { EventStore } from "../../server/store/events.ts";
import { MemoryEventStore } from "../../server/store/memory-events.ts";
import { HandClock, settle } from "../http/hand-clock.ts";
import {
  APPROVED,
  addAircraft,
  bearer,
  crewDirectory,
  PIN,
  signIn,
  type TestServer,
  testServer,
} from "../http/test-server.ts";
import { STOPPED } from "../spec/stoppable.ts";
import { postJson } from "./post.ts";

export const AIRCRAFT = "QX-ADV";

const seconds = (value: number) => ({ ...APPROVED.timing.clearance, value });

/** Presence is short, two conditions may be set aside, there are drills, and engines cool before they are stopped. */
const TYPE = {
  ...STOPPED,
  approvedBy: APPROVED.approvedBy,
  id: "adversary",
  conditions: [...APPROVED.conditions, "bladesCounted" as const],
  overridable: ["brakesSet" as const, "chocksIn" as const],
  // A few, so that working them does not take up the whole session.
  drills: (demo.types[0]?.drills ?? []).filter((_, i) => i % 6 === 0),
  timing: {
    ...APPROVED.timing,
    presenceSeen: seconds(40),
    presenceHeard: seconds(60),
    presenceHold: seconds(90),
    slip: seconds(5),
  },
};

/** A server that can be killed: one life of it after another on the same store, under the same clock. */
export class World {
  url = "";
  kills = 0;
  readonly #disk = new MemoryEventStore();
  readonly #directory = crewDirectory();
  #server: TestServer | null = null;
  #end = () => {};

  get now(): number {
    return this.#live.hand.clock.now();
  }

  get #live(): TestServer {
    if (!this.#server) throw new Error("no server is up");
    return this.#server;
  }

  async start(): Promise<void> {
    const directory = await this.#directory;
    if (!this.#server) {
      await directory.addTypes([TYPE], 0);
      await addAircraft(directory, {
        id: AIRCRAFT,
        name: "Test bird",
        typeId: TYPE.id,
        typeVersion: TYPE.version,
      });
    }
    const hand = new HandClock(this.#server ? this.now : 0);
    const { store, end } = oneLife(this.#disk);
    this.#end = end;
    this.#server = await testServer({ store, directory, hand });
    await this.#server.app.listen({ port: 0, host: "127.0.0.1" });
    const address = this.#server.app.server.address();
    if (address === null || typeof address === "string") throw new Error("it listens nowhere");
    this.url = `http://127.0.0.1:${address.port}`;
    await settle();
  }

  /** From this moment on the old server stores and answers nothing; a new one comes up on what was stored. */
  async kill(): Promise<void> {
    this.#end();
    this.kills += 1;
    const { app } = this.#live;
    app.server.closeAllConnections();
    app.server.close();
    await this.start();
  }

  /** Lets time pass at once: what fell due meanwhile is found at its end, as by a busy server. */
  pass(ms: number): Promise<void> {
    return this.#live.hand.leap(ms);
  }

  /** Lets time pass with each deadline at its own moment. */
  passExactly(ms: number): Promise<void> {
    return this.#live.hand.pass(ms);
  }

  setClock(by: number): void {
    this.#live.hand.setWall(by);
  }

  token(handle: string, device: string): Promise<string> {
    return signIn(this.#live.app, handle, device);
  }

  /** The permit for one command that needs its person's PIN. */
  async permit(token: string, session: string, id: string): Promise<string> {
    const body = { pin: PIN, session, command: id };
    const { permit } = await postJson<{ permit: string }>(`${this.url}/api/confirm`, body, token);
    return permit;
  }

  /** The exported NDJSON of sessions, and that of the aircraft's record. */
  async records(sessions: readonly string[], token: string): Promise<string[]> {
    const read = async (path: string) => {
      const reply = await fetch(`${this.url}/api${path}`, { headers: bearer(token) });
      if (!reply.ok) throw new Error(`${path}: ${await reply.text()}`);
      return reply.text();
    };
    const { record } = JSON.parse(await read(`/aircraft/${AIRCRAFT}/standing`)) as { record: string | null };
    const streams = record === null ? sessions : [...sessions, record];
    return Promise.all(streams.map((id) => read(`/sessions/${id}/evidence?as=ndjson`)));
  }

  async close(): Promise<void> {
    await this.#server?.close();
  }
}

/** The store as one life of a server sees it: from its end on, no call comes back or reaches the disk. */
function oneLife(disk: EventStore): { store: EventStore; end: () => void } {
  let dead = false;
  const store = new Proxy(disk, {
    get(target, key) {
      const value: unknown = Reflect.get(target, key, target);
      if (typeof value !== "function") return value;
      return (...args: unknown[]) => (dead ? new Promise(() => {}) : value.apply(target, args));
    },
  });
  const end = () => {
    dead = true;
  };
  return { store, end };
}
