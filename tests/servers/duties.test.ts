import pg from "pg";
import { afterAll, beforeAll, expect, it } from "vitest";
import { systemTimers } from "../../server/clock.ts";
import { PostgresDuty } from "../../server/store/postgres/duties.ts";
import { openPostgres } from "../../server/store/postgres/open.ts";
import { SharedProgress } from "../../server/store/postgres/webhook-progress.ts";
import { PostgresServer } from "./postgres-server.ts";

let postgres: PostgresServer;
let url: string;
beforeAll(async () => {
  postgres = await PostgresServer.start();
  url = await postgres.database("duties");
  await openPostgres({ url }, Date.now());
}, 120_000);
afterAll(() => postgres.stop());

async function until(is: () => boolean): Promise<void> {
  for (const end = Date.now() + 30_000; !is() && Date.now() < end; )
    await new Promise((done) => setImmediate(done));
  expect(is()).toBe(true);
}

/** Ends the connections by which a duty is held, as a broken network does. */
async function cut(): Promise<void> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  await client.query(
    "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE application_name = 'chockside duty mqtt'",
  );
  await client.end();
}

it("[INT-36] one of two servers has a duty, another takes it over, and one that was cut off stops first", async () => {
  const at = new Set<string>();
  const began: string[] = [];
  let most = 0;
  const server = (name: string) =>
    new PostgresDuty({ url }, { timers: systemTimers, log: { error() {}, info() {} } }).share(
      "mqtt",
      async () => {
        at.add(name);
        began.push(name);
        most = Math.max(most, at.size);
        return {
          close: async () => {
            at.delete(name);
          },
        };
      },
    );
  const one = server("one");
  await until(() => at.has("one"));
  const two = server("two");
  await one();
  await until(() => at.has("two"));
  expect(began).toEqual(["one", "two"]);
  expect(most).toBe(1);
  // Alone, it has the duty again on a new connection.
  await cut();
  await until(() => began.length === 3 && at.size === 1);
  expect(at).toEqual(new Set(["two"]));
  await two();
  expect(at.size).toBe(0);
}, 120_000);

it("[INT-36] how far a webhook came, and what was given up, is the same for all of them", async () => {
  const [one, two] = [new SharedProgress({ url }), new SharedProgress({ url })];
  expect(await one.position("hangar")).toBeNull();
  await one.reached("hangar", "a.1");
  await one.reached("hangar", "a.2");
  expect(await two.position("hangar")).toBe("a.2");
  const letter = (id: string) => ({
    at: "2026-06-01T09:00:00Z",
    target: "hangar",
    id,
    kind: "stop.given",
    why: "no",
  });
  const ids = Array.from({ length: 101 }, (_, n) => `a.${n + 1}`);
  // Two servers may give up at once, each for a target of its own.
  await Promise.all(ids.map((id, n) => (n % 2 ? one : two).gaveUp(letter(id))));
  expect(new Set((await two.deadLetters()).map((l) => l.id))).toEqual(new Set(ids));
  await two.taken({ target: "hangar", id: "a.100" });
  expect((await one.deadLetters()).map((l) => l.id)).not.toContain("a.100");
  await one.close();
  await two.close();
});
