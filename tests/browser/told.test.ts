import { expect, it } from "vitest";
import { PROGRESSIVE } from "../pictures/files.ts";
import { passTime } from "./crew.ts";
import { axeFaults, boxes, drawnFaults } from "./measure.ts";
import type { Seat } from "./seat.ts";
import { secured } from "./secured.ts";

const at = secured();

it("[WEA-4] the panels read a METAR before it is sent, and say why one is refused", async () => {
  const { cockpit, supervisor } = at.crew;
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
  // Every panel shows it with its age.
  await supervisor.sees(/^Wind from 240°, 8 kt, gusts 19 kt, 12 °C, QNH 1013 hPa, 5:/);
});

it("[WEA-5, WEA-6, WEA-7] one touch on a flash stops work, and a second at its thunder says how far it was", async () => {
  const { guard, supervisor } = at.crew;
  await guard.press("Lightning");
  await guard.sees("No lightning near.");
  await guard.press("Flash now");
  await supervisor.sees(/^Lightning at an unknown distance: no work until [0-9:]+ UTC, /);
  const count = await guard.page.getByText(/^[1-9]\d* s since the flash: about \d+\.\d mi$/).textContent();
  const [seconds = 0, miles = 0] = (count?.match(/\d+(\.\d)?/g) ?? []).map(Number);
  expect(miles).toBeCloseTo(seconds / 5);
  for (const b of await boxes(guard.page, ".lightning-key"))
    expect(b.height, b.name).toBeGreaterThanOrEqual(113);
  await guard.press("Thunder now");
  await supervisor.sees(/^Lightning \d+(\.\d)? mi away: no work until [0-9:]+ UTC, /);
  await guard.sees("A flash within 6 mi stops work until 30 min after the last flash.");
  await guard.press("Close");
  for (const [seat, act] of [
    [at.crew.cockpit, "Start nothing."],
    [guard, "Go into shelter and wait there."],
    [at.crew.power, "Touch neither cable nor cart. Stay clear of both, in shelter."],
    [supervisor, "Clear nothing. See that nobody stays outside."],
  ] as const) {
    await seat.answer(`Lightning is near and stops work. ${act}`, "Seen");
    await seat.asked(`Lightning stops work. ${act}`);
  }
  await passTime(at.server, at.crew, 1_800_000);
  await supervisor.page.getByText(/^Lightning .*: work stops until/).waitFor({ state: "detached" });
});

it("[NOI-4, NOI-5] the panels show a person their noise dose and the supervisor everybody's, and each opens to its inputs", async () => {
  const noise = (seat: Seat) => seat.page.locator(".worked", { hasText: "Calculated noise" });
  const names = async (seat: Seat) => noise(seat).locator(".worked-detail").allTextContents();
  await noise(at.crew.guard).locator("details").waitFor();
  expect(await names(at.crew.guard)).toEqual(["Cador Nanskeval"]);
  await noise(at.crew.supervisor).locator("details").nth(3).waitFor();
  expect((await names(at.crew.supervisor)).length).toBe(4);
  await noise(at.crew.guard).locator("summary").click();
  await at.crew.guard.sees("at fire guard until a whole dose");
  await at.crew.guard.sees(/^D = 100 sum/);
  await noise(at.crew.guard).locator("summary").click();
});

it("[PAN-18] [DEF-14] any post writes up a defect and adds a picture to it; the supervisor closes it with a reason", async () => {
  const { guard, supervisor } = at.crew;
  await guard.openPosts();
  for (const key of ["Defects", "Write up a defect", "Number 2", "Oil leak", "Blocks the start"])
    await guard.press(key);
  const add = guard.page.getByLabel("Add a picture to: Oil leak");
  await add.setInputFiles({ name: "leak.jpg", mimeType: "image/jpeg", buffer: PROGRESSIVE });
  await guard.sees("The picture is added.");
  await guard.press("Close");
  await guard.press("Close");
  await supervisor.sees("A defect blocks the start: Oil leak");
  await supervisor.openPosts();
  for (const key of ["Defects", "Close it", "Mended and checked"]) await supervisor.press(key);
  await supervisor.sees("This aircraft has no open defect.");
  await supervisor.press("Close");
  await supervisor.press("Close");
  expect(await supervisor.page.getByText("A defect blocks the start").count()).toBe(0);
});

it("[PAN-19] the supervisor changes the plan after the brief, with a reason", async () => {
  const { cockpit, supervisor } = at.crew;
  await supervisor.openPosts();
  await supervisor.press("Change the plan");
  const sheet = supervisor.page.getByRole("dialog");
  const goOn = sheet.getByRole("button", { name: "Go on to the reason" });
  expect(await goOn.isDisabled()).toBe(true);
  await supervisor.press(/^Engine 2:/, sheet);
  await supervisor.press(/^Engine 2:/, sheet);
  await goOn.click();
  await supervisor.press("Equipment not available");
  await cockpit.openPosts();
  await cockpit.press("Change the plan");
  await cockpit.sees("Order of starting: 3-4-1-2");
  for (const seat of [cockpit, cockpit, supervisor]) await seat.press("Close");
});

it("[PAN-23] the supervisor looks back at any moment and can answer nothing there, until something urgent happens", async () => {
  const { cockpit, guard, power, supervisor } = at.crew;
  const { page } = supervisor;
  await at.session.playUntil((s) => s.chocks?.in === true);
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
  expect(await axeFaults(page)).toEqual([]);
  await guard.press("Hold");
  await supervisor.asked("Hold. Stop all new action.");
  expect(await page.getByText("THE PAST").count()).toBe(0);
  for (const seat of [cockpit, power, supervisor])
    await seat.answer("Hold. Stop all new action.", "Received");
  await guard.answer("Your hold is on. Release it when it is safe.", "Release my hold");
});
