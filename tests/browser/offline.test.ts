import { randomUUID } from "node:crypto";
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join as path } from "node:path";
import { fileURLToPath } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, it } from "vitest";
import { pack, shellOf } from "../../web/pwa/plugin.ts";
import { signInCrew } from "./crew.ts";
import { Prompter } from "./prompter.ts";
import { KEEPS_NOTHING, openBrowser, Seat } from "./seat.ts";
import { TestServer } from "./server.ts";
import { nextTwin, TWINS } from "./twins.ts";
import { commandIds, Wire } from "./wire.ts";

/** A copy of the built panels, so that a test can replace it by a newer build. */
const site = mkdtempSync(path(tmpdir(), "chockside-site-"));
cpSync(fileURLToPath(new URL("../../web/dist", import.meta.url)), site, { recursive: true });
const server = new TestServer({ site, aircraft: TWINS });
let browser: Browser;
const open: Seat[] = [];

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
});
afterEach(async () => {
  await Promise.all(open.splice(0).map((seat) => seat.context.close()));
});
afterAll(async () => {
  await browser?.close();
  await server.end();
  rmSync(site, { recursive: true, force: true });
});

const PLAN_ASK = "The plan is made. Go on to the brief?";

async function seatOf(
  handle: string,
  viewport?: { width: number; height: number },
  keeps = false,
): Promise<Seat> {
  const seat = await Seat.open(browser, server.url, handle, viewport, keeps ? {} : KEEPS_NOTHING);
  open.push(seat);
  return seat;
}

/**
 * Seats a supervisor at a session just planned. Returns the seat and the session's address.
 * @param keeps whether the device keeps the panels for the time without a network
 */
async function supervising(handle: string, keeps = false): Promise<{ seat: Seat; at: string }> {
  const seat = await seatOf(handle, undefined, keeps);
  const planned = await fetch(`${server.url}/api/sessions`, {
    method: "POST",
    headers: { authorization: `Bearer ${await seat.token()}`, "content-type": "application/json" },
    body: JSON.stringify({
      ...{
        commandId: randomUUID(),
        aircraft: nextTwin().id,
        place: "East hangar",
        powerSource: "groundPower",
      },
      crew: { cockpit: null, fireGuard: null, groundPower: null, supervisor: null },
    }),
  });
  if (!planned.ok) throw new Error(await planned.text());
  const at = `/session/${((await planned.json()) as { id: string }).id}`;
  await take(seat, at, "Take supervisor");
  await seat.asked(PLAN_ASK);
  return { seat, at };
}

async function take(seat: Seat, at: string, key: string): Promise<void> {
  await seat.turnTo(at);
  await seat.openPosts();
  await seat.press(key);
  await seat.press("Close");
}

/** Waits until the device keeps the panels and the service worker serves this window. */
async function kept(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    if (!navigator.serviceWorker.controller)
      await new Promise((done) => {
        navigator.serviceWorker.addEventListener("controllerchange", done, { once: true });
      });
  });
}

/** Replaces the built page and its service worker by a newer build. */
function putNewBuild(): void {
  const before = shellOf(site);
  const page = readFileSync(path(site, "index.html"), "utf8");
  writeFileSync(
    path(site, "index.html"),
    page.replace("<title>Chockside</title>", "<title>Chockside anew</title>"),
  );
  const after = shellOf(site);
  const digest = (shell: typeof after) => shell.files.find((f) => f.url === "/index.html")?.integrity ?? "";
  const worker = readFileSync(path(site, "sw.js"), "utf8");
  const next = worker.replace(before.version, after.version).replace(digest(before), digest(after));
  if (next === worker) throw new Error("the worker does not name its build");
  writeFileSync(path(site, "sw.js"), next);
  pack(site);
}

it("[PWA-1] [PWA-2] once kept, the panels open without a network, and invent nothing that only the server knows", async () => {
  const { seat } = await supervising("merryn", true);
  await kept(seat.page);
  await seat.context.setOffline(true);
  await seat.page.reload();
  await seat.sees("Loading the session…");
  const asked = await seat.page.evaluate(() =>
    fetch("/api/sessions").then(
      () => "answered",
      () => "no answer",
    ),
  );
  expect(asked).toBe("no answer");
  await seat.context.setOffline(false);
  await seat.asked(PLAN_ASK);
});

it("[PWA-5] [PWA-9] after a link lost in mid-clearance the panel says hold and reads nothing back, and the hold given then is recorded once", async () => {
  const crew = await signInCrew(browser, server.url);
  open.push(...crew.all);
  const { cockpit, supervisor } = crew;
  const wire = await Wire.of(cockpit.page);
  await cockpit.page.reload();
  const story = await Prompter.begin(crew, server, "QX-KIV");
  await story.playUntil((s) => s.engines.some((e) => e.life.is === "clear"));
  story.close();
  await cockpit.asked("Clear to start number 3. Read back: which engine?");
  wire.cut();
  await cockpit.sees(/^Offline, last heard .* ago\. Hold\./);
  const readBack = cockpit.page.locator(".ask").getByRole("button", { name: "Read back" });
  expect(await readBack.isDisabled()).toBe(true);
  const before = wire.heard.length;
  await cockpit.press("Hold");
  await cockpit.sees(/^Offline, last heard .* ago; one signal waiting\. Hold\./);
  expect(wire.heard.length).toBe(before);
  wire.mend();
  await supervisor.sees(/^Hold\. .*, cockpit/);
  await cockpit.sees(/^Recorded as number/);
  expect(commandIds(wire.heard.slice(before))).toHaveLength(1);
  expect(await supervisor.page.locator(".standing-row").count()).toBe(1);
  await cockpit.page
    .getByRole("heading", { level: 2, name: /^Clear to start number 3/ })
    .waitFor({ state: "detached" });
});

