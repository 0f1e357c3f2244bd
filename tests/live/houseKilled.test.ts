import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout } from "node:timers/promises";
import Database from "better-sqlite3";
import { expect, it } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import { chance } from "../../shared/partners/chance.ts";
import { signInOn } from "./kill-run.ts";
import { prepareServer, ServerProcess } from "./server-process.ts";

const KILLS = 5;
const PIECES = 60;
const merryn = demo.people.find((p) => p.handle === "merryn");
const csvOf = (lines: readonly string[]) => lines.map((l) => `${l}\r\n`).join("");

/** A house on a server that is killed. */
class Client {
  readonly #url: string;
  readonly #token: string;
  /** Files that the server said it had taken in. */
  readonly taken: number[] = [];

  private constructor(url: string, token: string) {
    this.#url = url;
    this.#token = token;
  }

  static async at(url: string): Promise<Client> {
    return new Client(url, await signInOn(url, "merryn", merryn?.pin ?? ""));
  }

  async post<T>(path: string, body: object): Promise<T> {
    const reply = await fetch(`${this.#url}/api${path}`, {
      method: "POST",
      headers: { authorization: `Bearer ${this.#token}`, "content-type": "application/json" },
      body: JSON.stringify(body),
    });
    if (!reply.ok) throw new Error(`${path}: ${await reply.text()}`);
    return (await reply.json()) as T;
  }

  async take(kind: string, csv: string): Promise<void> {
    const { tag } = await this.post<{ tag: string }>(`/house/lists/${kind}/judgement`, { csv });
    await this.post(`/house/lists/${kind}`, { csv, tag });
  }

  /** Takes in one file after another, of equipment and of people by turns, until the server is gone. */
  async takeOn(from: number, people: readonly string[]): Promise<number> {
    for (let n = from; ; n += 1)
      try {
        const pieces = Array.from({ length: PIECES }, (_, i) => `F${n}-${i},chocks,Pair ${n}`);
        await this.take("equipment", csvOf(["label,kind,name", ...pieces]));
        const day = new Date(Date.UTC(2030, 0, 1 + n)).toISOString().slice(0, 10);
        await this.take("people", csvOf(["handle,until:fire", ...people.map((p) => `${p},${day}`)]));
        this.taken.push(n);
      } catch {
        return n + 1;
      }
  }
}

it("[HSE-26] killed at any moment while lists are taken in, each file was taken in whole or not at all, and what was said to be done is there", async () => {
  prepareServer();
  const folder = mkdtempSync(join(tmpdir(), "chockside-lists-"));
  const file = join(folder, "chockside.db");
  const needs = { cockpit: "warns", fireGuard: "warns", groundPower: "warns", supervisor: "warns" };
  const people = demo.people.map((p) => p.handle).filter((handle) => handle !== "merryn");
  let from = 0;
  let whole = 0;
  let running: ServerProcess | null = null;
  try {
    for (let kill = 0; kill < KILLS; kill += 1) {
      running = await ServerProcess.start(file);
      const client = await Client.at(running.url);
      if (kill === 0)
        await client.post("/currencies", {
          ...{ id: "fire", name: "Fire training", recencyDays: null, retired: false, needs },
        });
      const working = client.takeOn(from, people);
      await setTimeout(500 + 1_500 * chance(17, `kill ${kill}`));
      await running.kill();
      running = null;
      from = await working;

      const db = new Database(file, { readonly: true });
      const pieces = db
        .prepare<[], { file: string; n: number }>(
          `SELECT substr("id", 1, instr("id", '-') - 1) AS "file", count(*) AS "n"
           FROM "RegisterEntry" WHERE "kind" = 'equipment' AND "id" LIKE 'F%' GROUP BY 1`,
        )
        .all();
      const days = db
        .prepare<[], { until: string; n: number }>(
          `SELECT "until", count(*) AS "n" FROM "CurrencyDate" WHERE "kind" = 'fire' GROUP BY 1`,
        )
        .all();
      db.close();
      expect(pieces.filter((p) => p.n !== PIECES)).toEqual([]);
      if (days.length > 0) expect(days.map((d) => d.n)).toEqual([people.length]);
      for (const n of client.taken) expect(pieces.map((p) => p.file)).toContain(`F${n}`);
      whole += client.taken.length;
    }
    // A server that took nothing in before it was killed would prove nothing.
    expect(whole).toBeGreaterThan(0);
  } finally {
    await running?.kill();
    rmSync(folder, { recursive: true, force: true });
  }
}, 180_000);
