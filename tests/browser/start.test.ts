import { readFileSync } from "node:fs";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { checkFile } from "../../server/evidence/check-file.ts";
import { passTime, planAndBrief, powerUp, secure, signInCrew } from "./crew.ts";
import { setAsideByTwo } from "./overrideSteps.ts";
import { openBrowser } from "./seat.ts";
import { TestServer } from "./server.ts";
import {
  arcClear,
  clearAndReadBack,
  clearedToStart,
  crankAndCatch,
  guardTo,
  oilAndSettle,
  onToWarmUp,
  ready,
  readyWithReason,
  release,
  WARM_UP,
  warm,
} from "./startSteps.ts";
import {
  crankTold,
  onTheWire,
  orderAdvised,
  standJudged,
  traceJudged,
  voltsForetold,
  warmUpTold,
} from "./workedOut.ts";

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

it("[PAN-1] [PAN-2] [PAN-3] [PAN-9] [FIG-1] [FIG-3] [FIG-4] [FIG-5] [FIG-6] [FIG-7] [FIG-8] [PWR-10] [PWR-11] [GEO-1] [GEO-3] [GEO-4] [OVR-2] [OVR-6] a four-engine start, from the plan to evidence that verifies", async () => {
  const crew = await signInCrew(browser, server.url);
  const { cockpit, guard, power, supervisor } = crew;
  await orderAdvised(supervisor);
  await standJudged(supervisor);
  await planAndBrief(crew);
  await secure(crew);
  await powerUp(crew);
  await voltsForetold(crew, 3);
  await traceJudged(crew);
  await setAsideByTwo(crew);
  const session = supervisor.page.url().split("/").at(-1) ?? "";

  // The cockpit asks for engine 3 while the guard stands at engine 2.
  await guard.press(/^Engine 2:/);
  await guard.press("Guard in place at number 2");
  await cockpit.answer("Next is number 3. Ready to start it?", "Ready to start");
  await supervisor.asked("The crew is ready to start number 3. Not yet: something is missing.");
  await supervisor.sees("Fire guard is at number 2 (fire guard)");
  expect(await supervisor.page.getByRole("button", { name: "Clear to start" }).count()).toBe(0);
  const refused = await onTheWire(supervisor, session, (give) =>
    give({ type: "send", kind: "clearToStart", engine: 3, channel: "panel" }),
  );
  expect(refused.status).toBe("refused");
  expect("refusal" in refused && refused.refusal?.unmet?.map((u) => u.id)).toContain("guardInPlace");
  await supervisor.sees(/^Refused: Clear to start number 3/);

  await guardTo(3, crew);
  await arcClear(3, crew);
  await clearAndReadBack(3, crew);
  await crankTold(3, crew);
  await oilAndSettle(3, cockpit);

  // A hold between clearance and starter ends the clearance.
  await clearedToStart(4, crew);
  await power.press("Hold");
  await cockpit.sees(/^Hold\. Lowen Chygarder, ground power, (just now|\d+ s ago)/);
  for (const seat of [cockpit, guard, supervisor])
    await seat.answer("Hold. Stop all new action.", "Received");
  await supervisor.sees(/^Clearance for number 4 void/);
  expect(await cockpit.page.getByText("You are cleared for number 4").count()).toBe(0);
  await power.answer("Your hold is on. Release it when it is safe.", "Release my hold");
  // The guard still stands there and the arc was reported clear, so that only the clearance is asked again.
  await ready(4, crew);
  await clearAndReadBack(4, crew);
  await crankAndCatch(4, cockpit);

  // No oil pressure in time: the alert says what to do. Meanwhile the starter cools for the second attempt.
  await passTime(server, crew, server.type("kestle-four").oil.firstIndication.within.value * 1_000);
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
  await onToWarmUp(crew);
  for (const n of [1, 2, 4]) await warm(n, crew);
  await warmUpTold(crew, session, server);
  await cockpit.readOnPad(WARM_UP, ["3, Oil inlet temperature"], { "More by 10 °C": 2 });
  for (const seat of crew.all) await seat.worked("Warm-up: every engine is there", /good/);
  await release(crew);

  await supervisor.page.goto(`${server.url}/session/${session}/record`);
  const download = supervisor.page.waitForEvent("download");
  await supervisor.press("Evidence (NDJSON)");
  const found = checkFile(readFileSync(await (await download).path(), "utf8"));
  expect(found).toMatchObject({ ok: true, says: expect.stringContaining("stage closed") });
  expect(crew.all.flatMap((s) => s.complaints)).toEqual([]);
});