it("[PWA-6] a command outlives a killed tab: the panel asks about it, and only the person sends it", async () => {
  const { seat } = await supervising("demelza");
  const wire = await Wire.of(seat.context);
  await seat.page.reload();
  await seat.asked(PLAN_ASK);
  wire.deaf = true;
  await seat.press("Go on", seat.page.locator(".ask"));
  await seat.sees("Sending… not yet recorded");
  await seat.page.close();
  const again = await Seat.inContext(seat.context, server.url, "demelza");
  await again.sees("Something you sent is not recorded.");
  await again.press("Open the session");
  await again.page.getByText("Perhaps it was heard. Is it still true?").waitFor();
  wire.deaf = false;
  const before = wire.heard.length;
  // A new touch is sent, and the old command still waits for the person's word.
  await again.press("Hold");
  await again.sees(/^Hold\. Demelza/);
  expect(wire.heard.slice(before).filter((m) => m.includes('"advance"'))).toEqual([]);
  await again.press("Drop it");
  await again.page.getByText("Is it still true?").waitFor({ state: "detached" });
});

it("[PWA-6] a device that cannot store anything says so, and a stop is sent all the same", async () => {
  const context = await browser.newContext(KEEPS_NOTHING);
  await context.addInitScript(() => {
    Object.defineProperty(window, "indexedDB", {
      value: {
        open() {
          throw new Error("not here");
        },
      },
    });
  });
  const seat = await Seat.inContext(context, server.url, "merryn");
  open.push(seat);
  await seat.page.locator(".strip").first().click();
  await seat.sees(/^Unsent signals are not kept on this device/);
  await seat.press("Hold");
  await seat.sees(/^Hold\. Merryn/);
});

it("[PWA-7] a second tab of one person sends nothing until it takes over, and then the first does not", async () => {
  const { seat } = await supervising("merryn");
  const wire = await Wire.of(seat.context);
  await seat.page.reload();
  await seat.asked(PLAN_ASK);
  const [page] = await Promise.all([
    seat.context.waitForEvent("page"),
    seat.page.evaluate(() => void window.open(location.href)),
  ]);
  await page.getByRole("heading", { name: "Merryn Tolvadden is open in another tab" }).waitFor();
  expect(await page.getByRole("button", { name: "Hold" }).count()).toBe(0);
  wire.cut();
  await seat.press("Hold");
  await seat.sees("Sending… not yet heard by anyone. Use the hand signal.");
  await page.getByRole("button", { name: "Take over here" }).click();
  await seat.page.getByRole("heading", { name: "Merryn Tolvadden is open in another tab" }).waitFor();
  wire.mend();
  await page.getByText(/^Hold\. Merryn Tolvadden, supervisor/).waitFor();
  expect(commandIds(wire.heard.filter((m) => m.includes('"kind":"hold"')))).toHaveLength(1);
  expect(await page.locator(".standing-row").count()).toBe(1);
  await page.close();
  await seat.sees(/^Hold\. Merryn Tolvadden, supervisor/);
});

it("[PWA-8] for a server of another protocol the panel says to reload, and shows nothing else", async () => {
  const { seat } = await supervising("demelza");
  const wire = await Wire.of(seat.context);
  wire.change = (message) => message.replace(/"proto":\d+/, '"proto":99');
  await seat.page.reload();
  await seat.page.getByRole("heading", { name: "Reload this panel" }).waitFor();
  wire.change = null;
  await seat.press("Reload now");
  await seat.asked(PLAN_ASK);
});

it("[PWA-3] a new version is offered in words, never while a session is watched, and is loaded only when asked for", async () => {
  const { seat } = await supervising("merryn", true);
  await kept(seat.page);
  putNewBuild();
  const look = () =>
    seat.page.evaluate(async () => {
      const registration = await navigator.serviceWorker.getRegistration();
      await registration?.update();
    });
  await look();
  await seat.openPosts();
  await seat.sees("A new version is ready. It waits until you have left the session.");
  await seat.page.reload();
  await seat.asked(PLAN_ASK);
  expect(await seat.page.title()).toBe("Chockside");
  const [other] = await Promise.all([
    seat.context.waitForEvent("page"),
    seat.page.evaluate(() => void window.open(location.origin)),
  ]);
  await other.evaluate(() => sessionStorage.clear());
  await other.reload();
  await other.getByText("A new version is ready.", { exact: true }).waitFor();
  await other.getByRole("button", { name: "Take the new version" }).click();
  await other.getByText("Another window on this device shows a session. Leave that session first.").waitFor();
  expect(await other.title()).toBe("Chockside");
  await other.close();
  await seat.openPosts();
  await seat.press("The ramp");
  await seat.press("Take the new version");
  await seat.page.waitForFunction(() => document.title === "Chockside anew");
});

