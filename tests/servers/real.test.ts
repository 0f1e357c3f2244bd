import { setTimeout as pause } from "node:timers/promises";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { runCrew } from "../../seed/crew/run.ts";
import { Names } from "../../server/evidence/names.ts";
import { replay } from "../../server/sessions/replay.ts";
import { postgresDirectory } from "../../server/store/postgres/directory.ts";
import { PostgresEventStore } from "../../server/store/postgres/events.ts";
import { type Acked, HoldLane } from "../live/kill-load.ts";
import { CREW, connect, killRun, onPostgres, planOn, signInOn } from "../live/kill-run.ts";
import { findings } from "../live/kill-verify.ts";
import { historyOf } from "../live/rebuilt-history.ts";
import { prepareServer, ServerProcess } from "../live/server-process.ts";
import { Balancer } from "./balancer.ts";
import { PostgresServer } from "./postgres-server.ts";
import { RedisServer } from "./redis-server.ts";

const MINUTE = 60_000;
/** Far faster than people; the limits of the aircraft type are still easy to keep. */
const PACE = 40;
const WILLING = 3;
const SECRET = "b3VyIHNlcnZlcnMga25vdyBlYWNoIG90aGVyIGJ5IHRoaXM=";

let postgres: PostgresServer;
let redis: RedisServer;
beforeAll(async () => {
  prepareServer();
  [postgres, redis] = await Promise.all([PostgresServer.start(), RedisServer.start()]);
}, 5 * MINUTE);
afterAll(async () => {
  await Promise.all([postgres.stop(), redis.stop()]);
});

const environmentOf = (database: string) => ({
  DATABASE_URL: database,
  REDIS_URL: redis.url,
  CHOCKSIDE_SECRET: SECRET,
});

async function query(url: string, text: string): Promise<void> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  await client.query(text);
  await client.end();
}

/** Returns what a server tells of an aircraft's starts and defects, which it works out from the sealed events. */
async function historyAt(url: string, token: string) {
  const ask = async (path: string) => {
    const reply = await fetch(`${url}/api/aircraft/QX-PEN/${path}`, {
      headers: { authorization: `Bearer ${token}` },
    });
    if (reply.status !== 200) throw new Error(`${path}: ${reply.status}`);
    return reply.json();
  };
  return { starts: await ask("history"), defects: await ask("defects") };
}

/** Servers on one database. Two of them are behind one address, the others are ready to replace them. */
class Cluster {
  readonly #servers: ServerProcess[];
  readonly balancer: Balancer;

  private constructor(servers: ServerProcess[], balancer: Balancer) {
    this.#servers = servers;
    this.balancer = balancer;
    this.#point();
  }

  static async start(database: string, count: number): Promise<Cluster> {
    const environment = environmentOf(database);
    // All start at once on an empty database: one migrates and fills it, the others wait.
    const starting = Array.from({ length: count }, () => ServerProcess.start("", environment));
    const started = await Promise.allSettled(starting);
    const servers = started.flatMap((s) => (s.status === "fulfilled" ? [s.value] : []));
    const failed = started.find((s) => s.status === "rejected");
    if (failed) {
      await Promise.all(servers.map((server) => server.kill()));
      throw failed.reason;
    }
    return new Cluster(servers, await Balancer.start());
  }

  get urls(): [string, string] {
    const [one, two] = this.#servers.map((server) => server.url);
    return [one ?? "", two ?? ""];
  }

  get all(): string[] {
    return this.#servers.map((server) => server.url);
  }

