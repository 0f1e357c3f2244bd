import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { type Crew, passTime, signInCrew } from "./crew.ts";
import { Prompter } from "./prompter.ts";
import { chocked, planReturn, seeStill, standsBraked, stopAndSee, stowed } from "./returnSteps.ts";
import { openBrowser } from "./seat.ts";
import { TestServer } from "./server.ts";

const server = new TestServer();
let browser: Browser;
let crew: Crew;

/** So fast that an engine is warm within a second. */
const PACE = 600;

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
  crew = await signInCrew(browser, server.url);
  // The aircraft goes away: a start that was brought to its end.
  const away = await Prompter.begin(crew, server, "QX-KIV", PACE);
  await away.playUntil((s) => s.stage === "closed");
  away.close();
});
afterAll(async () => {
  await browser?.close();
  await server.end();
});

it("[PAN-1] [RTN-3] [RTN-6] [RTN-8] [RTN-9] [RTN-14] [RTN-20] [FIG-30] [FIG-31] a return on the panels, from away to the last propeller still, with one engine already stopped", async () => {
  const { cockpit, guard, supervisor } = crew;
  await planReturn(crew);
  await guard.press(/^Engine 2:/);
  await guard.press("Guard in place at number 2");
  await guard.sees("Stay at number 2 until you see its propeller still.");
  await standsBraked(crew);

  await cockpit.answer("Set every engine to idle to cool down. Do they idle?", "They idle");
  await cockpit.worked("Order of stopping", /2-1-4/);
  await cockpit.read("Number 2 cools at idle. Read its cylinder head temperature.", "Enter reading");
  await cockpit.asked("Number 2 cools at idle. Wait before you stop it.");
  await cockpit.worked("Cool-down left", /time at idle governs/);
  await passTime(server, crew, (server.type("kestle-four").stopping?.coolDown?.atIdle?.value ?? 0) * 1_000);
  await stopAndSee(2, crew);
  await chocked(crew);
  for (const n of [1, 4]) {
    await cockpit.read(`Number ${n} cools at idle. Read its cylinder head temperature.`, "Enter reading");
    await stopAndSee(n, crew);
  }
  // Engine 3 came in stopped: its propeller is looked at all the same.
  await seeStill(3, guard);
  await guard.sees("Every propeller was seen still.");
  await cockpit.answer(
    "Every propeller stands still. Prove the switches off: ignition, starter, fuel.",
    "Proved off",
  );
  await stowed(crew);

  // Nothing is left at the aircraft: the next plan is a start.
  await supervisor.turnTo("/plan");
  await supervisor.press(/^Morning Tide/);
  await supervisor.sees("Order of starting: 3-4-2-1");
  expect(await supervisor.page.getByRole("radio", { name: "A start" }).isChecked()).toBe(true);
  expect(crew.all.flatMap((s) => s.complaints)).toEqual([]);
});

it("[RTN-30] an aircraft that lands from elsewhere: its return is planned although its record has no engine turning", async () => {
  const { supervisor } = crew;
  await supervisor.turnTo("/plan");
  await supervisor.press(/^Morning Tide/);
  await supervisor.press("A return: engines turn");
  await supervisor.sees(/^The record has no engine turning: the aircraft comes from elsewhere\./);
  await supervisor.sees("Order of stopping: 2-3-1-4");
  await supervisor.press(/^Engine 4\b/);
  await supervisor.sees("Order of stopping: 2-3-1");
  await supervisor.page.getByRole("textbox", { name: "Place" }).fill("Stand 2");
  await supervisor.press("Plan this return");
  await supervisor.page.waitForURL(/\/session\//);
  const id = supervisor.page.url().split("/").at(-1);
  const authorization = `Bearer ${await supervisor.token()}`;
  const reply = await fetch(`${server.url}/api/sessions/${id}`, { headers: { authorization } });
  const { state } = (await reply.json()) as { state: { order: number[]; returning?: object } };
  expect(state).toMatchObject({ order: [2, 3, 1], returning: { switchesOff: null } });
  expect(supervisor.complaints).toEqual([]);
});
