import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout } from "node:timers/promises";
import { expect, it } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import { chance } from "../../shared/partners/chance.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { leastType } from "../types/least.ts";
import { signInOn } from "./kill-run.ts";
import { prepareServer, ServerProcess } from "./server-process.ts";

const KILLS = 3;
const PIN = "90210377";
/** A person of the house, who is not of the demo, signs in at the end. */
const ANY_DEVICE = { CHOCKSIDE_DEVICES: "any" };
const merryn = demo.people.find((p) => p.handle === "merryn");
const [planned] = demo.aircraft;

/** One thing as the house's pages send it: how it is entered, how it is read again, and what must then be there. */
interface Entry {
  readonly what: string;
  readonly method: "POST" | "PUT";
  readonly path: string;
  readonly body: object;
  /** The path at which it is read. */
  readonly at: string;
  /** Returns the part of the answer that says what was entered; undefined where it is not there. */
  readonly of: (answer: unknown) => unknown;
  readonly is: unknown;
}

const own = (answer: unknown, keys: readonly string[]) =>
  Object.fromEntries(keys.map((k) => [k, (answer as Record<string, unknown>)[k]]));

/** The sections of a type, in the order in which they are entered. */
const SECTIONS = Object.keys(leastType()) as (keyof AircraftType)[];

/** Returns the n-th entry: a person, an aircraft, a piece of equipment and a section of a type by turns. */
function entryOf(n: number): Entry {
  switch (n % 4) {
    case 0: {
      const person = { handle: `hand${n}`, name: `Hand ${n}`, mayHold: ["fireGuard", "groundPower"] };
      const mine = (all: unknown) => (all as { name: string }[]).find((p) => p.name === person.name);
      return {
        ...{ what: `person ${n}`, method: "POST", path: "/people", body: { ...person, pin: PIN } },
        ...{ at: "/people/everybody", is: { ...person, active: true } },
        of: (all) => mine(all) && own(mine(all), ["handle", "name", "mayHold", "active"]),
      };
    }
    case 1: {
      const id = `QX-K${n}`;
      const fitted = {
        n: 1,
        engine: { serial: `E${n}`, hours: n },
        propeller: { serial: null, hours: null },
      };
      const body = {
        ...{ id, name: `Bird ${n}`, typeId: planned?.typeId, typeVersion: 1, stand: "Stand 4", notes: null },
        fitted: [{ ...fitted, starter: null }],
      };
      const keys = ["id", "name", "typeId", "typeVersion", "stand", "notes", "fitted"];
      return {
        ...{ what: `aircraft ${n}`, method: "POST", path: "/aircraft", body },
        ...{ at: `/aircraft/${id}`, is: body, of: (answer) => own(answer, keys) },
      };
    }
    case 2: {
      const body = { id: `CHK-${n}`, kind: "chocks", name: `Pair ${n}`, testedUntil: null, place: "Hangar" };
      return {
        ...{
          what: `equipment ${n}`,
          method: "POST",
          path: "/equipment",
          body: { ...body, notes: null, out: null },
        },
        ...{
          at: `/equipment/${body.id}`,
          is: body,
          of: (answer) => own((answer as { body: unknown }).body, Object.keys(body)),
        },
      };
    }
    default: {
      const sections = SECTIONS.slice(0, 1 + (n >> 2));
      const entered = own(leastType(), sections);
      return {
        ...{ what: `section ${n}`, method: "PUT", path: "/begun-types/wren-twin", body: entered },
        ...{ at: "/begun-types/wren-twin", is: entered },
        of: (answer) => (answer as { entered: unknown }).entered,
      };
    }
  }
}

/** A supervisor's device at a house whose server is killed. */
class Office {
  readonly #url: string;
  readonly #token: string;
  readonly #gone = new AbortController();

  private constructor(url: string, token: string) {
    this.#url = url;
    this.#token = token;
  }

  static async at(url: string): Promise<Office> {
    return new Office(url, await signInOn(url, "merryn", merryn?.pin ?? ""));
  }

