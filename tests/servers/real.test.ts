import { setTimeout as pause } from "node:timers/promises";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { runCrew } from "../../seed/crew/run.ts";
import { PostgresEventStore } from "../../server/store/postgres/events.ts";
import { readSealed } from "../../shared/evidence/read.ts";
import { evolve } from "../../shared/session/evolve.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { type Acked, HoldLane } from "../live/kill-load.ts";
import { CREW, connect, killRun, onPostgres, planOn, signInOn } from "../live/kill-run.ts";
import { findings } from "../live/kill-verify.ts";
import { prepareServer, ServerProcess } from "../live/server-process.ts";
import { Balancer } from "./balancer.ts";
import { PostgresServer } from "./postgres-server.ts";
import { RedisServer } from "./redis-server.ts";

const MINUTE = 60_000;
/** Far faster than people; the aircraft's own limits are easily kept. */
const PACE = 40;
const WILLING = 3;
const SECRET = "b3VyIHNlcnZlcnMga25vdyBlYWNoIG90aGVyIGJ5IHRoaXM=";

let postgres: PostgresServer;
let redis: RedisServer;
beforeAll(async () => {
  prepareServer();
  [postgres, redis] = await Promise.all([PostgresServer.start(), RedisServer.start()]);
}, 2 * MINUTE);
afterAll(async () => {
  await Promise.all([postgres.stop(), redis.stop()]);
}, MINUTE);

/** Two servers on a database of their own, behind one address. */
class Pair {
  readonly #environment: Record<string, string>;
  readonly #servers: [ServerProcess, ServerProcess];
  readonly balancer: Balancer;

  private constructor(
    environment: Record<string, string>,
    servers: [ServerProcess, ServerProcess],
    balancer: Balancer,
  ) {
    this.#environment = environment;
    this.#servers = servers;
    this.balancer = balancer;
    this.#point();
  }

  static async start(database: string): Promise<Pair> {
    const environment = { DATABASE_URL: database, REDIS_URL: redis.url, CHOCKSIDE_SECRET: SECRET };
    const start = () => ServerProcess.start("", environment);
    // Both at once, on an empty database: one migrates and fills it, the other waits.
    return new Pair(environment, await Promise.all([start(), start()]), await Balancer.start());
  }

