import type { Browser } from "playwright-core";
import { type Crew, passTime, planAndBrief, powerUp, secure, signInCrew } from "../browser/crew.ts";
import { Seat } from "../browser/seat.ts";
import type { TestServer } from "../browser/server.ts";
import { speak } from "../browser/speak.ts";
import {
  arcClear,
  clearAndReadBack,
  clearedToStart,
  crankAndCatch,
  guardTo,
  oilAndSettle,
  ready,
  readyWithReason,
} from "../browser/startSteps.ts";
import type { Camera } from "./camera.ts";
import { photographFirstRun, photographRegisters } from "./house.ts";
import { photographChannels, photographInstruments } from "./inOut.ts";
import { photographPages } from "./pages.ts";

/** Photographs every post's panel at this moment. */
async function posts(camera: Camera, scene: string, crew: Crew): Promise<void> {
  for (const [who, { page }] of named(crew)) await camera.take(scene, who, page);
}

const named = ({ cockpit, guard, power, supervisor }: Crew) =>
  [
    ["Cockpit", cockpit],
    ["Fire guard", guard],
    ["Ground power", power],
    ["Supervisor", supervisor],
  ] as const;

/** Photographs the same moment with everybody in Spanish, then changes back to English. */
async function spanishPosts(camera: Camera, scene: string, crew: Crew): Promise<void> {
  for (const [who, { page }] of named(crew)) {
    await speak(page, "es");
    await camera.take(scene, who, page);
    await speak(page, "en");
  }
}

/** Photographs one whole start, with a stop at every moment that looks different. */
export async function photographStart(
  browser: Browser,
  server: TestServer,
  url: string,
  camera: Camera,
): Promise<void> {
  await signedOut(browser, url, camera);
  const crew = await signInCrew(browser, url);
  const { cockpit, guard, power, supervisor } = crew;
  await camera.take("Ramp, nothing on it", "Anybody", cockpit.page);
  const code = await planAndBrief(crew);
  await posts(camera, "Securing begins", crew);
  await entries(camera, crew);
  await secure(crew);
  await powerUp(crew);
  await posts(camera, "Power is on", crew);
  await observer(browser, url, code, camera);

  await ready(3, crew);
  await posts(camera, "Number 3 asked for, the guard on the way", crew);
  await spanishPosts(camera, "Número 3 pedido, la guardia en camino", crew);
  await sheets(camera, crew);
  await guardTo(3, crew);
  await arcClear(3, crew);
  await supervisor.answer("The crew is ready to start number 3. Clear it?", "Clear to start");
  await cockpit.asked("Clear to start number 3. Read back: which engine?");
  await camera.take("Clear to start", "Cockpit", cockpit.page);
  await cockpit.press("Read back");
  await camera.take("Read-back due", "Cockpit", cockpit.page);
  await cockpit.press("Engine number 3");
  await cockpit.asked("You are cleared for number 3. Engage the starter.");
  await cockpit.press("Starter engaged");
  await cockpit.asked("Number 3 is cranking. Did it catch?");
  await posts(camera, "Number 3 cranks", crew);
  await cockpit.answer("Number 3 is cranking. Did it catch?", "It caught");
  await oilAndSettle(3, cockpit);

  await clearedToStart(4, crew);
  await power.press("Hold");
  await cockpit.asked("Hold. Stop all new action.");
  await posts(camera, "Ground power holds", crew);
  for (const seat of [cockpit, guard, supervisor])
    await seat.answer("Hold. Stop all new action.", "Received");
  await power.answer("Your hold is on. Release it when it is safe.", "Release my hold");
  await ready(4, crew);
  await clearAndReadBack(4, crew);
  await crankAndCatch(4, cockpit);
  // The starter cools meanwhile for the second attempt.
  await passTime(server, crew, server.type("kestle-four").oil.firstIndication.within.value * 1_000);
  await cockpit.asked("No oil pressure on number 4 in time. Shut it down.");
  await posts(camera, "No oil pressure on number 4", crew);
  await noOilDrill(crew);
  await readyWithReason(4, crew, "Gauge line mended");
  await arcClear(4, crew);
  await clearAndReadBack(4, crew);
  await crankAndCatch(4, cockpit);
  await oilAndSettle(4, cockpit);
  for (const n of [2, 1]) {
    await clearedToStart(n, crew);
    await crankAndCatch(n, cockpit);
    await oilAndSettle(n, cockpit);
  }
  await toWarmUp(crew);
  await posts(camera, "Warm-up", crew);
  await photographInstruments(camera, server, url, crew);
  await cockpit.page.locator(".readings").waitFor();
  await camera.take("Readings over time", "Cockpit", cockpit.page, false, ".readings");
  await camera.take("Engines in order", "Cockpit", cockpit.page, false, ".engine-table");
  for (const [who, { page }] of named(crew))
    await camera.take("What else there is", who, page, false, ".panel-ask > :last-child");
  await lookBack(camera, supervisor);
  await supervisor.openPosts();
  await supervisor.page.locator(".code").waitFor();
  await camera.take("Posts and session", "Supervisor", supervisor.page);
  await supervisor.press("Change the plan");
  await camera.take("Another plan", "Supervisor", supervisor.page);
  await supervisor.press("Close");
  await supervisor.press("Defects");
  await supervisor.press("Write up a defect");
  await supervisor.press("Number 2");
  await camera.take("A defect to write up", "Supervisor", supervisor.page);
  await supervisor.press("Close");
  await supervisor.press("Close");
  await guard.press("Fire");
  await guard.sees("Fire sent. Number? Where?");
  await camera.take("Fire sent: number, where?", "Fire guard", guard.page);
  await guard.press("Engine number 2");
  await guard.press("Induction");
  await cockpit.sees(/^Fire at number 2/);
  await posts(camera, "Fire at number 2", crew);
  await spanishPosts(camera, "Fuego en el número 2", crew);
  await unheard(camera, crew);
  await photographPages(browser, url, camera, supervisor);
  await photographChannels(camera, url, crew);
  await photographRegisters(camera, supervisor, url);
  await photographFirstRun(browser, camera);
}

