import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { ALL_BAR } from "../../shared/house/house.ts";
import { BOTTLE, CART, CHOCKS, keptAs } from "../spec/equipped.ts";
import { bearer, planBody, signIn, type TestServer, testServer } from "./test-server.ts";

let test: TestServer;
const tokens: Record<string, string> = {};
beforeEach(async () => {
  test = await testServer();
  for (const who of ["di", "ada", "bo", "ed"]) tokens[who] = await signIn(test.app, who);
});
afterEach(() => test.close());

async function ask(
  who: string,
  method: "GET" | "POST" | "PUT",
  url: string,
  payload?: object,
  revision?: number,
) {
  const tag = revision === undefined ? {} : { "if-match": `"${revision}"` };
  const reply = await test.app.inject({
    ...{ method, url: `/api${url}`, headers: { ...bearer(tokens[who] ?? ""), ...tag } },
    ...(payload === undefined ? {} : { payload }),
  });
  const body = reply.json();
  return { status: reply.statusCode, body, kind: body.type?.split(":").at(-1) };
}

const add = (entry: object) => ask("di", "POST", "/equipment", entry);

describe("the register of equipment", () => {
  it("[EQP-1] [HSE-1] [HSE-2] keeps every state, refuses a wrong entry with its place, and never changes a kind", async () => {
    expect((await add(keptAs(CART))).body).toEqual({ id: "GPU-1", revision: 1 });
    expect((await add(keptAs(CART))).kind).toBe("taken");
    const wrong = await add(keptAs({ ...CART, id: "GPU-2", peakA: 1 }));
    expect([wrong.status, wrong.body.errors[0].path]).toEqual([422, "peakA"]);
    expect((await add(keptAs({ ...CART, id: "gpu 2" }))).status).toBe(400);
    const renamed = keptAs({ ...CART, name: "South cart" });
    expect((await ask("di", "PUT", "/equipment/GPU-1", renamed, 1)).status).toBe(200);
    expect((await ask("di", "PUT", "/equipment/GPU-1", renamed, 1)).kind).toBe("stale");
    const other = keptAs({ ...CHOCKS, id: "GPU-1" });
    expect((await ask("di", "PUT", "/equipment/GPU-1", other, 2)).body.errors[0].path).toBe("kind");
    expect((await ask("ada", "GET", "/equipment/GPU-1/changes")).body).toMatchObject([
      { revision: 2, by: "Di", body: { name: "South cart" } },
      { revision: 1, by: "Di", body: { name: "North cart" } },
    ]);
    expect((await ask("ada", "GET", "/equipment/NONE")).kind).toBe("notFound");
  });

  it("[EQP-2] anybody qualified takes a piece out with cause and reason, and a supervisor puts it back", async () => {
    await add(keptAs(CHOCKS));
    const out = (who: string, cause: string | null, revision: number) =>
      ask(who, "PUT", "/equipment/CHK-A/out", { out: cause, reason: "Split along the grain" }, revision);
    expect((await out("ed", "broken", 1)).kind).toBe("notQualified");
    expect((await out("bo", "broken", 1)).status).toBe(200);
    const { body } = await ask("ada", "GET", "/equipment/CHK-A");
    expect(body.faults).toEqual([{ is: "out", cause: "broken", words: "Split along the grain" }]);
    // A change of its facts does not bring it back.
    expect((await ask("di", "PUT", "/equipment/CHK-A", keptAs(CHOCKS), 2)).status).toBe(200);
    expect((await ask("ada", "GET", "/equipment/CHK-A")).body.body.out?.cause).toBe("broken");
    expect((await out("bo", null, 3)).kind).toBe("notQualified");
    expect((await out("di", null, 3)).status).toBe(200);
    expect((await ask("ada", "GET", "/equipment/CHK-A")).body.faults).toEqual([]);
    const plan = { out: "broken" };
    expect((await ask("bo", "PUT", "/equipment/CHK-A/out", plan, 4)).status).toBe(400);
  });
});

