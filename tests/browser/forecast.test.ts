import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { type Crew, signInCrew } from "./crew.ts";
import { Prompter } from "./prompter.ts";
import { openBrowser } from "./seat.ts";
import { TestServer } from "./server.ts";

/** The figure from which the entry's step keys begin, after one step up and one down, °F. */
const LEAST = 14;
const ASKED = "Least temperature expected this night";
const FIGURE = "Oil dilution before stopping";

const server = new TestServer();
let browser: Browser;
let crew: Crew;
let back: Prompter | undefined;

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
  crew = await signInCrew(browser, server.url);
});
afterAll(async () => {
  back?.close();
  await browser?.close();
  await server.end();
});

it("[FIG-40] [RTN-31] the cockpit enters the night's forecast and its source, is shown how long to dilute, and enters it anew", async () => {
  back = await Prompter.begin(crew, server, "QX-CTD", 600, "return");
  const { cockpit } = crew;
  await back.playUntil((s) => s.stage === "stopping");
  await cockpit.worked(FIGURE, /–/);
  await cockpit.asked(ASKED);
  const ask = cockpit.page.locator(".ask");
  await cockpit.press("Enter reading", ask);
  for (const i of [2, 1]) await ask.locator(".step-key").nth(i).click();
  await cockpit.press(/^Record /, ask);
  await cockpit.sees("Where is this forecast from?");
  await cockpit.press("Weather office", ask);
  await cockpit.askedNoMore(ASKED);
  expect(back.state.checks.nightLeast).toMatchObject({
    ...{ note: "Weather office", name: "Austol Vellanwen", reading: { value: LEAST, unit: "degF" } },
  });
  await cockpit.worked(FIGURE, /10 % of fuel, for each engine/);

  const said = cockpit.page.getByRole("region", { name: "What you sent" });
  await cockpit.sees(`${ASKED}: ${LEAST} °F (Weather office)`);
  await cockpit.press("Correct this figure", said);
  const sheet = cockpit.page.getByRole("dialog");
  await sheet.locator(".step-key").nth(1).click();
  await cockpit.press(/^Record /, sheet);
  await cockpit.press("Weather office", sheet);
  await cockpit.sees(`${ASKED}: ${LEAST - 1} °F (Weather office)`);
  await back.until((s) => s.checks.nightLeast?.reading?.value === LEAST - 1);
  expect(back.state.checks.nightLeast).toMatchObject({ reading: { value: LEAST - 1, unit: "degF" } });
  expect(crew.all.flatMap((s) => s.complaints)).toEqual([]);
});
