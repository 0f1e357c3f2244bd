import { afterAll, beforeAll, expect, it } from "vitest";
import { planned, signIn } from "../http/test-house.ts";
import { HOLD, type LiveHouse, liveHouse, panelOf } from "../live/panel.ts";
import { Chance } from "../sim/chance.ts";
import { fuzz } from "./fuzz.ts";

let house: LiveHouse;
beforeAll(async () => {
  house = await liveHouse();
});
afterAll(() => house.close());

it("[SEC-11] malformed frames and requests by the thousand crash nothing, hang nothing and are no fault of the server's", async () => {
  const session = (await planned(house.app, await signIn(house.app, "fay"))).id;
  const bo = await panelOf(house, "bo");
  const run = await fuzz(house.app, house.url, session, {
    frames: 3_000,
    requests: 1_000,
    chance: new Chance(11),
    pause: () => house.hand.pass(3_000),
  });
  expect(run.faults).toEqual([]);
  expect([run.frames, run.requests]).toEqual([3_000, 1_000]);
  // Some reached far enough to be answered well, some cut their socket.
  expect(run.cut).toBeGreaterThan(2);
  expect(Object.keys(run.statuses)).toEqual(expect.arrayContaining(["200", "400", "401", "404", "415"]));
  expect((await bo.command(session, HOLD)).status).toBe("accepted");
  bo.close();
}, 60_000);
