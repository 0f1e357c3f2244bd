import { AxeBuilder } from "@axe-core/playwright";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Crew, planAndBrief, signInCrew } from "./crew.ts";
import { drawnFaults, flashing, smallWords } from "./measure.ts";
import { openBrowser, type Seat } from "./seat.ts";
import { TestServer } from "./server.ts";

const LIGHTS = ["sun", "indoor", "night"] as const;

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

  it("[PAN-22] come back to what is asked when that changes", async () => {
    const { guard } = crew;
    const main = guard.page.locator(".panel-main");
    await main.evaluate((e) => e.scrollTo(0, 1_000));
    expect(await main.evaluate((e) => e.scrollTop)).toBeGreaterThan(100);
    // The queue, further down, brings up another.
    await guard.page.locator(".queue-row").first().click();
    await expect.poll(() => main.evaluate((e) => e.scrollTop)).toBe(0);
  });

  it("[PAN-22] come back to the sentence when its entry opens", async () => {
    const { cockpit } = crew;
    await cockpit.asked("Set the brakes and read their pressure.");
    const sentence = cockpit.page.locator(".ask h2");
    const hidden = () =>
      sentence.evaluate((e) => {
        const { top } = e.getBoundingClientRect();
        for (let box = e.parentElement; box !== null && box !== document.body; box = box.parentElement)
          if (top < box.getBoundingClientRect().top) return true;
        return false;
      });
    await sentence.evaluate((e) => {
      for (let box = e.parentElement; box !== null; box = box.parentElement) box.scrollTo(0, 160);
    });
    expect(await hidden()).toBe(true);
    await cockpit.press("Brakes set");
    expect(await hidden()).toBe(false);
    await cockpit.press("Back");
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

  it("[WEA-4] read a METAR before it is sent, and say why one is not taken", async () => {
    const { cockpit, supervisor } = crew;
    const report = (minutesAgo: number, rest: string) => {
      const at = new Date(Date.now() - minutesAgo * 60_000).toISOString();
      return `METAR EGLL ${at.slice(8, 10)}${at.slice(11, 13)}${at.slice(14, 16)}Z ${rest}`;
    };
    const sheet = cockpit.page.getByRole("dialog");
    const send = sheet.getByRole("button", { name: "Send this weather" });
    await cockpit.press("Weather");
    const field = cockpit.page.getByLabel("METAR, pasted or typed");
    for (const [text, why] of [
      ["fair and mild", /cannot be read as a METAR/],
      [report(90, "24008KT 9999 12/07 Q1013"), /^This report is 90 min old/],
      [report(5, "24008KT 9999 12/07 Q0700"), /^QNH 700 hPa cannot be right/],
    ] as const) {
      await field.fill(text);
      await sheet.getByText(why).waitFor();
      expect(await send.isDisabled()).toBe(true);
    }
    await field.fill(report(5, "24008G19KT 9999 12/07 Q1013"));
    await sheet.getByText("19 kt", { exact: true }).waitFor();
    for (const words of ["240°", "8 kt", "12 °C", "7 °C", "1013 hPa"])
      await sheet.getByText(words, { exact: true }).waitFor();
    await send.click();
    // Every panel has it, as old as it is.
    await supervisor.sees(/^Wind from 240°, 8 kt, gusts 19 kt, 12 °C, QNH 1013 hPa, 5:/);
  });

  it("[WEA-5, WEA-6] a flash stops work by one touch, its thunder says how far it was by another", async () => {
    const { guard, supervisor } = crew;
    await guard.press("Lightning");
    await guard.sees("No lightning near.");
    await guard.press("Flash now");
    await supervisor.sees(/^Lightning at an unknown distance: work stops until [0-9:]+ UTC, /);
    await guard.sees(/^[1-9] s since the flash: about 0\.[2-9] mi$/);
    for (const b of await boxes(guard.page, ".lightning-key"))
      expect(b.height, b.name).toBeGreaterThanOrEqual(113);
    await guard.press("Thunder now");
    await supervisor.sees(/^Lightning (0\.[2-9]|1) mi off: work stops until [0-9:]+ UTC, /);
    await guard.sees("Work stops with a flash within 6 mi, for 30 min after the last.");
    await guard.press("Close");
  });

  it("[NOI-4, NOI-5] show a person their noise dose, the supervisor everybody's, each opening to its inputs", async () => {
    const noise = (seat: Seat) => seat.page.locator(".worked", { hasText: "Noise: worked out" });
    const names = async (seat: Seat) => noise(seat).locator(".worked-detail").allTextContents();
    await noise(crew.guard).locator("details").waitFor();
    expect(await names(crew.guard)).toEqual(["Cador Nanskeval"]);
    await noise(crew.supervisor).locator("details").nth(3).waitFor();
    expect((await names(crew.supervisor)).length).toBe(4);
    await noise(crew.guard).locator("summary").click();
    await crew.guard.sees("at fireGuard until a whole dose");
    await crew.guard.sees(/^D = 100 sum/);
    await noise(crew.guard).locator("summary").click();
  });

  it("[PAN-9] say what was recorded, under which number, and who has answered", async () => {
    await crew.power.answer("Chock the wheels, fore and aft.", "Chocks in");
    await crew.power.sees("Cockpit: no answer yet");
    await crew.cockpit.answer("Chocks are in.", "Received");
    await crew.power.sees(/^Cockpit: received, \d\d:\d\d:\d\d$/);
    await crew.power.sees(/^Recorded as number \d+$/);
  });

  it("[PAN-18] write up a defect from any post; the supervisor closes it with a reason", async () => {
    const { guard, supervisor } = crew;
    await guard.press("Posts and session");
    for (const key of ["Defects", "Write up a defect", "Number 2", "Oil leak", "Bars a start"])
      await guard.press(key);
    await guard.press("Close");
    await guard.press("Close");
    await supervisor.sees("Defect bars the start: Oil leak");
    await supervisor.press("Posts and session");
    for (const key of ["Defects", "Close it", "Mended and checked"]) await supervisor.press(key);
    await supervisor.sees("No open defect is written up for this aircraft.");
    await supervisor.press("Close");
    await supervisor.press("Close");
    expect(await supervisor.page.getByText("Defect bars the start").count()).toBe(0);
  });

  it("[PAN-19] change the plan after the brief, with its reason", async () => {
    const { cockpit, supervisor } = crew;
    await supervisor.press("Posts and session");
    await supervisor.press("Change the plan");
    const sheet = supervisor.page.getByRole("dialog");
    const goOn = sheet.getByRole("button", { name: "Go on to the reason" });
    expect(await goOn.isDisabled()).toBe(true);
    await supervisor.press(/^Engine 2:/, sheet);
    await supervisor.press(/^Engine 2:/, sheet);
    await goOn.click();
    await supervisor.press("Equipment not available");
    await cockpit.press("Posts and session");
    await cockpit.press("Change the plan");
    await cockpit.sees("Order of starting: 3-4-1-2");
    for (const seat of [cockpit, cockpit, supervisor]) await seat.press("Close");
  });

  it("[PAN-23] look back at any moment, where nothing can be answered, until something presses", async () => {
    const { cockpit, guard, power, supervisor } = crew;
    const { page } = supervisor;
    await supervisor.press("Look back");
    await supervisor.sees("THE PAST");
    const keys = await page.locator(".panel").getByRole("button").allTextContents();
    expect(keys.sort()).toEqual(["Back to now", "Cut", "Earlier", "Fire", "Hold", "Later"]);
    await supervisor.press("Earlier");
    await supervisor.sees("Stage: Secure");
    await page.getByRole("slider").fill("1");
    await supervisor.sees("Stage: Plan");
    expect(await page.getByRole("button", { name: "Earlier" }).isDisabled()).toBe(true);
    expect(await drawnFaults(page, "sun")).toEqual([]);
    expect(await faults(page)).toEqual([]);
    await guard.press("Hold");
    await supervisor.asked("Hold. Stop all new action.");
    expect(await page.getByText("THE PAST").count()).toBe(0);
    for (const seat of [cockpit, power, supervisor])
      await seat.answer("Hold. Stop all new action.", "Received");
    await guard.answer("Your hold stands. Release it when it is safe.", "Release my hold");
  }, 30_000);

  it("[VIS-1] [VIS-2] [VIS-3] every control is large enough and told from its ground, in every light", async () => {
    const faults: string[] = [];
    const measured = async (page: Page, what: string) => {
      for (const light of LIGHTS)
        faults.push(...(await drawnFaults(page, light)).map((f) => `${what}: ${f}`));
    };
    for (const [post, { page }] of seats()) await measured(page, post);
    const { cockpit, guard, power, supervisor } = crew;
    for (const [seat, opened] of [
      [cockpit, "Cut"],
      [guard, "Fire"],
      [power, /^Engine 3:/],
      [supervisor, "Posts and session"],
    ] as const) {
      await seat.press(opened);
      await measured(seat.page, `${opened} opened`);
      await seat.press("Close");
    }
    expect(faults).toEqual([]);
  }, 60_000);

  it("[VIS-5] seen from 0.7 m no words are smaller than 16 minutes of arc", async () => {
    // A capital of B612 is 0.75 of its size: 2 * 0.7 m * tan(8 minutes) = 3.26 mm is a size of 16.4 px.
    for (const [post, { page }] of seats()) {
      const before = page.viewportSize() ?? { width: 1180, height: 820 };
      await page.setViewportSize({ width: 1180, height: 820 });
      expect(await smallWords(page, 16.4), post).toEqual([]);
      await page.setViewportSize(before);
    }
  });

  it("[VIS-1] the light is one touch away, towards the dark, and stays with the device", async () => {
    const { page } = crew.guard;
    const light = () => page.evaluate(() => document.documentElement.dataset.mode);
    await page.evaluate(() => localStorage.removeItem("chockside.light"));
    await page.reload();
    for (const [shown, next] of [
      ["sun", "indoor"],
      ["indoor", "night"],
    ] as const) {
      expect(await light()).toBe(shown);
      await crew.guard.press(`Colours for: ${shown}. Change to ${next}`);
    }
    await page.reload();
    await page.locator(".panel").waitFor();
    expect(await light()).toBe("night");
    const other = await crew.guard.context.newPage();
    await other.goto(server.url);
    expect(await other.evaluate(() => document.documentElement.dataset.mode)).toBe("night");
    await other.close();
  });

  it("[VIS-4] flashes 1.5 to 2 times a second while a stop is unacknowledged, and not for who wants no motion", async () => {
    const { cockpit, guard, power, supervisor } = crew;
    await power.press("Hold");
    await cockpit.asked("Hold. Stop all new action.");
    await guard.page.locator(".strobe").waitFor();
    for (const seat of [cockpit, guard]) {
      await seat.page.emulateMedia({ reducedMotion: "no-preference" });
      const seen = await flashing(seat.page);
      expect(seen.length).toBeGreaterThan(0);
      for (const f of seen) {
        expect(f.perSecond, f.name).toBeGreaterThanOrEqual(1.5);
        expect(f.perSecond, f.name).toBeLessThanOrEqual(2);
      }
      await seat.page.emulateMedia({ reducedMotion: "reduce" });
      expect(await flashing(seat.page)).toEqual([]);
      await seat.page.emulateMedia({ reducedMotion: null });
    }
    for (const seat of [cockpit, guard, supervisor])
      await seat.answer("Hold. Stop all new action.", "Received");
    await guard.page.locator(".strobe").waitFor({ state: "detached" });
    expect(await flashing(guard.page)).toEqual([]);
    await power.answer("Your hold stands. Release it when it is safe.", "Release my hold");
  });

  it("[PAN-7] can be read, in every light: no fault that axe finds", async () => {
    const lights = { cockpit: "sun", "fire guard": "night", "ground power": "indoor", supervisor: "night" };
    for (const [post, { page }] of seats()) {
      const light = lights[post as keyof typeof lights];
      await page.evaluate((l) => {
        document.documentElement.dataset.mode = l;
      }, light);
      expect(await faults(page), `${post}, ${light}`).toEqual([]);
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
