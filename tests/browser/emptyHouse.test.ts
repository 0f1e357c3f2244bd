import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout } from "node:timers/promises";
import Database from "better-sqlite3";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { Stage } from "../../seed/crew/stage.ts";
import { readSealed } from "../../shared/evidence/read.ts";
import { evolve } from "../../shared/session/evolve.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { prepareServer, ServerProcess } from "../live/server-process.ts";
import { playOut } from "../seed/stage.ts";
import { leastType } from "../types/least.ts";
import { playByTouch } from "./byTouch.ts";
import type { Crew } from "./crew.ts";
import {
  ADA,
  addEquipment,
  addPeople,
  BEN,
  CAS,
  DEE,
  enrolAnother,
  firstRun,
  type Hand,
  signInOn,
  windowOf,
} from "./houseSteps.ts";
import { LONG_FORM } from "./longForm.ts";
import { axeInEachLight } from "./measure.ts";
import { openBrowser, type Seat } from "./seat.ts";
import { Typist } from "./typist.ts";

const folder = mkdtempSync(join(tmpdir(), "chockside-empty-"));
const file = join(folder, "chockside.db");
let server: ServerProcess;
let browser: Browser;

beforeAll(async () => {
  prepareServer();
  server = await ServerProcess.start(file, { CHOCKSIDE_DEMO: "off", CHOCKSIDE_TLS: "off" });
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  await server?.kill();
  rmSync(folder, { recursive: true, force: true });
});

/** Returns a function that returns the session as it is recorded now; each call reads only what is new. */
function record(session: string): () => SessionState {
  let state: SessionState | null = null;
  return () => {
    const db = new Database(file, { readonly: true });
    const rows = db
      .prepare<[string, number], { body: string }>(
        `SELECT "body" FROM "Event" WHERE "session" = ? AND "seq" > ? ORDER BY "seq"`,
      )
      .all(session, state?.seq ?? -1);
    db.close();
    for (const { body } of rows) state = evolve(state, readSealed(body).event);
    if (!state) throw new Error(`nothing is recorded of ${session}`);
    return state;
  };
}

/** Returns the type without what the server writes into it. */
function figuresOf(type: AircraftType): unknown {
  const { author: _author, approvedBy: _approvedBy, ...rest } = type;
  return JSON.parse(JSON.stringify(rest, (key, value) => (key === "by" ? undefined : value)));
}

/** Milliseconds that a save takes on a bad network. */
const SLOW_MS = 800;

/** Returns the two-engine type with two engines more, outboard of the others. */
function fourOf(type: AircraftType): AircraftType {
  const [port, starboard] = type.engines;
  if (!port || !starboard) throw new Error("it has two engines");
  return {
    ...{ ...type, id: "wren-four", name: "Wren four", plan: { ...type.plan, span: 40 } },
    engines: [
      { ...port, y: -9 },
      { ...port, n: 2 },
      { ...starboard, n: 3 },
      { ...starboard, n: 4, y: 9 },
    ],
    defaultOrder: [3, 4, 2, 1],
  };
}

/** Takes a post in the session that the seat shows. */
async function takePost(seat: Seat, post: string): Promise<void> {
  await seat.openPosts();
  await seat.press(`Take ${post}`);
  await seat.press("Close");
}

/** Begins a type and enters all of it, then makes it a draft. */
async function enterType(hand: Hand, wanted: AircraftType): Promise<Typist> {
  await hand.press("New type");
  await hand.fill("Name", wanted.name);
  await hand.fill("Identifier, e.g. carrack-four", wanted.id);
  await hand.choose("Engines", String(wanted.engines.length));
  await hand.press("Make the draft");
  await hand.on(/^Edit/);
  const typist = new Typist(hand.seat);
  await typist.enter(wanted);
  await hand.seat.sees("All is entered and in order.");
  await hand.press("Finish: make it a draft");
  await hand.seat.sees(/Not approved: cannot be planned/);
  await hand.press("All types");
  await hand.press("Back to the ramp");
  return typist;
}

/** Approves version 1 of a type that somebody else entered. */
async function approve(seat: Seat, type: AircraftType): Promise<void> {
  await seat.press("Aircraft types");
  await seat.press(/^Version 1/, seat.page.getByRole("region", { name: type.name }));
  await seat.page.getByLabel(`I am ${BEN.name}, and I checked every figure against its source.`).check();
  await seat.page.getByLabel("Your PIN again").fill(BEN.pin);
  await seat.press("Approve version 1");
  await seat.sees(new RegExp(`Approved by ${BEN.name}`));
  await seat.press("All types");
  await seat.press("Back to the ramp");
}

/** Adds an aircraft and goes on to its plan. */
async function addAircraft(hand: Hand, registration: string, type: AircraftType): Promise<void> {
  await hand.fill("Registration", registration);
  await hand.fill("Name", `Own ${type.engines.length}`);
  await hand.choose("Type", `${type.name}, version 1`);
  await hand.press("Add an aircraft");
  await hand.seat.sees("Can be planned");
  await hand.press("Plan a start");
  await hand.seat.page.getByRole("textbox", { name: "Place" }).fill("Stand 1");
}

