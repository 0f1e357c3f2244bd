import type { Browser } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, it } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import {
  cleared,
  facts,
  life,
  N,
  READ_BACK,
  readBack,
  readItBack,
  STANDS,
  saysNoClearance,
  sent,
  voids,
} from "./clearanceSteps.ts";
import { type Crew, seatAt, signInCrew } from "./crew.ts";
import { Prompter } from "./prompter.ts";
import { openBrowser, Seat } from "./seat.ts";
import { TestServer } from "./server.ts";
import { Wire } from "./wire.ts";

const READY = `Next is number ${N}. Ready to start it?`;
const WATCHES = "You hold no post: you watch. Anyone may hold, cut and report fire.";
const BRIEFED = "Were you briefed: order, signals, fire plan, way out?";

/** Each story has its own aircraft, so that none waits for the one before. */
const free = ["QX-MA", "QX-MB", "QX-MC", "QX-MD", "QX-ME", "QX-MF"];
const server = new TestServer({ aircraft: free.map((id) => ({ id, name: id, typeId: "penhale-twin" })) });
let browser: Browser;
let crew: Crew;
const stories: Prompter[] = [];

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
  crew = await signInCrew(browser, server.url);
});
afterEach(() => {
  for (const story of stories.splice(0)) story.close();
});
afterAll(async () => {
  await browser?.close();
  await server.end();
});

async function begin(): Promise<Prompter> {
  const story = await Prompter.begin(crew, server, free.shift() ?? "");
  stories.push(story);
  return story;
}

it.each([
  ["cockpit", "jory"],
  ["fireGuard", "perran"],
] as const)(
  "[PST-4] [PST-6] [PST-9] [PST-10] %s handed over in mid-clearance: nothing changes until the heir accepts, then nothing is clear",
  async (post, handle) => {
    const heir = await Seat.open(browser, server.url, handle);
    const story = await begin();
    await heir.turnTo(`/session/${story.session}`);
    await story.playUntil(cleared);
    const seat = seatAt(crew, post);
    await seat.openPosts();
    await seat.press("Hand over");
    const name = demo.people.find((p) => p.handle === handle)?.name ?? "";
    await seat.press(name, seat.page.getByRole("dialog"));
    await seat.press("Close");
    await story.until((s) => s.offers[post] !== null);
    expect(cleared(story.state)).toBe(true);
    await crew.cockpit.asked(READ_BACK);
    await heir.sees(WATCHES);

    await heir.press("A post is offered to you");
    await heir.press(`Accept ${post === "cockpit" ? "cockpit" : "fire guard"}`);
    await heir.press("Close");
    await heir.asked(BRIEFED);
    await seat.sees(WATCHES);
    await crew.supervisor.sees(new RegExp(`^Clearance for number ${N} void`));
    for (const one of [...crew.all, heir]) await saysNoClearance(one);
    expect(voids(story.heard)).toEqual(["epoch"]);
    expect(story.state.posts[post]).toMatchObject({ name, briefed: false });

    await heir.answer(BRIEFED, "I was briefed");
    await (post === "cockpit" ? heir : crew.cockpit).answer(READY, "Ready to start");
    // Nobody has said where the new guard stands; only the old one stood at the engine.
    const guard = post === "cockpit" ? crew.guard : heir;
    if (post === "fireGuard") {
      expect(story.state.guard).toBeNull();
      await guard.answer(`Go to number ${N} and stand guard.`, /^In place/);
      await guard.answer(`Is the arc of number ${N} clear?`, "Arc clear");
    }
    await crew.supervisor.asked(`The crew is ready to start number ${N}. Clear it?`);
    await heir.context.close();
  },
);

