import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import { HAND_SIGNALS, handSignal } from "../../shared/handSignals/all.ts";
import { LOOK_ALIKES } from "../../shared/handSignals/lookAlikes.ts";
import { quiz } from "../../shared/handSignals/quiz.ts";
import { axeFaults } from "./measure.ts";
import { openBrowser, Seat } from "./seat.ts";
import { TestServer } from "./server.ts";

const ROUND = 7;
const server = new TestServer();
let browser: Browser;
let seat: Seat;
let page: Page;

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
  seat = await Seat.open(browser, server.url, demo.people[0]?.handle ?? "");
  page = seat.page;
});
afterAll(async () => {
  await browser?.close();
  await server.end();
});

const night = (on: boolean) =>
  page.evaluate(
    (m) => {
      document.documentElement.dataset.mode = m;
    },
    on ? "night" : "sun",
  );

/** Returns the outlines of the large figure at this moment. */
const drawn = () =>
  page.locator(".plate-figure path").evaluateAll((all) => all.map((p) => p.getAttribute("d")).join());

it("[HSG-7] is linked from the ramp and shows every signal with its meaning, its reference and how certain that is", async () => {
  await seat.press("Hand signals");
  await page.getByRole("heading", { level: 1, name: "Hand signals" }).waitFor();
  await seat.sees(/That person's right arm is on your left/);
  expect(await page.locator(".study-still").count()).toBe(HAND_SIGNALS.length);
  for (const key of ["cutEngines", "connectPower", "insertChocks"]) {
    const signal = handSignal(key);
    await page.locator(".study-still", { hasText: signal.name }).first().click();
    await page.getByRole("heading", { level: 2, name: signal.name, exact: true }).waitFor();
    await seat.sees(signal.meaning);
    await seat.sees(signal.sources[0]?.cite ?? "");
  }
  expect(await page.getByRole("radio", { name: "With wands" }).isDisabled()).toBe(true);
  await seat.sees("Ground power on");
  expect(await axeFaults(page)).toEqual([]);
});

it("[HSG-7] moves, and has its own form with wands", async () => {
  await page.emulateMedia({ reducedMotion: "no-preference" });
  await page.locator(".study-still", { hasText: "Start engine" }).first().click();
  await page.getByRole("heading", { level: 2, name: "Start engine", exact: true }).waitFor();
  const before = await drawn();
  await expect.poll(drawn).not.toBe(before);
  const wands = page.locator('.plate-figure path[stroke="var(--warning-ground)"]');
  expect(await wands.count()).toBe(0);
  await seat.press("With wands");
  await wands.first().waitFor({ state: "attached" });
  expect(await wands.count()).toBe(2);
});

it("[HSG-8] shows still key poses with reduced motion", async () => {
  await page.emulateMedia({ reducedMotion: "reduce" });
  const eyes = () => page.locator(".plate-figure path[fill='var(--rule-soft)']").count();
  // One pair of eyes for each of the four poses of the circle.
  await expect.poll(eyes).toBe(8);
  const before = await drawn();
  await page.evaluate(
    () =>
      new Promise<void>((done) => {
        requestAnimationFrame(() => requestAnimationFrame(() => done()));
      }),
  );
  expect(await drawn()).toBe(before);
});

it("[HSG-7] puts look-alikes side by side with what tells them apart, readable at night too", async () => {
  await night(true);
  await seat.press("Look-alikes");
  for (const { tell } of LOOK_ALIKES) await page.getByText(tell, { exact: true }).first().waitFor();
  expect(await page.locator(".alike figure").count()).toBe(LOOK_ALIKES.flatMap((l) => l.keys).length);
  expect(await axeFaults(page)).toEqual([]);
  await night(false);
});

it("[HSG-9] asks by touch and by keyboard, says whether each answer was right, and gives the score", async () => {
  const questions = quiz(ROUND, 10);
  await page.goto(`${server.url}/study/quiz/${ROUND}`);
  for (const [i, q] of questions.entries()) {
    await page.getByText(`${i + 1} of 10`, { exact: true }).waitFor();
    const right = q.options.indexOf(q.key);
    const wrong = (right + 1) % 4;
    const name = handSignal(q.key).name;
    if (i === 0) {
      expect(await axeFaults(page)).toEqual([]);
      await page.locator(".quiz-option").nth(wrong).click();
      await seat.sees(`No: ${name}.`);
      expect(await axeFaults(page)).toEqual([]);
      await seat.press("Go on");
    } else {
      await page.keyboard.press(String(right + 1));
      await seat.sees("Right.");
      // The key to go on has the focus, so that the keyboard alone is enough.
      await page.keyboard.press("Enter");
    }
  }
  await page.getByRole("heading", { name: "9 of 10 right" }).waitFor();
  await seat.sees(handSignal(questions[0]?.key ?? "").name);
  expect(
    await page.evaluate(() => Object.keys(localStorage).concat(Object.keys(sessionStorage)).join()),
  ).not.toMatch(/quiz|study|score/i);
  expect(seat.complaints).toEqual([]);
});

it("[HSG-7] fits a telephone", async () => {
  await page.setViewportSize({ width: 390, height: 844 });
  for (const path of ["startEngine", "alike", `quiz/${ROUND}`]) {
    await page.goto(`${server.url}/study/${path}`);
    await page.locator(".hand-figure").first().waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth), path).toBeLessThanOrEqual(390);
  }
});
