import { expect, it } from "vitest";
import { UNSEEN_MS } from "../../web/remote/keyDoes.ts";
import { firstScripts } from "./firstScripts.ts";
import { boxes } from "./measure.ts";
import { KEEPS_NOTHING, key, Seat } from "./seat.ts";
import { seats, secured } from "./secured.ts";

const at = secured();

it("[PAN-5] the panels keep hold, cut and fire large, enabled, in one place and uncovered", async () => {
  for (const [post, { page }] of seats(at.crew)) {
    const before = await boxes(page, ".stop");
    expect(before.map((b) => b.name).join(" "), post).toMatch(/Hold.*Cut.*Fire/);
    for (const b of before) expect(Math.min(b.width, b.height), post).toBeGreaterThanOrEqual(113);
    await page.getByRole("button", { name: "Cut", exact: true }).click();
    expect(await boxes(page, ".stop"), post).toEqual(before);
    // Playwright refuses to touch a covered element.
    for (const name of ["Hold", "Cut", "Fire"])
      await page.getByRole("button", { name, exact: true }).click({ trial: true });
    await page.getByRole("button", { name: "Close" }).click();
  }
});

it("[PAN-27] a sheet takes the focus and returns it, and the keyboard leads out of it to the stops", async () => {
  const { page } = at.crew.cockpit;
  const focused = (selector: string) =>
    page.waitForFunction((s) => document.activeElement?.matches(s), selector);
  const sheets = page.getByRole("dialog");
  await page.locator(".title-posts").focus();
  await page.keyboard.press("Enter");
  await focused(".sheet");
  await page.keyboard.press("Escape");
  await focused(".title-posts");
  expect(await sheets.count()).toBe(0);
  await page.keyboard.press("Enter");
  await focused(".sheet");
  const atStop = () => page.evaluate(() => document.activeElement?.classList.contains("stop-hold"));
  for (let tabs = 0; tabs < 150 && !(await atStop()); tabs += 1) await page.keyboard.press("Tab");
  expect(await atStop()).toBe(true);
  await at.crew.cockpit.press("Cut");
  const cut = page.getByRole("dialog", { name: "Cut: which engine?" });
  await cut.waitFor();
  expect(await sheets.count()).toBe(2);
  await focused(".sheet");
  await page.keyboard.press("Escape");
  await cut.waitFor({ state: "detached" });
  await focused(".stop-cut");
  expect(await sheets.count()).toBe(1);
  await page.keyboard.press("Escape");
  await sheets.waitFor({ state: "detached" });
});

it("[PAN-27] the questions of a stop can be answered when no script loads but the page's first", async () => {
  const first = firstScripts(await (await fetch(at.server.url)).text());
  const context = await at.browser.newContext(KEEPS_NOTHING);
  const observer = await Seat.inContext(context, at.server.url, "tamsin");
  const refused: string[] = [];
  await context.route(/\/assets\/.*\.js$/, (route) => {
    const { pathname } = new URL(route.request().url());
    if (first.includes(pathname)) return route.continue();
    refused.push(pathname);
    return route.abort();
  });
  await observer.page.goto(`${at.server.url}/session/${at.session.session}`);
  await observer.press("Cut");
  const sheet = observer.page.getByRole("dialog", { name: "Cut: which engine?" });
  await key("Cut all engines", sheet).waitFor();
  expect(await sheet.evaluate((e) => [e.tagName, e === document.activeElement])).toEqual(["DIALOG", true]);
  await observer.page.keyboard.press("Escape");
  await sheet.waitFor({ state: "detached" });
  expect(refused).not.toEqual([]);
  await context.close();
});

it("[PAN-6] the panels have keys for gloves", async () => {
  for (const [post, { page }] of seats(at.crew)) {
    for (const b of await boxes(page, ".panel button"))
      expect(b.height, `${post}: ${b.name}`).toBeGreaterThanOrEqual(83);
    const answers = await boxes(page, ".ask .answers .answer");
    answers.slice(1).forEach((b, i) => {
      const a = answers[i];
      expect(b.x - ((a?.x ?? 0) + (a?.width ?? 0)), `${post}: ${b.name}`).toBeGreaterThanOrEqual(22.9);
    });
  }
});

