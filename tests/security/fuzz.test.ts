import { afterAll, beforeAll, expect, it } from "vitest";
import { planned, signIn } from "../http/test-server.ts";
import { HOLD, type LiveServer, liveServer, panelOf } from "../live/panel.ts";
import { Chance } from "../sim/chance.ts";
import { fuzz } from "./fuzz.ts";

let server: LiveServer;
beforeAll(async () => {
  server = await liveServer();
});
afterAll(() => server.close());

it("[SEC-11] thousands of malformed frames and requests crash nothing, hang nothing and cause no server error", async () => {
  const session = (await planned(server.app, await signIn(server.app, "fay"))).id;
  const bo = await panelOf(server, "bo");
  const run = await fuzz(server.app, server.url, session, {
    frames: 3_000,
    requests: 1_000,
    chance: new Chance(11),
    pause: () => server.hand.pass(3_000),
  });
  expect(run.faults).toEqual([]);
  expect([run.frames, run.requests]).toEqual([3_000, 1_000]);
  // Some messages got far enough for a proper answer, some had their socket cut.
  expect(run.cut).toBeGreaterThan(2);
  expect(Object.keys(run.statuses)).toEqual(expect.arrayContaining(["200", "400", "401", "404", "415"]));
  expect((await bo.command(session, HOLD)).status).toBe("accepted");
  bo.close();
});