async function signedOut(browser: Browser, url: string, camera: Camera): Promise<void> {
  const page = await (await browser.newContext()).newPage();
  await page.goto(url);
  await page.getByRole("heading", { name: "Demonstration" }).waitFor();
  await camera.take("Sign-in", "Anybody", page, true);
  await page.context().close();
}

/** Photographs the entries that take steps and touches. */
async function entries(camera: Camera, { cockpit, supervisor }: Crew): Promise<void> {
  await cockpit.asked("Set the brakes and read their pressure.");
  await cockpit.press("Brakes set");
  await camera.take("A figure to put in", "Cockpit", cockpit.page);
  await cockpit.press("Back");
  await supervisor.press("Cut");
  await camera.take("Cut: which engine?", "Supervisor", supervisor.page);
  await supervisor.press("Close");
}

async function sheets(camera: Camera, { cockpit, guard }: Crew): Promise<void> {
  await cockpit.press(/^Engine 3:/);
  await camera.take("An engine touched", "Cockpit", cockpit.page);
  await cockpit.press("Close");
  await guard.press(/^Engine 3:/);
  await camera.take("An engine touched", "Fire guard", guard.page);
  await guard.press("Close");
}

async function observer(browser: Browser, url: string, code: string, camera: Camera): Promise<void> {
  const seat = await Seat.open(browser, url, "keren");
  await seat.page.locator(".ramp-card").waitFor();
  await camera.take("Ramp, one aircraft on it", "Observer", seat.page);
  await seat.page.getByLabel("Joining code").fill(code);
  await seat.press("Join");
  await seat.page.locator(".panel").waitFor();
  await camera.take("Power is on", "Observer", seat.page);
  await seat.context.close();
}

async function noOilDrill({ cockpit, guard, supervisor }: Crew): Promise<void> {
  await cockpit.answer("No oil pressure on number 4 in time. Shut it down.", "Shut down 4");
  await cockpit.answer("Shut that engine down", "Done");
  await cockpit.answer("Do not start it again before the reason is known", "Done");
  await guard.answer("Look for oil under the engine", "Done");
  await supervisor.asked("Write it up as a defect");
  await supervisor.press("Write the defect");
  await supervisor.page.getByLabel("Or in your words").fill("No oil pressure");
  await supervisor.press("Write the defect");
  await supervisor.answer("Write it up as a defect", "Done");
  await supervisor.answer("Decide whether the start goes on without it", "Done");
  await supervisor.answer("Over now: number 4 had no oil pressure in time.", "Seen");
  await supervisor.answer("The drill is complete: No or low oil pressure. End it?", "End the drill");
  await supervisor.asked("A defect blocks the start of number 4: No oil pressure. Is it dealt with?");
  await supervisor.press("Close the defect");
  await supervisor.page.getByLabel("Or in your words").fill("Gauge line mended");
  await supervisor.press("Close the defect");
}

async function toWarmUp({ cockpit, power, supervisor }: Crew): Promise<void> {
  await cockpit.read("Bus volts, generators alone", "Enter reading");
  await cockpit.answer("All engines run. Have ground power disconnected.", "Disconnect, please");
  await power.answer("Disconnect ground power.", "Will comply");
  await power.answer("The crew says disconnect. Output off, unplug, cart away.", "Off and unplugged");
  await cockpit.answer("Ground power is off and unplugged.", "Received");
  await supervisor.answer("All engines are stable. Go on to warm-up?", "Go on");
}

async function lookBack(camera: Camera, supervisor: Seat): Promise<void> {
  // An open alert would end the look back.
  while (await supervisor.page.locator('.ask[data-weight="alert"]').isVisible())
    await supervisor.press("Seen");
  await supervisor.press("Look back");
  await supervisor.page.getByRole("slider").fill("90");
  await camera.take("Looking back", "Supervisor", supervisor.page);
  await supervisor.press("Back to now");
}

/** Photographs a panel without a network and a hold given there. */
async function unheard(camera: Camera, { guard }: Crew): Promise<void> {
  await guard.context.setOffline(true);
  await guard.page.locator(".stale").waitFor();
  await guard.press("Hold");
  await camera.take("The server is not heard", "Fire guard", guard.page);
  await guard.context.setOffline(false);
}