it("[PST-5] [PST-10] [PST-11] [PWA-11] a guard who moves to another tablet in mid-clearance keeps their place; the first tablet watches and can still hold", async () => {
  const tablet = await Seat.open(browser, server.url, "cador", { width: 820, height: 1180 });
  const story = await begin();
  await tablet.turnTo(`/session/${story.session}`);
  await story.playUntil(cleared);
  await tablet.press("Take a post");
  await tablet.press("Move it to this device");
  await tablet.press("Close");
  await crew.guard.sees(WATCHES);
  expect(await crew.guard.page.locator(".guard-keys, .ask .answer").count()).toBe(0);
  await tablet.page.getByRole("button", { name: `Leaving number ${N}` }).waitFor();
  for (const seat of [...crew.all, tablet]) await saysNoClearance(seat);
  expect(voids(story.heard)).toEqual(["epoch"]);
  expect(facts(story.heard)).toContainEqual(expect.objectContaining({ type: "postTaken", how: "moved" }));
  expect(story.state.guard?.engine).toBe(N);
  expect(story.state.posts.fireGuard?.briefed).toBe(true);

  await crew.guard.press("Hold");
  for (const seat of [crew.cockpit, crew.power, crew.supervisor])
    await seat.answer("Hold. Stop all new action.", "Received");
  await tablet.answer("Your hold is on. Release it when it is safe.", "Release my hold");
  await crew.cockpit.asked(READY);
  await tablet.context.close();
});

it("[PWA-7] [CLR-5] a second tab in mid-clearance reads nothing back until it takes over, and the clearance stays one", async () => {
  const story = await begin();
  await story.playUntil(cleared);
  const { cockpit } = crew;
  await cockpit.asked(READ_BACK);
  const tab = await cockpit.anotherTab();
  const elsewhere = "Austol Vellanwen is open in another tab";
  await tab.page.getByRole("heading", { name: elsewhere }).waitFor();
  expect(await tab.page.getByRole("button", { name: "Read back" }).count()).toBe(0);
  await tab.press("Take over here");
  await cockpit.page.getByRole("heading", { name: elsewhere }).waitFor();
  await readItBack(tab);
  await tab.answer(STANDS, "Starter engaged");
  await story.until((s) => life(s)?.is === "cranking");
  expect(voids(story.heard)).toEqual([]);
  expect(facts(story.heard).filter((f) => f.type === "answered" && f.answer === "readBack")).toHaveLength(1);
  expect(sent(story.heard, "cranking")).toBe(1);
  await tab.page.close();
  await cockpit.asked(`Number ${N} is cranking. Did it catch?`);
});

it("[PAN-8] [CLR-5] a reload in mid-clearance asks the same as before, and nothing is sent twice", async () => {
  const story = await begin();
  await story.playUntil(cleared);
  const { cockpit } = crew;
  await cockpit.asked(READ_BACK);
  await cockpit.page.reload();
  await readItBack(cockpit);
  await cockpit.page.reload();
  await cockpit.answer(STANDS, "Starter engaged");
  await cockpit.page.reload();
  await cockpit.asked(`Number ${N} is cranking. Did it catch?`);
  expect(voids(story.heard)).toEqual([]);
  expect(facts(story.heard).filter((f) => f.type === "answered" && f.answer === "readBack")).toHaveLength(1);
  expect(sent(story.heard, "cranking")).toBe(1);
});

it("[PWA-5] [PWA-9] [CLR-7] a cockpit that reconnects finds its clearance while it stands, and none after a hold that it missed", async () => {
  const story = await begin();
  const { cockpit, guard } = crew;
  const wire = await Wire.of(cockpit.page);
  await cockpit.page.reload();
  await story.playUntil(cleared);
  await readItBack(cockpit);
  await story.until(readBack);
  const key = (name: string) => cockpit.page.locator(".ask").getByRole("button", { name });
  wire.cut();
  await cockpit.sees(/^Offline, last heard .* ago\. Hold\./);
  // Answers that lower no safety can be given without a link.
  expect(await key("Starter engaged").isDisabled()).toBe(true);
  expect(await key("Abandon start").isDisabled()).toBe(false);
  wire.mend();
  await cockpit.page.locator(".stale").waitFor({ state: "detached" });
  await cockpit.asked(STANDS);
  expect(await key("Starter engaged").isDisabled()).toBe(false);

  wire.cut();
  await cockpit.sees(/^Offline, last heard .* ago\. Hold\./);
  await guard.press("Hold");
  await story.until((s) => s.holds.length === 1);
  expect(await key("Starter engaged").isDisabled()).toBe(true);
  wire.mend();
  await cockpit.answer("Hold. Stop all new action.", "Received");
  await saysNoClearance(cockpit);
  expect(voids(story.heard)).toEqual(["epoch"]);
  expect(sent(story.heard, "cranking")).toBe(0);
});
