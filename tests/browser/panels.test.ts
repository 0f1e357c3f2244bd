import { AxeBuilder } from "@axe-core/playwright";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Crew, planAndBrief, signInCrew } from "./crew.ts";
import { openBrowser, type Seat } from "./seat.ts";
import { TestServer } from "./server.ts";

const server = new TestServer();
let browser: Browser;
let crew: Crew;

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
  crew = await signInCrew(browser, server.url);
  await planAndBrief(crew);
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await server.end();
});

const seats = (): [string, Seat][] => [
  ["cockpit", crew.cockpit],
  ["fire guard", crew.guard],
  ["ground power", crew.power],
  ["supervisor", crew.supervisor],
];

async function faults(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page })
    .options({ rules: { "color-contrast-enhanced": { enabled: true } } })
    .analyze();
  return violations.flatMap((v) =>
    v.nodes.map((n) => `${v.id}: ${n.target.join(" ")} ${n.failureSummary ?? ""}`),
  );
}

const boxes = (page: Page, selector: string) =>
  page.locator(selector).evaluateAll((all) =>
    all.map((e) => {
      const { x, y, width, height } = e.getBoundingClientRect();
      return { name: e.textContent ?? "", x, y, width, height };
    }),
  );

describe("the panels of the four posts", () => {
  it("[PAN-5] keep hold, cut and fire large, enabled, in one place and uncovered", async () => {
    for (const [post, { page }] of seats()) {
      const before = await boxes(page, ".stop");
      expect(before.map((b) => b.name).join(" "), post).toMatch(/Hold.*Cut.*Fire/);
      for (const b of before) expect(Math.min(b.width, b.height), post).toBeGreaterThanOrEqual(113);
      await page.getByRole("button", { name: "Cut", exact: true }).click();
      expect(await boxes(page, ".stop"), post).toEqual(before);
      // Playwright refuses to touch what something else covers.
      for (const name of ["Hold", "Cut", "Fire"])
        await page.getByRole("button", { name, exact: true }).click({ trial: true });
      await page.getByRole("button", { name: "Close" }).click();
    }
  });

  it("[PAN-6] have keys for gloves", async () => {
    for (const [post, { page }] of seats()) {
      for (const b of await boxes(page, ".panel button"))
        expect(b.height, `${post}: ${b.name}`).toBeGreaterThanOrEqual(83);
      const answers = await boxes(page, ".ask .answers .answer");
      answers.slice(1).forEach((b, i) => {
        const a = answers[i];
        expect(b.x - ((a?.x ?? 0) + (a?.width ?? 0)), `${post}: ${b.name}`).toBeGreaterThanOrEqual(22.9);
      });
    }
  });

  it("[PAN-4] draw the engines as the person stands, and say how", async () => {
    const keys = async ({ page }: Seat) =>
      (await boxes(page, ".engine-key .engine-number")).sort((a, b) => a.x - b.x).map((b) => b.name);
    expect(await keys(crew.cockpit)).toEqual(["1", "2", "3", "4"]);
    await crew.cockpit.sees("Drawn as you sit, facing forward");
    expect(await keys(crew.guard)).toEqual(["4", "3", "2", "1"]);
    await crew.guard.press("I stand behind the tail");
    await crew.guard.sees("Drawn as you face the tail, from behind");
    expect(await keys(crew.guard)).toEqual(["1", "2", "3", "4"]);
    await crew.guard.press("I stand before the nose");
    await crew.guard.sees("Drawn as you face the nose");
    for (const [post, { page }] of seats())
      expect(await page.locator("body").textContent(), post).not.toMatch(
        /\b(left|right) (side|hand|engine|wing)/i,
      );
  });

  it("[PAN-15] take no touch on what has just appeared", async () => {
    const answers = crew.cockpit.page.locator(".ask > .answers");
    const touchable = () => answers.evaluate((e) => getComputedStyle(e).pointerEvents);
    await crew.cockpit.page.emulateMedia({ reducedMotion: "reduce" });
    // The half second begins anew with each ask: a new one is put in place of the old.
    await answers.evaluate((e) => {
      e.style.animation = "none";
      e.getBoundingClientRect();
      e.style.animation = "";
      for (const a of e.getAnimations()) a.pause();
    });
    expect(await touchable()).toBe("none");
    await answers.evaluate((e) => {
      for (const a of e.getAnimations()) a.finish();
    });
    expect(await touchable()).toBe("auto");
  });

  it("[PAN-12] record no figure that was only shown", async () => {
    await crew.cockpit.asked("Set the brakes and read their pressure.");
    await crew.cockpit.press("Brakes set");
    const record = crew.cockpit.page.getByRole("button", { name: "Set what the gauge shows" });
    expect(await record.isDisabled()).toBe(true);
    await crew.cockpit.press("More by 10 psi");
    await crew.cockpit.press(/^Record \d+ psi/);
    await crew.cockpit.sees(/^Brakes set, \d+ psi$/);
  });

  it("[UNI-3, UNI-5] show figures in the units one person chose, the reading beside them, over a reload", async () => {
    const { cockpit, guard } = crew;
    await cockpit.press("Posts and session");
    await cockpit.press("Units");
    await cockpit.press("kPa");
    for (const b of await boxes(cockpit.page, ".unit-key"))
      expect(b.height, b.name).toBeGreaterThanOrEqual(83);
    await cockpit.page.reload();
    await cockpit.sees(/^Brakes set at \d+ kPa \(\d+ psi\), /);
    // Nobody else's panel changed.
    await guard.sees(/^Brakes set at \d+ psi, /);
    await cockpit.press("Posts and session");
    await cockpit.press("Units");
    await cockpit.press("As read");
    await cockpit.press("Close");
    await cockpit.sees(/^Brakes set at \d+ psi, /);
    await cockpit.press("Close");
  });

  it("[PAN-9] say what was recorded, under which number, and who has answered", async () => {
    await crew.power.answer("Chock the wheels, fore and aft.", "Chocks in");
    await crew.power.sees("Cockpit: no answer yet");
    await crew.cockpit.answer("Chocks are in.", "Received");
    await crew.power.sees(/^Cockpit: received, \d\d:\d\d:\d\d$/);
    await crew.power.sees(/^Recorded as number \d+$/);
  });

  it("[PAN-7] can be read, by sun and by night: no fault that axe finds", async () => {
    const modes = { cockpit: "sun", "fire guard": "night", "ground power": "sun", supervisor: "night" };
    for (const [post, { page }] of seats()) {
      const mode = modes[post as keyof typeof modes];
      await page.evaluate((m) => {
        document.documentElement.dataset.mode = m;
      }, mode);
      expect(await faults(page), `${post}, ${mode}`).toEqual([]);
    }
  }, 90_000);
});

it("[PAN-7] sign-in, ramp, plan and record can be read too", async () => {
  const stranger = await (await browser.newContext()).newPage();
  await stranger.goto(server.url);
  await stranger.getByRole("heading", { name: "Demonstration" }).waitFor();
  expect(await faults(stranger)).toEqual([]);
  const { page } = crew.supervisor;
  await page.goto(`${page.url()}/record`);
  await page.getByText("events, times by the server in UTC").waitFor();
  expect(await faults(page)).toEqual([]);
  await page.goto(server.url);
  await page.locator(".strip").first().waitFor();
  expect(await faults(page)).toEqual([]);
  await crew.supervisor.press("Plan a start");
  await crew.supervisor.press(/^Windhover/);
  await crew.supervisor.sees(/^Order of starting/);
  expect(await faults(page)).toEqual([]);
}, 60_000);
