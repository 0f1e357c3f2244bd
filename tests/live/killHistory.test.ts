import { randomUUID } from "node:crypto";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { chance } from "../../shared/partners/chance.ts";
import { CREW, planOn, signInOn } from "./kill-run.ts";
import { historyOf } from "./rebuilt-history.ts";
import { prepareServer, ServerProcess } from "./server-process.ts";

const SEED = 20_261_130;
const KILLS = 4;
const AIRCRAFT = ["QX-PEN", "QX-CTD", "QX-KES", "QX-KIV"];
const WORDS = ["Oil leak", "Cowl loose", "Ignición áspera", "Gauge sticks"];

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "chockside-kill-history-"));
  prepareServer();
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it("[HIS-41] a server killed again and again while it records and searches has the history that is built anew", async () => {
  const file = join(folder, "chockside.db");
  let server = await ServerProcess.start(file);
  const token = await signInOn(server.url, ...CREW.supervisor);
  const ask = async (path: string, body?: object) => {
    const reply = await fetch(`${server.url}/api${path}`, {
      method: body ? "POST" : "GET",
      headers: { authorization: `Bearer ${token}`, ...(body ? { "content-type": "application/json" } : {}) },
      ...(body ? { body: JSON.stringify(body) } : {}),
    });
    return reply.json();
  };
  const write = (aircraft: string, words: string) =>
    ask(`/aircraft/${aircraft}/reports`, {
      commandId: randomUUID(),
      action: { type: "writeDefect", words, barsStart: false },
    });
  let answered = 0;
  let died = 0;
  for (let kill = 0; kill < KILLS; kill += 1) {
    await planOn(server.url, token, AIRCRAFT[kill % AIRCRAFT.length] as string);
    // The server dies under this load: some of it is answered, some is not.
    const load = Array.from({ length: 24 }, (_, n) => {
      const aircraft = AIRCRAFT[n % AIRCRAFT.length] as string;
      const work =
        n % 3 === 0 ? ask("/search?q=oil") : write(aircraft, `${WORDS[n % WORDS.length]} ${kill}-${n}`);
      return work.then(
        () => {
          answered += 1;
        },
        () => {
          died += 1;
        },
      );
    });
    const wait = Math.floor(20 * chance(SEED, kill));
    await Promise.all(load.slice(0, wait));
    await server.kill();
    await Promise.all(load);
    server = await ServerProcess.start(file);
    await ask("/search?q=cowl");
  }
  // The run tested something: of the load some was answered and some died with a server.
  expect(answered).toBeGreaterThan(10);
  expect(died).toBeGreaterThan(0);
  const kept = await historyOf(server.url, token, AIRCRAFT);
  await server.kill();
  rmSync(`${file}.search`);
  server = await ServerProcess.start(file);
  const built = await historyOf(server.url, token, AIRCRAFT);
  expect(built.found.length).toBeGreaterThan(KILLS);
  expect(kept).toEqual(built);
  expect(await server.stop("SIGTERM")).toBe(0);
}, 300_000);
