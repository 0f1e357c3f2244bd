import { createHash, randomUUID } from "node:crypto";
import { readFileSync } from "node:fs";
import type { Browser } from "playwright-core";
import { io } from "socket.io-client";
import { afterAll, beforeAll, expect, it } from "vitest";
import { manifestSchema, verify } from "../../shared/evidence/verify.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import type { CommandResult } from "../../shared/protocol/refusals.ts";
import { type Crew, planAndBrief, powerUp, secure, signInCrew } from "./crew.ts";
import { openBrowser, type Seat } from "./seat.ts";
import { TestServer } from "./server.ts";

const server = new TestServer();
let browser: Browser;

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  await server.end();
});

/** The guard goes there and reports; past turning engines by walking around them. */
async function guardTo(n: number, { guard }: Crew): Promise<void> {
  await guard.answer(`Go to number ${n} and stand guard.`, /^In place/);
}

const ready = (n: number, { cockpit }: Crew) =>
  cockpit.answer(`Next is number ${n}. Ready to start it?`, "Ready to start");
const arcClear = (n: number, { guard }: Crew) =>
  guard.answer(`Is the arc of number ${n} clear?`, "Arc clear");

/** From the request to the read-back, with every post's answer. */
async function clearedToStart(n: number, crew: Crew): Promise<void> {
  await ready(n, crew);
  await guardTo(n, crew);
  await arcClear(n, crew);
  await clearAndReadBack(n, crew);
}

async function clearAndReadBack(n: number, { cockpit, supervisor }: Crew): Promise<void> {
  await supervisor.answer(`The crew is ready to start number ${n}. Clear it?`, "Clear to start");
  await cockpit.asked(`Clear to start number ${n}. Read back: which engine?`);
  await cockpit.press("Read back");
  await cockpit.press(`Engine number ${n}`);
  await cockpit.asked(`Clearance stands for number ${n}. Engage the starter.`);
}

async function crankAndCatch(n: number, cockpit: Seat): Promise<void> {
  await cockpit.answer(`Clearance stands for number ${n}. Engage the starter.`, "Starter engaged");
  await cockpit.answer(`Number ${n} is cranking. Did it catch?`, "It caught");
}

async function oilAndSettle(n: number, cockpit: Seat): Promise<void> {
  await cockpit.read(`Number ${n} caught. Watch for oil pressure.`, "Enter reading");
  await cockpit.answer(`Number ${n} runs. Set the idle; is it stable?`, "Stable");
}

/** Generators carry, ground power goes, the engines warm, the chocks come out, all clear. */
async function finish({ cockpit, power, supervisor }: Crew): Promise<void> {
  await cockpit.read("Bus volts, generators alone", "Enter reading");
  await cockpit.answer("All engines run. Have ground power disconnected.", "Disconnect, please");
  await power.answer("Disconnect ground power.", "Will comply");
  await power.answer("The crew says disconnect. Output off, unplug, cart away.", "Off and unplugged");
  await cockpit.answer("Ground power is off and unplugged.", "Received");
  await supervisor.answer("All engines are stable. Go on to warm-up?", "Go on");
  for (const words of [
    "Hydraulic pressure from engine 3's pump",
    "Suction with engine 2's vacuum pump selected",
    "Suction with engine 3's vacuum pump selected",
  ])
    await cockpit.read(words, "Enter reading");
  for (const n of [1, 2, 3, 4]) {
    await cockpit.read(`Warm up number ${n}: read oil inlet temperature.`, "Enter reading");
    await cockpit.read(`Warm up number ${n}: read cylinder head temperature.`, "Enter reading");
  }
  await supervisor.answer("Warm, and ground power is away. Go on to release?", "Go on");
  await cockpit.answer("Ready to go: have the chocks removed.", "Chocks out, please");
  await power.answer("Remove the chocks.", "Will comply");
  await power.answer("The crew says chocks out. Pull them and show them.", "Out and shown");
  await cockpit.answer("Chocks are out and shown.", "Received");
  await supervisor.answer("Chocks are out. Everybody and everything clear?", "All clear");
  await cockpit.answer("All clear.", "Received");
  await supervisor.answer("Chocks out, all clear answered. Close the session?", "Go on");
  await supervisor.sees("This session is closed.");
}