/** Plans what was entered, and returns the session. */
async function plan({ seat }: Hand): Promise<string> {
  await seat.press("Plan this start");
  await seat.page.waitForURL(/\/session\//);
  return seat.page.url().split("/").at(-1) ?? "";
}

/** Looks at the page of rehearsals, on which a house without an aircraft begins none, in each light, and comes back. */
async function nothingToRehearse(seat: Seat): Promise<void> {
  await seat.turnTo("/rehearse");
  await seat.page.getByRole("heading", { name: "No aircraft can be rehearsed yet" }).waitFor();
  expect(await seat.page.getByRole("combobox").count()).toBe(0);
  expect(await axeInEachLight(seat.page)).toEqual([]);
  await seat.turnTo("/");
  await seat.page.getByRole("heading", { name: "The ramp" }).waitFor();
}

let ada: Hand;
let ben: Seat;

it("[HSE-20] [HSE-23] [HSE-61] [PAN-7] a stranger goes from an empty house to a start of their own aircraft and its release, by touch and keys alone", async () => {
  const wanted = leastType();
  const [, link = ""] = await server.printed(/(http:\S+\/first#\S+)/);
  const { origin } = new URL(link);
  ada = await firstRun(await windowOf(browser), link);
  await addPeople(ada, [BEN, CAS, DEE]);
  await nothingToRehearse(ada.seat);
  await ada.press("To the types");
  await ada.on("Aircraft types");
  const before = { screens: ada.screens.length, entries: ada.entries };
  expect(before.screens).toBeLessThanOrEqual(12);
  const typist = await enterType(ada, wanted);

  const tablet = await enrolAnother(browser, ada.seat, origin, "Tablet of the cockpit");
  ben = await signInOn(tablet, origin, BEN);
  await approve(ben, wanted);
  await addEquipment(ada);
  await ada.press("Add an aircraft");
  await addAircraft(ada, "QX-OWN", wanted);
  for (const label of ["CART-1", "EXT-1", "CHK-1"])
    await ada.seat.page.locator(`input[name="equipment-${label}"]`).check();
  const session = await plan(ada);

  const phone = await enrolAnother(browser, ben, origin, "Phone of the ramp");
  const cas = await signInOn(phone, origin, CAS);
  const dee = await signInOn(phone, origin, DEE);
  const crew: Crew = { cockpit: ben, guard: cas, power: dee, supervisor: ada.seat, all: [] };
  crew.all.push(ben, cas, dee, ada.seat);
  for (const seat of [ben, cas, dee]) await seat.page.goto(`${origin}/session/${session}`);
  await takePost(ada.seat, "supervisor");
  await takePost(ben, "cockpit");
  await takePost(cas, "fire guard");
  await takePost(dee, "ground power");
  const end = await playByTouch(crew, record(session));
  expect([end.stage, end.aircraft]).toEqual(["closed", "QX-OWN"]);
  expect(end.engines.map((e) => e.attempts)).toEqual([1, 1]);
  expect(figuresOf(end.type)).toEqual(figuresOf(wanted));
  expect([end.type.author, end.type.approvedBy]).toEqual([ADA.name, BEN.name]);
  expect(end.equipment?.map((e) => e.facts.id)).toEqual(["CART-1", "EXT-1", "CHK-1"]);
  console.info(
    `an empty house: ${before.screens} screens and ${before.entries} entries before the type, ${typist.sections} sections and ${typist.entries} entries for the type`,
  );
  expect(crew.all.flatMap((s) => s.complaints)).toEqual([]);
});

// Only the long form: what differs from the start above is the number of engines.
if (LONG_FORM)
  it("[HSE-20] a four-engine type is entered in the same way, approved and planned, and a scripted crew starts it to its end", async () => {
    const wanted = fourOf(leastType());
    for (const seat of [ada.seat, ben]) await seat.page.goto(new URL("/", ada.seat.page.url()).href);
    await ada.press("Aircraft types");
    await enterType(ada, wanted);
    await approve(ben, wanted);
    await ada.press("Aircraft");
    await ada.press("Add an aircraft");
    await addAircraft(ada, "QX-FOU", wanted);
    const { type } = record(await plan(ada))();
    expect(figuresOf(type)).toEqual(figuresOf(wanted));
    const stage = new Stage(type, "groundPower");
    stage.everyoneClaims();
    expect(playOut(stage, { seed: 3, pace: 1, cart: "CART-1" })).toBeNull();
    expect(stage.state.stage).toBe("closed");
  });

it("[TYP-50] what is entered while a save is under way stays, and is saved with the next", async () => {
  const { page } = ada.seat;
  await page.goto(new URL("/types", page.url()).href);
  await ada.press("New type");
  await ada.fill("Name", "Slow twin");
  await ada.fill("Identifier, e.g. carrack-four", "slow-twin");
  await ada.press("Make the draft");
  await ada.on(/^Edit/);
  const answered: string[] = [];
  await page.route("**/api/begun-types/slow-twin", async (route) => {
    const reply = await route.fetch({ maxRetries: 3 });
    await setTimeout(SLOW_MS);
    await route.fulfill({ response: reply });
    answered.push(route.request().method());
  });
  const parts = page.getByRole("navigation", { name: "Parts of the type" });
  const span = page.locator('[id="field-plan.span"]');
  await page.locator('[id="field-note"]').fill("Made up");
  await parts.getByRole("button", { name: /^Plan\b/ }).click();
  await span.fill("28");
  // The save, and what the server then holds.
  await expect.poll(() => answered, { timeout: 10 * SLOW_MS }).toEqual(["PUT", "GET"]);
  expect(await span.inputValue()).toBe("28");
  await page.unroute("**/api/begun-types/slow-twin");
  await ada.press("Save");
  await ada.seat.sees(/Saved\.$/);
  await page.reload();
  await parts.getByRole("button", { name: /^Plan\b/ }).click();
  expect(await span.inputValue()).toBe("28");
});
