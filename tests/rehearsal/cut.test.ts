import { afterEach, beforeEach, expect, it } from "vitest";
import type { Post } from "../../shared/protocol/posts.ts";
import { HOLD, type LiveServer, liveServer, panelOf, type TestPanel } from "../live/panel.ts";
import { Both } from "./world.ts";

let server: LiveServer;
let both: Both;
let panels: TestPanel[];

beforeEach(async () => {
  server = await liveServer();
  both = await new Both(server).begin();
  panels = [];
});
afterEach(async () => {
  for (const panel of panels) panel.close();
  await server.close();
});

/** A panel that holds a post of the rehearsal and of the start, and watches both on one socket. */
async function panelAt(handle: string, post: Post): Promise<TestPanel> {
  const panel = await panelOf(server, handle);
  panels.push(panel);
  for (const id of [both.rehearsal, both.start]) {
    expect(await panel.command(id, { type: "claimPost", post })).toMatchObject({ status: "accepted" });
    await panel.watch(id);
  }
  return panel;
}
const throwFault = (body: object) =>
  both.ask("POST", `/rehearsals/${both.rehearsal}/desk`, "ada", { do: "throw", engine: 1, ...body });
const heardOf = (panel: TestPanel, id: string) => panel.heard.filter((e) => e.session === id).length;
const headOf = async (id: string) => (await both.state(id)).seq;
const pass = (seconds: number) => server.hand.pass(seconds * 1_000);

it("[RHS-53] a dead tablet hears nothing of its rehearsal and is heard by nobody there; its start goes on as ever", async () => {
  const { rehearsal, start } = both;
  const [power, guard] = [await panelAt("cy", "groundPower"), await panelAt("bo", "fireGuard")];
  await throwFault({ fault: "deadTablet", post: "groundPower" });
  await pass(2);
  await power.exchange();
  const before = heardOf(power, rehearsal);
  const beats = power.beats.filter((b) => b.session === rehearsal).length;
  let answered = false;
  power.command(rehearsal, HOLD).then(
    () => {
      answered = true;
    },
    // The socket is closed at the end of the test.
    () => undefined,
  );
  expect(await guard.command(rehearsal, HOLD)).toMatchObject({ status: "accepted" });
  await pass(6);
  await power.exchange();
  expect((await both.state(rehearsal)).holds.map((h) => h.by.name)).toEqual(["Bo"]);
  expect([answered, heardOf(power, rehearsal)]).toEqual([false, before]);
  expect(power.beats.filter((b) => b.session === rehearsal)).toHaveLength(beats);
  const seen = guard.beats.findLast((b) => b.session === rehearsal);
  const real = guard.beats.findLast((b) => b.session === start);
  expect(seen?.links.groundPower).not.toEqual(real?.links.groundPower);
  const world = await both.ask("GET", `/rehearsals/${rehearsal}/world`, "cy");
  expect(world.statusCode).toBe(503);
  expect((await both.ask("GET", `/rehearsals/${rehearsal}/world`, "ada")).statusCode).toBe(200);
  // The same panel, on the same socket, in the start.
  expect(await power.command(start, HOLD)).toMatchObject({ status: "accepted" });
  await power.until(() => power.heard.some((e) => e.session === start && e.fact.type === "sent"));
});

it("[RHS-53] when the fault is over, the panel learns what it missed, and what it kept is taken", async () => {
  const { rehearsal } = both;
  const [power, guard] = [await panelAt("cy", "groundPower"), await panelAt("bo", "fireGuard")];
  await throwFault({ fault: "deadTablet", post: "groundPower" });
  await pass(2);
  await guard.command(rehearsal, HOLD);
  await pass(50);
  const head = await headOf(rehearsal);
  await power.until(() => power.beats.some((b) => b.session === rehearsal && b.head >= head));
  const sync = await power.watch(rehearsal, 1);
  expect("events" in sync && sync.events.some((e) => e.fact.type === "sent" && e.fact.kind === "hold")).toBe(
    true,
  );
  expect(await power.command(rehearsal, HOLD)).toMatchObject({ status: "accepted" });
});

it("[RHS-53] with the network gone every post of the rehearsal is cut off, and who watches is not", async () => {
  const { rehearsal, start } = both;
  const [power, guard] = [await panelAt("cy", "groundPower"), await panelAt("bo", "fireGuard")];
  const desk = await panelOf(server, "fay");
  panels.push(desk);
  await desk.watch(rehearsal);
  await throwFault({ fault: "networkGone" });
  await pass(2);
  await Promise.all([power.exchange(), guard.exchange()]);
  const before = [power, guard].map((p) => heardOf(p, rehearsal));
  await both.ask("POST", `/rehearsals/${rehearsal}/desk`, "ada", { do: "mark", words: "Now" });
  await desk.until(() => desk.heard.some(({ fact }) => fact.type === "rehearsed" && fact.said.is === "mark"));
  await Promise.all([power.exchange(), guard.exchange()]);
  expect([power, guard].map((p) => heardOf(p, rehearsal))).toEqual(before);
  expect(server.services.rehearsals.isCutOff(start, { id: "cy", device: "cy-tablet" })).toBe(false);
  expect(await guard.command(start, HOLD)).toMatchObject({ status: "accepted" });
});