/** Sends one action over a socket of this test's own, as the person in the seat. */
async function onTheWire(seat: Seat, session: string, action: Action): Promise<CommandResult> {
  const socket = io(server.url, {
    path: "/live",
    transports: ["websocket"],
    auth: { token: await seat.token(), proto: 1 },
  });
  try {
    const command = { v: 1, id: randomUUID(), session, clientAt: Date.now(), action };
    return await socket.timeout(5_000).emitWithAck("command", command);
  } finally {
    socket.disconnect();
  }
}

it("[PAN-1] [PAN-2] [PAN-3] [PAN-9] a four-engine start, from the plan to evidence that verifies", async () => {
  const crew = await signInCrew(browser, server.url);
  const { cockpit, guard, power, supervisor } = crew;
  await planAndBrief(crew);
  await secure(crew);
  await powerUp(crew);
  const session = supervisor.page.url().split("/").at(-1) ?? "";

  // The guard stands at engine 2 when engine 3 is asked for.
  await guard.press(/^Engine 2:/);
  await guard.press("Guard in place at number 2");
  await cockpit.answer("Next is number 3. Ready to start it?", "Ready to start");
  await supervisor.asked("The crew is ready to start number 3. Not yet: something is missing.");
  await supervisor.sees("Fire guard is at number 2 (fire guard)");
  expect(await supervisor.page.getByRole("button", { name: "Clear to start" }).count()).toBe(0);
  const refused = await onTheWire(supervisor, session, {
    type: "send",
    kind: "clearToStart",
    engine: 3,
    channel: "panel",
  });
  expect(refused.status).toBe("refused");
  expect("refusal" in refused && refused.refusal?.unmet?.map((u) => u.id)).toContain("guardInPlace");
  await supervisor.sees(/^Refused: Clear to start number 3/);

  await guardTo(3, crew);
  await arcClear(3, crew);
  await clearAndReadBack(3, crew);
  await crankAndCatch(3, cockpit);
  await oilAndSettle(3, cockpit);

  // A hold between clearance and starter ends the clearance.
  await clearedToStart(4, crew);
  await power.press("Hold");
  await cockpit.sees("Hold. Lowen Chygarder, ground power, just now");
  for (const seat of [cockpit, guard, supervisor])
    await seat.answer("Hold. Stop all new action.", "Received");
  await supervisor.sees(/^Clearance for number 4 void/);
  expect(await cockpit.page.getByText("Clearance stands for number 4").count()).toBe(0);
  await power.answer("Your hold stands. Release it when it is safe.", "Release my hold");
  // The guard still stands there and the arc was said clear just now: only the clearance is asked for anew.
  await ready(4, crew);
  await clearAndReadBack(4, crew);
  await crankAndCatch(4, cockpit);

  // No oil pressure in time: the alert says what to do; a second attempt waits for the starter.
  await cockpit.answer("Shut that engine down", "Done");
  await cockpit.answer("Do not start it again before the reason is known", "Done");
  await cockpit.answer("No oil pressure on number 4 in time. Shut it down.", "Seen");
  await cockpit.answer("Number 4 caught. Watch for oil pressure.", "Shut down");
  await guard.answer("Look for oil under the engine", "Done");
  await supervisor.answer("Write it up as a defect", "Done");
  await supervisor.answer("Decide whether the start goes on without it", "Done");
  await supervisor.answer("No oil pressure on number 4 in time. Shut it down.", "Seen");
  await supervisor.answer("The drill is worked through: No or low oil pressure. End it?", "End the drill");
  await ready(4, crew);
  await arcClear(4, crew);
  await clearAndReadBack(4, crew);
  await crankAndCatch(4, cockpit);
  await oilAndSettle(4, cockpit);
  for (const n of [2, 1]) {
    await clearedToStart(n, crew);
    await crankAndCatch(n, cockpit);
    await oilAndSettle(n, cockpit);
  }
  await finish(crew);

  await supervisor.page.goto(`${server.url}/session/${session}/record`);
  const download = supervisor.page.waitForEvent("download");
  await supervisor.press("Evidence (NDJSON)");
  const [manifest = "", ...lines] = readFileSync(await (await download).path(), "utf8")
    .trimEnd()
    .split("\n");
  const sha256 = (text: string) => createHash("sha256").update(text).digest("hex");
  const found = verify(lines, manifestSchema.parse(JSON.parse(manifest)), sha256);
  expect(found).toMatchObject({ ok: true, events: lines.length });
  expect(found.ok && found.state.stage).toBe("closed");
  expect(crew.all.flatMap((s) => s.complaints)).toEqual([]);
}, 400_000);
