import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import type { AircraftType } from "../../shared/types/schema.ts";
import { type Crew, signInCrew } from "./crew.ts";
import { Prompter } from "./prompter.ts";
import { openBrowser } from "./seat.ts";
import { TestServer } from "./server.ts";

const source = { basis: "invented", text: "for tests" } as const;
const degC = (value: number) => ({ value, unit: "degC", source }) as const;
/** The figure from which the entry's step keys begin, after one step up and one down. */
const LEAST = -10;
const ASKED = "Least temperature expected this night";

/** The type with oil dilution: 10 % down to -12 °C. The demo's types have none. */
function diluted(type: AircraftType): AircraftType {
  if (!type.stopping) return type;
  const check = { id: "nightLeast", words: ASKED, stage: "stopping", post: "cockpit", source } as const;
  const percent = { value: 10, unit: "percent", source } as const;
  const step = { downTo: degC(-12), percent, time: { value: 240, unit: "s", source } as const };
  return {
    ...type,
    checks: [...type.checks, { ...check, range: { unit: "degC" } }],
    stopping: {
      ...type.stopping,
      oilDilution: { check: check.id, noneFrom: degC(4), steps: [step] },
    },
  };
}

const server = new TestServer({ typed: diluted });
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

it("[FIG-40] the cockpit enters the night's forecast and where it is from, and is shown how long to dilute", async () => {
  back = await Prompter.begin(crew, server, "QX-KIV", 600, "return");
  const { cockpit } = crew;
  await back.playUntil((s) => s.stage === "stopping");
  await cockpit.worked("Oil dilution before stopping", /–/);
  await cockpit.asked(ASKED);
  const ask = cockpit.page.locator(".ask");
  await cockpit.press("Enter reading", ask);
  for (const i of [2, 1]) await ask.locator(".step-key").nth(i).click();
  await cockpit.press(/^Record /, ask);
  await cockpit.sees("Where is this forecast from?");
  await cockpit.press("Weather office", ask);
  await cockpit.askedNoMore(ASKED);
  expect(back.state.checks.nightLeast).toMatchObject({
    ...{ note: "Weather office", name: "Austol Vellanwen", reading: { value: LEAST, unit: "degC" } },
  });
  await cockpit.worked("Oil dilution before stopping", /10 % of fuel, for each engine/);
  expect(crew.all.flatMap((s) => s.complaints)).toEqual([]);
});