  /** Kills the server that has served longest; another takes its place behind the address. */
  async kill(): Promise<void> {
    await this.#servers.shift()?.kill();
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
  let cluster: Cluster;

  beforeAll(async () => {
    url = await postgres.database("pair");
    cluster = await Cluster.start(url, 4);
  }, 5 * MINUTE);
  afterAll(async () => {
    expect(await cluster.stop()).toEqual([0, 0]);
  });

  it("[CLU-4] count wrong PINs together, however they are spread, and both let people sign in", async () => {
    const attempt = async (at: string, pin: string) => {
      const reply = await fetch(`${at}/api/sign-in`, {
        method: "POST",
        headers: { "content-type": "application/json" },
        body: JSON.stringify({ handle: "wenna", pin, device: { id: "d1", name: "Tablet" } }),
      });
      return reply.status;
    };
    const at = (n: number) => cluster.urls[n % 2] as string;
    const wrong = await Promise.all(Array.from({ length: 12 }, (_, n) => attempt(at(n), "000000")));
    expect(wrong.filter((status) => status === 401)).toHaveLength(5);
    expect(wrong.filter((status) => status === 429 || status === 423)).toHaveLength(7);
    // The right PIN waits too, on either server.
    for (const n of [0, 1]) expect(await attempt(at(n), "410273")).not.toBe(200);
    const token = await signInOn(cluster.urls[0], ...CREW.cockpit);
    const me = await fetch(`${cluster.urls[1]}/api/me`, { headers: { authorization: `Bearer ${token}` } });
    expect(me.status).toBe(200);
  });

  it(
    "[CLU-10] [HIS-3] [HIS-41] start an aircraft while one of them, Redis and PostgreSQL go and come: nothing answered is lost, and the history kept meanwhile is that of a server that works it out anew",
    async () => {
      const crew = await runCrew({
        url: cluster.balancer.url,
        pace: PACE,
        seed: WILLING,
        plan: { aircraft: "QX-PEN" },
      });
      const watcher = await signInOn(cluster.urls[0], ...CREW.supervisor);
      const held = await planOn(cluster.urls[1], watcher);
      const lane = new HoldLane(held);
      let over = false;
      let moves = 0;
      const load = async () => {
        while (!over) {
          const panel = await connect(cluster.balancer.url, watcher);
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
      const directory = postgresDirectory({ url });
      /** Runs `work` once the start has reached event `seq`, before it is over. */
      const at = async <T>(seq: number, work: () => Promise<T>): Promise<T> => {
        for (;;) {
          const row = await store.session(crew.sessionId).catch(() => null);
          if (row && row.headSeq >= seq) {
            expect(row.closedAt).toBeNull();
            return work();
          }
          await pause(20);
        }
      };
      // Every server that will serve works out a part of the history now, and goes on from there afterwards.
      const partly = () => Promise.all(cluster.all.map((one) => historyAt(one, watcher)));
      await at(30, () => cluster.kill());
      await at(50, () => redis.kill());
      const early = await at(60, partly);
      const action = { type: "writeDefect", words: "Cowl loose", engine: 1, barsStart: false };
      const written = await fetch(`${cluster.urls[1]}/api/aircraft/QX-PEN/reports`, {
        method: "POST",
        headers: { authorization: `Bearer ${watcher}`, "content-type": "application/json" },
        body: JSON.stringify({ commandId: "00000000-0000-4000-8000-00000000def1", action }),
      });
      expect(await written.json()).toMatchObject({ status: "accepted" });
      await at(65, () => cluster.kill());
      await at(80, () => postgres.restart());
      await at(90, () => redis.back());
      expect(await ended).toBe("closed");
      await loading;
      const last = await connect(cluster.urls[0], watcher);
      await lane.flush(last);
      last.close();

      const record = await onPostgres(url).record();
      const acked = new Map<string, Acked>(lane.acked);
      const { faults, restarts, events } = findings(record, acked);
      console.log(`${events} events, ${acked.size} answers on the side, ${moves} links of one panel`);
      expect(faults).toEqual([]);
      // A server was always there, so nothing was voided.
      expect(restarts).toBe(0);
      expect(acked.size).toBeGreaterThan(50);
      expect(moves).toBeGreaterThan(1);

      // Every panel, on whichever server, ends with the state of the record.
      const row = record.find(({ row: { id } }) => id === crew.sessionId)?.row;
      if (!row) throw new Error("the session is not in the record");
      const names = await Names.open(directory.personal, [], () => "");
      const { state } = await replay(store, row, names);
      for (const at of cluster.urls) {
        const panel = await connect(at, watcher);
        const sync = await panel.watch(crew.sessionId);
        expect("state" in sync && sync.state).toEqual(JSON.parse(JSON.stringify(state)));
        panel.close();
      }
      const kept = await Promise.all(cluster.urls.map((one) => historyAt(one, watcher)));
      const searched = await Promise.all(cluster.urls.map((one) => historyOf(one, watcher, ["QX-PEN"])));
      // A server that begins finds no index, and makes it anew.
      await query(url, "DROP SCHEMA search CASCADE");
      const anew = await ServerProcess.start("", environmentOf(url));
      const built = await historyAt(anew.url, watcher);
      const found = await historyOf(anew.url, watcher, ["QX-PEN"]);
      expect(found.found.map(({ words }) => words)).toContain("Cowl loose");
      expect(searched).toEqual([found, found]);
      expect(await anew.stop("SIGTERM")).toBe(0);
      expect(built.starts.rows.length).toBeGreaterThan(0);
      expect(built.defects).toMatchObject([{ words: "Cowl loose", written: { name: "Merryn Tolvadden" } }]);
      for (const part of early) expect(part.starts).not.toEqual(built.starts);
      expect(kept).toEqual([built, built]);
      await Promise.all([store.close(), directory.close()]);
    },
    5 * MINUTE,
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
    5 * MINUTE,
  );
});