it("[PAN-4] the panels draw the engines as seen from where the person stands, and say so", async () => {
  const keys = async ({ page }: Seat) =>
    (await boxes(page, ".engine-key .engine-number")).sort((a, b) => a.x - b.x).map((b) => b.name);
  expect(await keys(at.crew.cockpit)).toEqual(["1", "2", "3", "4"]);
  await at.crew.cockpit.sees("Drawn as you sit, facing forward");
  expect(await keys(at.crew.guard)).toEqual(["4", "3", "2", "1"]);
  await at.crew.guard.press("I stand behind the tail");
  await at.crew.guard.sees("Drawn as you face the tail, from behind");
  expect(await keys(at.crew.guard)).toEqual(["1", "2", "3", "4"]);
  await at.crew.guard.press("I stand before the nose");
  await at.crew.guard.sees("Drawn as you face the nose");
  for (const [post, { page }] of seats(at.crew))
    expect(await page.locator("body").textContent(), post).not.toMatch(
      /\b(left|right) (side|hand|engine|wing)/i,
    );
});

it("[PAN-15] the panels take no touch on an ask that has just appeared", async () => {
  const answers = at.crew.cockpit.page.locator(".ask > .answers");
  const touchable = () => answers.evaluate((e) => getComputedStyle(e).pointerEvents);
  await at.crew.cockpit.page.emulateMedia({ reducedMotion: "reduce" });
  // The half second starts again with each ask, because a new element replaces the old one.
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

it("[PAN-22] the panels scroll back to the ask when it changes", async () => {
  const { guard } = at.crew;
  const main = guard.page.locator(".panel-main");
  await main.evaluate((e) => e.scrollTo(0, 1_000));
  expect(await main.evaluate((e) => e.scrollTop)).toBeGreaterThan(100);
  // A row of the queue, further down, opens another ask.
  await guard.page.locator(".queue-row").first().click();
  await expect.poll(() => main.evaluate((e) => e.scrollTop)).toBe(0);
});

it("[PAN-22] the panels scroll back to the ask when the device is turned", async () => {
  const { page } = at.crew.guard;
  const wide = page.viewportSize();
  await page.setViewportSize({ width: 1_180, height: 820 });
  const asked = page.locator(".panel-ask");
  const far = await asked.evaluate((e) => {
    e.scrollTo(0, 1_000);
    return e.scrollTop;
  });
  expect(far).toBeGreaterThan(100);
  await page.setViewportSize({ width: 390, height: 844 });
  await page.setViewportSize({ width: 1_180, height: 820 });
  await expect.poll(() => asked.evaluate((e) => e.scrollTop)).toBe(0);
  if (wide) await page.setViewportSize(wide);
});

it("[PAN-22] the panels scroll back to the sentence when its entry opens", async () => {
  const { cockpit } = at.crew;
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
  await cockpit.page.locator(".ask .entry").waitFor();
  expect(await hidden()).toBe(false);
  await cockpit.press("Back");
});

it("[PAN-12] the panels record no figure that was only shown", async () => {
  await at.crew.cockpit.asked("Set the brakes and read their pressure.");
  await at.crew.cockpit.press("Brakes set");
  const record = at.crew.cockpit.page.getByRole("button", { name: "Set what the gauge shows" });
  expect(await record.isDisabled()).toBe(true);
  await at.crew.cockpit.press("More by 10 psi");
  await at.crew.cockpit.press(/^Record \d+ psi/);
  await at.crew.cockpit.sees(/^Brakes set, \d+ psi$/);
});

it("[UNI-3, UNI-5] the panels show figures in the units one person chose, beside the reading, also after a reload", async () => {
  const { cockpit, guard } = at.crew;
  await cockpit.openPosts();
  await cockpit.press("Units");
  await cockpit.press("kPa");
  for (const b of await boxes(cockpit.page, ".unit-key")) expect(b.height, b.name).toBeGreaterThanOrEqual(83);
  await cockpit.page.reload();
  await cockpit.sees(/^Brakes set at \d+ kPa \(\d+ psi\), /);
  // The panels of the others did not change.
  await guard.sees(/^Brakes set at \d+ psi, /);
  await cockpit.openPosts();
  await cockpit.press("Units");
  await cockpit.press("As read");
  await cockpit.press("Close");
  await cockpit.sees(/^Brakes set at \d+ psi, /);
  await cockpit.press("Close");
});

it("[PAN-9] the panels say what was recorded, under which number, and who has answered", async () => {
  await at.crew.power.answer("Chock the wheels, fore and aft.", "Chocks in");
  await at.crew.power.sees("Cockpit: no answer yet");
  await at.crew.cockpit.answer("Chocks are in.", "Received");
  await at.crew.power.sees(/^Cockpit: received, \d\d:\d\d:\d\d$/);
  await at.crew.power.sees(/^Recorded as number \d+$/);
});

it("[REM-1, REM-2, REM-3, REM-5, REM-6] a remote's keys, taught at the panel, answer one ask and hold", async () => {
  const { guard, cockpit } = at.crew;
  const { keyboard } = guard.page;
  const lookAt = "Fire extinguisher in hand: gauge in range, seal whole";
  const sheet = guard.page.getByRole("dialog");
  await guard.openPosts();
  await guard.press("Test signal", sheet);
  await guard.press("Teach a key to answer");
  await keyboard.press("PageDown");
  await guard.press("Teach a key to hold");
  await keyboard.press("PageDown");
  await guard.sees(/That key is already taught/);
  await keyboard.press("b");
  expect(await sheet.locator("kbd").allTextContents()).toEqual(["PageDown", "KeyB"]);
  await guard.press("Close");
  await guard.press("Close");
  await guard.page.reload();
  await guard.asked(lookAt);
  await guard.sees("The remote's key answers: Good");
  // An ask that has just come to the front takes no press of a thumb.
  await keyboard.press("PageDown");
  await guard.page.evaluate((ms) => new Promise((done) => setTimeout(done, ms)), UNSEEN_MS);
  await guard.sees("The remote's key answers: Good");
  await keyboard.press("PageDown");
  await guard.askedNoMore(lookAt);
  await guard.page.evaluate(() => {
    const field = document.body.appendChild(document.createElement("input"));
    field.id = "typed";
    field.focus();
  });
  await keyboard.press("b");
  expect(await guard.page.locator("#typed").inputValue()).toBe("b");
  await guard.page.evaluate(() => document.querySelector("#typed")?.remove());
  expect(await guard.page.locator(".standing-row").count()).toBe(0);
  await keyboard.down("b");
  await keyboard.down("b");
  await keyboard.up("b");
  await cockpit.sees(/^Hold\. Cador/);
  await guard.answer("Your hold is on. Release it when it is safe.", "Release my hold");
  await guard.openPosts();
  await guard.press("Test signal", sheet);
  await guard.press("Forget the keys");
  expect(await sheet.locator("kbd").count()).toBe(0);
  await guard.press("Close");
  await guard.press("Close");
});

// The last test of the file: the fire stands.
it("[FIR-10] one touch on Fire is heard by all four panels, though the sender's page is closed at once", async () => {
  const context = await at.browser.newContext({ viewport: { width: 390, height: 844 }, ...KEEPS_NOTHING });
  const observer = await Seat.inContext(context, at.server.url, "tamsin");
  await observer.turnTo(`/session/${at.session.session}`);
  await observer.press("Fire");
  await observer.page.close();
  for (const [, seat] of seats(at.crew)) await seat.sees(/^Fire: place not said\. Tamsin/);
  await context.close();
  await at.crew.guard.press("Number? Where?");
  await at.crew.guard.press("Engine number 2");
  await at.crew.guard.press("Nacelle");
  for (const [, seat] of seats(at.crew)) await seat.sees(/^Fire at number 2: nacelle\. Tamsin/);
});