  get urls(): [string, string] {
    return [this.#servers[0].url, this.#servers[1].url];
  }

  async kill(which: 0 | 1): Promise<void> {
    await this.#servers[which].kill();
  }

  async back(which: 0 | 1): Promise<void> {
    this.#servers[which] = await ServerProcess.start("", this.#environment);
    this.#point();
  }

  async stop(): Promise<(number | null)[]> {
    const codes = await Promise.all(this.#servers.map((server) => server.stop("SIGTERM")));
    await this.balancer.close();
    return codes;
  }

  #point(): void {
    this.balancer.before(...this.urls);
  }
}

describe("two real servers behind one address", () => {
  let url: string;
  let pair: Pair;

  beforeAll(async () => {
    url = await postgres.database("pair");
    pair = await Pair.start(url);
  }, MINUTE);
  afterAll(async () => {
    expect(await pair.stop()).toEqual([0, 0]);
  }, MINUTE);

  it(
    "[CLU-4] count wrong PINs together, however they are spread; and let people in on both",
    async () => {
      const attempt = async (at: string, pin: string) => {
        const reply = await fetch(`${at}/api/sign-in`, {
          method: "POST",
          headers: { "content-type": "application/json" },
          body: JSON.stringify({ handle: "wenna", pin, device: { id: "d1", name: "Tablet" } }),
        });
        return reply.status;
      };
      const at = (n: number) => pair.urls[n % 2] as string;
      const wrong = await Promise.all(Array.from({ length: 12 }, (_, n) => attempt(at(n), "000000")));
      expect(wrong.filter((status) => status === 401)).toHaveLength(5);
      expect(wrong.filter((status) => status === 429 || status === 423)).toHaveLength(7);
      // The right one waits too, on either.
      for (const n of [0, 1]) expect(await attempt(at(n), "410273")).not.toBe(200);
      const token = await signInOn(pair.urls[0], ...CREW.cockpit);
      const me = await fetch(`${pair.urls[1]}/api/me`, { headers: { authorization: `Bearer ${token}` } });
      expect(me.status).toBe(200);
    },
    MINUTE,
  );

  it(
    "[CLU-10] start an aircraft while one of them, Redis and PostgreSQL go and come: nothing answered is lost",
    async () => {
      const crew = await runCrew({
        url: pair.balancer.url,
        pace: PACE,
        seed: WILLING,
        plan: { aircraft: "QX-PEN" },
      });
      const watcher = await signInOn(pair.urls[0], ...CREW.supervisor);
      const held = await planOn(pair.urls[1], watcher);
      const lane = new HoldLane(held);
      let over = false;
      let moves = 0;
      const load = async () => {
        while (!over) {
          const panel = await connect(pair.balancer.url, watcher);
          if (panel.socket.connected) {
            moves += 1;
            await panel.watch(held).catch(() => {});
            await lane.run(panel, () => over && panel.close()).catch(() => panel.close());
          }
          panel.close();
          await pause(50);
        }
      };
      const loading = load();
      const ended = crew.done.finally(() => {
        over = true;
      });
      const store = new PostgresEventStore({ url });
      /** What is done once the start has come to event `seq`, and before it is over. */
      const at = async (seq: number, work: () => Promise<unknown>) => {
        for (;;) {
          const row = await store.session(crew.sessionId).catch(() => null);
          if (row && row.headSeq >= seq) {
            expect(row.closedAt).toBeNull();
            return work();
          }
          await pause(20);
        }
      };
      await at(30, () => pair.kill(0));
      await at(45, () => redis.kill());
      await at(60, () => pair.back(0));
      await at(75, () => pair.kill(1));
      await at(90, () => postgres.restart());
      await at(100, () => redis.back());
      await at(105, () => pair.back(1));
      expect(await ended).toBe("closed");
      await loading;
      await store.close();
      const last = await connect(pair.urls[0], watcher);
      await lane.flush(last);
      last.close();

      const record = await onPostgres(url).record();
      const acked = new Map<string, Acked>(lane.acked);
      const { faults, restarts, events } = findings(record, acked);
      console.log(`${events} events, ${acked.size} answers on the side, ${moves} links of one panel`);
      expect(faults).toEqual([]);
      // Somebody always served: nothing was voided.
      expect(restarts).toBe(0);
      expect(acked.size).toBeGreaterThan(50);
      expect(moves).toBeGreaterThan(1);

      // Every panel, on whichever server, ends with what the record says.
      const stored = record.find(({ row }) => row.id === crew.sessionId)?.events ?? [];
      let state: SessionState | null = null;
      for (const { body } of stored) state = evolve(state, readSealed(body).event);
      for (const at of pair.urls) {
        const panel = await connect(at, watcher);
        const sync = await panel.watch(crew.sessionId);
        expect("state" in sync && sync.state).toEqual(JSON.parse(JSON.stringify(state)));
        panel.close();
      }
    },
    2 * MINUTE,
  );
});

describe("one server on PostgreSQL, killed again and again under load", () => {
  it(
    "[STO-7, TIM-3, CLU-8] loses nothing it answered, does nothing twice, keeps holds and voids clearances",
    async () => {
      const kills = 4;
      const report = await killRun(onPostgres(await postgres.database("killed")), 20_260_603, kills);
      console.log(JSON.stringify(report));
      expect(report.faults).toEqual([]);
      expect(report.restarts).toBe(2 * kills);
      expect(report.acked).toBeGreaterThan(5 * kills);
      expect(report.holdsKept + report.clearancesEnded).toBeGreaterThan(0);
    },
    3 * MINUTE,
  );
});