it("[PWA-11] the same person on another device takes the post along, and the old device watches", async () => {
  const { seat, at } = await supervising("merryn");
  const tablet = await seatOf("merryn", { width: 820, height: 1180 });
  await take(tablet, at, "Move it to this device");
  await tablet.asked(PLAN_ASK);
  await seat.sees("You hold no post: you watch. Anyone may hold, cut and report fire.");
  expect(await seat.page.locator(".ask").getByRole("button", { name: "Go on" }).count()).toBe(0);
});

it("[SNS-5] the guard's screen flashes 1.5 to 2 times a second for a hold, or stays inverted with reduced motion, until answered", async () => {
  const { seat, at } = await supervising("demelza");
  const guard = await seatOf("perran", { width: 390, height: 844 });
  await guard.page.emulateMedia({ reducedMotion: "no-preference" });
  await take(guard, at, "Take fire guard");
  await seat.press("Hold");
  const strobe = guard.page.locator(".strobe");
  await strobe.waitFor({ state: "attached" });
  const { rises, covers } = await strobe.evaluate((element) => {
    const [animation] = element.getAnimations();
    if (!animation) throw new Error("it does not flash");
    animation.pause();
    let count = 0;
    let before = 1;
    // Ten seconds of the animation's own time, in steps of a hundredth.
    for (let t = 0; t < 10_000; t += 10) {
      animation.currentTime = t;
      const now = Number(getComputedStyle(element).opacity);
      if (now > before) count += 1;
      before = now;
    }
    animation.currentTime = 0;
    const box = element.getBoundingClientRect();
    return { rises: count, covers: box.width >= innerWidth && box.height >= innerHeight };
  });
  expect(covers).toBe(true);
  expect(rises / 10).toBeGreaterThanOrEqual(1.5);
  expect(rises / 10).toBeLessThanOrEqual(2);
  expect(await seat.page.locator(".strobe").count()).toBe(0);
  await guard.page.emulateMedia({ reducedMotion: "reduce" });
  const still = await strobe.evaluate((e) => [e.getAnimations().length, getComputedStyle(e).opacity]);
  expect(still).toEqual([0, "1"]);
  await guard.press("Received", guard.page.locator(".ask"));
  await strobe.waitFor({ state: "detached" });
});

it("[SNS-1] [SNS-7] the test signal unlocks the sound and plays the three tones; an alert then sounds once", async () => {
  const { seat, at } = await supervising("merryn");
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, ...KEEPS_NOTHING });
  await context.addInitScript(() => {
    const start = OscillatorNode.prototype.start;
    (window as { notes?: number[] }).notes = [];
    OscillatorNode.prototype.start = function (...at) {
      (window as { notes?: number[] }).notes?.push(this.frequency.value);
      start.apply(this, at);
    };
  });
  const guard = await Seat.inContext(context, server.url, "tamsin");
  open.push(guard);
  await take(guard, at, "Take fire guard");
  const notes = () => guard.page.evaluate(() => (window as { notes?: number[] }).notes ?? []);
  const mark = guard.page.locator(".title-post[data-mine] .title-mark");
  expect(await mark.count()).toBe(1);
  await guard.press("Test signal");
  await guard.sees("Three tones. Did you hear or feel them?");
  await guard.page.waitForFunction(() => ((window as { notes?: number[] }).notes?.length ?? 0) >= 13);
  expect(new Set((await notes()).slice(-13))).toEqual(new Set([1400, 1000, 950, 650]));
  await guard.press("I hear or feel it");
  await guard.page.getByText("Three tones").waitFor({ state: "detached" });
  expect(await mark.count()).toBe(0);
  const before = (await notes()).length;
  await seat.press("Hold");
  await guard.page.waitForFunction(
    (n) => (window as { notes?: number[] }).notes?.slice(n).includes(950),
    before,
  );
  await guard.answer("Hold. Stop all new action.", "Received");
  expect((await notes()).slice(before).filter((hz) => hz === 950).length).toBe(3);
});

it("[PWA-12] a stop that could not be recorded is shown as not recorded until acknowledged", async () => {
  const { seat } = await supervising("demelza");
  const wire = await Wire.of(seat.context);
  await seat.page.reload();
  await seat.asked(PLAN_ASK);
  const session = new URL(seat.page.url()).pathname.split("/")[2];
  const action = { type: "send", kind: "hold", channel: "panel" };
  wire.say("unrecorded", {
    session,
    action,
    by: { id: "x", name: "Cador", post: "fireGuard" },
    at: Date.now(),
  });
  await seat.sees(/^NOT RECORDED: .* hand signals/);
  await seat.press("Understood");
  await seat.page.getByText(/^NOT RECORDED/).waitFor({ state: "detached" });
});