describe("a plan with equipment", () => {
  const OLD = { ...BOTTLE, id: "EXT-9", weighedUntil: "2020-01-31" };
  const GOOD = { ...BOTTLE, weighedUntil: "2099-12-31", testedUntil: "2099-12-31" };
  const plan = (...equipment: string[]) => ask("ada", "POST", "/sessions", planBody({ equipment }));

  it("[EQP-5] records the facts of then; what comes later does not change them", async () => {
    for (const facts of [CART, GOOD]) await add(keptAs(facts, { place: "Hangar 1", notes: "Red" }));
    const { body, status } = await plan("GPU-1", "EXT-3");
    expect(status).toBe(201);
    await ask("di", "PUT", "/equipment/GPU-1", keptAs({ ...CART, peakA: 900 }), 1);
    const { events } = (await ask("ada", "GET", `/sessions/${body.id}/events`)).body;
    expect(events[0].fact.equipment).toEqual([CART, GOOD]);
  });

  it("[EQP-5] is refused for what is unknown, twice there, out of service or overdue, all at once", async () => {
    for (const facts of [CART, OLD, CHOCKS]) await add(keptAs(facts));
    await ask("bo", "PUT", "/equipment/CHK-A/out", { out: "broken", reason: "Split" }, 1);
    expect((await plan("GPU-1", "GPU-1", "NONE", "EXT-9", "CHK-A")).body.errors).toEqual([
      { path: "equipment.1", message: "GPU-1 is named twice" },
      { path: "equipment.2", message: "the register has nothing with the label NONE" },
      { path: "equipment.3", message: "EXT-9 is overdue: its weighing held until 2020-01-31" },
      {
        path: "equipment.4",
        message: "CHK-A is broken (Split): a supervisor puts it back into service",
      },
    ]);
  });

  it("[EQP-20] a piece that an open session has is refused to another, even of two plans at once", async () => {
    for (const facts of [CART, GOOD]) await add(keptAs(facts));
    const both = await Promise.all([plan("GPU-1"), plan("GPU-1", "EXT-3")]);
    expect(both.map((r) => r.status).sort()).toEqual([201, 422]);
    const made = both.find((r) => r.status === 201)?.body;
    const refused = both.find((r) => r.status === 422)?.body;
    expect(refused.errors).toEqual([
      {
        path: "equipment.0",
        message: `GPU-1 is allocated to CH-TST, session ${made.code}: end that session first, or take another`,
      },
    ]);
    expect((await plan("EXT-3")).status).toBe(201);
  });

  it("[EQP-4] [HSE-14] by the house's rule a date that is over only warns; the name changes with it", async () => {
    await add(keptAs(OLD));
    expect((await plan("EXT-9")).status).toBe(422);
    const to = { name: "Northfield Flight", overdue: { ...ALL_BAR, extinguisher: "warns" } };
    expect((await ask("ada", "GET", "/house/settings")).body).toMatchObject({
      overdue: ALL_BAR,
      revision: 0,
    });
    expect((await ask("ada", "PUT", "/house/settings", to, 0)).kind).toBe("notQualified");
    expect((await ask("di", "PUT", "/house/settings", to, 0)).body).toEqual({ revision: 1 });
    expect((await ask("di", "PUT", "/house/settings", to, 0)).kind).toBe("stale");
    expect((await ask("ada", "GET", "/house/settings")).body).toEqual({
      ...to,
      inspectsDefects: false,
      revision: 1,
    });
    expect((await ask("ada", "GET", "/house")).body.name).toBe("Northfield Flight");
    expect((await plan("EXT-9")).status).toBe(201);
    const { faults } = (await ask("ada", "GET", "/equipment/EXT-9")).body;
    expect(faults).toEqual([{ is: "overdue", date: "weighedUntil", until: "2020-01-31", bars: false }]);
  });

  it("[EQP-6] a label at the stand is looked up in the register as it is then", async () => {
    await add(keptAs(CART));
    const { body } = await plan();
    const { sessions } = test.services;
    const cy = { id: "cy", name: "Cy", device: "cy-tablet", mayHold: ["groundPower" as const] };
    let n = 0;
    const say = (action: Parameters<typeof sessions.command>[1]["action"]) => {
      n += 1;
      const id = `00000000-0000-4000-8000-00000000e${String(n).padStart(3, "0")}`;
      return sessions.command(cy, { v: 1, id, session: body.id, clientAt: 1, action });
    };
    await say({ type: "claimPost", post: "groundPower" });
    expect((await say({ type: "showEquipment", label: "GPU-1" })).status).toBe("accepted");
    expect(await say({ type: "showEquipment", label: "GPU-7" })).toMatchObject({
      refusal: { reason: "noSuchEquipment", found: "GPU-7" },
    });
    await ask("bo", "PUT", "/equipment/GPU-1/out", { out: "broken", reason: "Smoke" }, 1);
    expect(await say({ type: "showEquipment", label: "GPU-1" })).toMatchObject({
      refusal: { reason: "equipmentBarred" },
    });
    const { state } = (await ask("ada", "GET", `/sessions/${body.id}`)).body;
    expect(state.equipment).toMatchObject([{ facts: CART, shown: { name: "Cy" } }]);
  });
});
