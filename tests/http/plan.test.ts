import { afterEach, beforeEach, expect, it } from "vitest";
import { RICH } from "../figures/rich.ts";
import { bearer, crewDirectory, planBody, planned, signIn, type TestHouse, testHouse } from "./test-house.ts";

let test: TestHouse;
let token: string;
beforeEach(async () => {
  const directory = await crewDirectory();
  await directory.addTypes([{ ...RICH, version: 2, approvedBy: "Chief engineer" }], 1);
  test = await testHouse({ directory });
  token = await signIn(test.app, "di");
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
