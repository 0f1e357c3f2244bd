import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { RICH } from "../figures/rich.ts";
import {
  bearer,
  crewDirectory,
  moveTo,
  planBody,
  planned,
  signIn,
  type TestServer,
  testServer,
} from "./test-server.ts";

let test: TestServer;
let token: string;
beforeEach(async () => {
  const directory = await crewDirectory();
  await directory.addTypes([{ ...RICH, version: 2, approvedBy: "Chief engineer" }], 1);
  test = await testServer({ directory });
  token = await signIn(test.app, "di");
  await moveTo(test.app, token, 2);
});
afterEach(() => test.close());

const stateOf = async (id: string) =>
  (await test.app.inject({ url: `/api/sessions/${id}`, headers: bearer(token) })).json().state;

it("[ORD-1, SRV-4] a plan with another order than advised is refused with the advice until it says why", async () => {
  const order = [3, 1, 2, 4];
  const refused = await test.app.inject({
    method: "POST",
    url: "/api/sessions",
    headers: bearer(token),
    payload: planBody({ order }),
  });
  expect(refused.statusCode).toBe(422);
  const [fault] = refused.json().errors;
  expect(fault).toMatchObject({ path: "orderReason" });
  const advised = fault.message
    .match(/[1-4](-[1-4])+/)[0]
    .split("-")
    .map(Number);
  expect(advised).not.toEqual(order);

  const { id } = await planned(test.app, token, { order, orderReason: "the door side last" });
  const state = await stateOf(id);
  expect(state.order).toEqual(order);
  expect(state.orderAdvice.order).toEqual(advised);
  expect(state.orderAdvice.extra).toBeGreaterThan(0);

  const asAdvised = await planned(test.app, token, { order: advised });
  expect((await stateOf(asAdvised.id)).orderAdvice).toEqual({ order: advised, extra: 0 });
});

it("[SRV-4] a plan keeps where the nose points and the field's height", async () => {
  const { id } = await planned(test.app, token, {
    ...{ order: [3], headingDeg: 250, elevationFt: 1420 },
  });
  expect(await stateOf(id)).toMatchObject({ headingDeg: 250, elevationFt: 1420 });
});

describe("what stands near", () => {
  const hangar = {
    kind: "building",
    name: "Hangar 2",
    bearingDeg: 90,
    distance: { value: 30, unit: "m" },
    across: { value: 20, unit: "m" },
  };
  const plan = (more: Record<string, unknown>) =>
    test.app.inject({
      method: "POST",
      url: "/api/sessions",
      headers: bearer(token),
      payload: planBody(more),
    });

  it("[GEO-1] is kept with the plan, and refused without the heading that places it", async () => {
    const { id } = await planned(test.app, token, { headingDeg: 250, neighbours: [hangar] });
    expect(await stateOf(id)).toMatchObject({ neighbours: [hangar] });
    const refused = await plan({ neighbours: [hangar] });
    expect(refused.statusCode).toBe(422);
    expect(refused.json().detail).toBe(
      "headingDeg: needed to place what stands near: its bearings are degrees true",
    );
  });

  it.each([
    [{ bearingDeg: 361 }, "bearingDeg"],
    [{ distance: { value: -1, unit: "m" } }, "distance"],
    [{ distance: { value: 10, unit: "psi" } }, "distance"],
    [{ across: { value: 0, unit: "m" } }, "across"],
    [{ name: "" }, "name"],
    [{ kind: "tree" }, "kind"],
  ])("[GEO-1] is refused with the place of what is wrong: %o", async (wrong, place) => {
    const refused = await plan({ headingDeg: 250, neighbours: [{ ...hangar, ...wrong }] });
    expect(refused.statusCode).toBe(400);
    expect(refused.body).toContain(`neighbours.0.${place}`);
  });
});