  /** Returns the answer, and the revision of what it is about; undefined where there is nothing. */
  async ask(method: string, path: string, body?: object, tag?: string) {
    const reply = await fetch(`${this.#url}/api${path}`, {
      method,
      signal: this.#gone.signal,
      headers: {
        authorization: `Bearer ${this.#token}`,
        ...(body && { "content-type": "application/json" }),
        ...(tag && { "if-match": tag }),
      },
      ...(body && { body: JSON.stringify(body) }),
    });
    if (reply.status === 404) return undefined;
    if (!reply.ok) throw new Error(`${method} ${path}: ${await reply.text()}`);
    return { answer: (await reply.json()) as unknown, tag: reply.headers.get("etag") ?? undefined };
  }

  /** Waits for no more answers: a request may never learn that its server is gone. */
  leave(): void {
    this.#gone.abort();
  }

  async enter({ method, path, body, at }: Entry): Promise<void> {
    const tag = method === "PUT" ? (await this.ask("GET", at))?.tag : undefined;
    await this.ask(method, path, body, tag);
  }

  /** Returns what is there of an entry. */
  async read({ at, of }: Entry): Promise<unknown> {
    const there = await this.ask("GET", at);
    return there && of(there.answer);
  }
}

/** Enters one thing after another until the server is killed. */
class Trial {
  /** The last entry, answered or not. */
  last: Entry | null = null;
  killed = false;
  next: number;
  readonly #office: Office;
  /** Answered entries. A section of the type replaces the one before. */
  readonly #kept: Map<string, Entry>;
  #count = 0;
  #seen: { at: number; then(): void } | null = null;

  constructor(office: Office, kept: Map<string, Entry>, from: number) {
    this.#office = office;
    this.#kept = kept;
    this.next = from;
  }

  /** @throws Error when something is refused while the server lives */
  async enter(): Promise<void> {
    try {
      for (;;) {
        const entry = entryOf(this.next);
        this.next += 1;
        this.last = entry;
        await this.#office.enter(entry);
        this.#kept.set(entry.method === "POST" ? entry.what : entry.at, entry);
        this.#count += 1;
        if (this.#count === this.#seen?.at) this.#seen.then();
      }
    } catch (error) {
      if (!this.killed) throw error;
    }
  }

  /** Resolves once so many entries were answered. */
  answered(count: number): Promise<void> {
    return new Promise((then) => {
      this.#seen = { at: count, then };
    });
  }
}

it("[HSE-60] killed at any moment while people, aircraft, equipment and sections of a type are entered, what was answered is there and nothing is half there", async () => {
  prepareServer();
  const folder = mkdtempSync(join(tmpdir(), "chockside-entries-"));
  const file = join(folder, "chockside.db");
  const kept = new Map<string, Entry>();
  let n = 0;
  let running: ServerProcess | null = await ServerProcess.start(file, ANY_DEVICE);
  try {
    await (await Office.at(running.url)).ask("POST", "/begun-types", {
      ...{ id: "wren-twin", name: "Wren twin", engines: 2 },
    });
    for (let kill = 0; kill < KILLS; kill += 1) {
      running ??= await ServerProcess.start(file, ANY_DEVICE);
      const before = await Office.at(running.url);
      const trial = new Trial(before, kept, n);
      const working = trial.enter();
      await Promise.race([trial.answered(2 + kill), working]);
      // Anywhere in the entry after that.
      await setTimeout(40 * chance(29, `kill ${kill}`));
      trial.killed = true;
      await running.kill();
      running = null;
      before.leave();
      await working;
      n = trial.next;

      running = await ServerProcess.start(file, ANY_DEVICE);
      const office = await Office.at(running.url);
      const { last } = trial;
      for (const entry of kept.values()) {
        // The section that was never answered may have replaced the one before it, whole.
        const allowed = entry.method === "PUT" && last?.method === "PUT" ? [entry.is, last.is] : [entry.is];
        expect(allowed, entry.what).toContainEqual(await office.read(entry));
      }
      if (last?.method === "POST")
        expect([undefined, last.is], last.what).toContainEqual(await office.read(last));
    }
    // Each kind was entered, and a person of them can sign in.
    expect(kept.size).toBeGreaterThan(3);
    const [person] = kept.values();
    await signInOn(running.url, own(person?.is, ["handle"]).handle as string, PIN);
  } finally {
    await running?.kill();
    rmSync(folder, { recursive: true, force: true });
  }
}, 180_000);
