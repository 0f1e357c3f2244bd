import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { LiveReader } from "../../server/live/live-reader.ts";
import { readSealed } from "../../shared/evidence/read.ts";
import { bareAircraft, houseAircraftSchema } from "../../shared/house/aircraft.ts";
import { startsIn } from "../../shared/house/starts.ts";
import { isRehearsalId } from "../../shared/protocol/rehearsal.ts";
import { testServer } from "../http/test-server.ts";
import { FIRE } from "../spec/equipped.ts";
import { Both, CREW } from "./world.ts";

const HOLD = { type: "send", kind: "hold", channel: "panel" } as const;
const FLASH = { type: "recordFlash", miles: 2 } as const;

let both: Both;
beforeEach(async () => {
  both = await new Both(await testServer()).begin();
});
afterEach(() => both.test.close());

describe("a rehearsal and a start of the same aircraft", () => {
  it("[RHS-1] differ in the first event, the id, the code and the aircraft's name", async () => {
    const state = await both.state(both.rehearsal);
    expect(state.rehearsal).toEqual({ seed: 7, script: "firstDay", of: "CH-TST" });
    expect(both.rehearsal).toMatch(/^rehearsal-/);
    expect(both.code).toMatch(/^R-[A-Z0-9]{6}$/);
    expect(state.aircraft).toBe(`REHEARSAL-CH-TST.${both.code.slice(2)}`);
    expect((await both.state(both.start)).rehearsal).toBeUndefined();
    const joined = await both.ask("GET", `/join/${both.code}`);
    expect(joined.json()).toMatchObject({ id: both.rehearsal });
  });

  it("[RHS-2] share no record: a fire in the rehearsal stands neither at the aircraft nor in another rehearsal", async () => {
    const fire = { type: "send", kind: "fire", engine: 2, channel: "panel" } as const;
    await both.crewed(both.rehearsal);
    await both.command(CREW.cockpit, both.rehearsal, fire);
    expect((await both.ask("GET", "/aircraft/CH-TST/standing")).json().items).toEqual([]);
    expect((await both.ask("GET", "/standing")).body).not.toContain("REHEARSAL");
    const again = await both.rehearse("fay");
    for (const id of [again.id, both.start]) {
      const { fires, standing } = await both.state(id);
      expect([fires, standing?.told ?? []]).toEqual([[], []]);
    }
  });

  it("[RHS-2] share no record: a fire at the real aircraft is not told to a rehearsal planned after it", async () => {
    const fire = { type: "send", kind: "fire", engine: 2, channel: "panel" } as const;
    await both.crewed(both.start);
    await both.command(CREW.cockpit, both.start, fire);
    const { items } = (await both.ask("GET", "/aircraft/CH-TST/standing")).json();
    expect(items).toMatchObject([{ item: { is: "fire", engine: 2 } }]);
    const again = await both.rehearse("fay");
    expect((await both.state(again.id)).fires).toEqual([]);
    expect((await both.state(both.rehearsal)).fires).toEqual([]);
  });

  it("[RHS-5] [INT-6] a rehearsal is not among what other systems are told of the ramp", async () => {
    const { store, sessions, names, clock } = both.test.services;
    const reader = await LiveReader.open({ store, sessions, names, clock }, { is: "ramp" }, null);
    const told: string[] = [];
    const reading = (async () => {
      for await (const { position } of reader.entries()) told.push(position);
    })();
    const again = await both.rehearse("fay");
    for (const id of [both.rehearsal, again.id, both.start]) {
      await both.command(CREW.cockpit, id, { type: "claimPost", post: "cockpit" });
      reader.moved(id);
    }
    await expect.poll(() => told.some((position) => position.includes(both.start))).toBe(true);
    reader.close();
    await reading;
    expect(told.filter((position) => position.includes("rehearsal"))).toEqual([]);
  });

  it("[RHS-3] [INT-16] a field's station and an aircraft's instruments reach no rehearsal", async () => {
    const { sessions } = both.test.services;
    const { place, aircraft } = await both.state(both.rehearsal);
    expect(sessions.openAtPlace(place).filter(({ state }) => isRehearsalId(state.id))).toEqual([]);
    for (let i = 0; i < 4; i += 1) await both.test.hand.pass(30_000);
    expect((await both.state(both.rehearsal)).stage).not.toBe("plan");
    expect(sessions.underWay(aircraft)).toBeUndefined();
  });

  it("[RHS-2] cannot be mixed up by a registration in the house's register", () => {
    const bird = (id: string) => bareAircraft({ id, name: "Bird", typeId: "four" });
    expect(houseAircraftSchema.safeParse(bird("CH-TST")).success).toBe(true);
    for (const id of ["REHEARSAL-CH-TST", "rehearsal-x"])
      expect(houseAircraftSchema.safeParse(bird(id)).success, id).toBe(false);
  });

  it("[RHS-3] hear no stop of each other", async () => {
    await both.crewed(both.start);
    await both.command(CREW.fireGuard, both.rehearsal, HOLD);
    expect((await both.state(both.rehearsal)).holds).toHaveLength(1);
    expect((await both.state(both.start)).holds).toEqual([]);
    await both.command(CREW.fireGuard, both.start, HOLD);
    await both.command(CREW.cockpit, both.start, { ...HOLD, kind: "cutAll" });
    expect((await both.state(both.rehearsal)).holds).toHaveLength(1);
    expect((await both.state(both.rehearsal)).cuts).toEqual([]);
  });

  it("[RHS-3] hear no stop of each other after one of them is over", async () => {
    expect((await both.ask("DELETE", `/rehearsals/${both.rehearsal}`)).statusCode).toBe(204);
    await both.command(CREW.fireGuard, both.rehearsal, HOLD);
    expect((await both.ask("GET", "/aircraft/CH-TST/standing")).json().items).toEqual([]);
    expect((await both.state(both.start)).holds).toEqual([]);
    const again = await both.rehearse("fay");
    expect((await both.state(again.id)).holds).toEqual([]);
  });

  it("[RHS-3] hear no lightning and no weather of each other", async () => {
    const { stand } = (await both.test.services.directory.register.one("aircraft", "CH-TST"))?.body ?? {};
    expect(stand).toBeNull();
    await both.command(CREW.supervisor, both.rehearsal, FLASH);
    await both.command(CREW.supervisor, both.rehearsal, HOLD);
    const place = (await both.state(both.rehearsal)).place;
    const there = await both.ask("POST", "/sessions", "ada", {
      ...{ commandId: "00000000-0000-4000-8000-0000000f0001", aircraft: "CH-TST", place },
      ...{
        powerSource: "groundPower",
        crew: { cockpit: null, fireGuard: null, groundPower: null, supervisor: null },
      },
    });
    const { id } = there.json();
    expect((await both.state(id)).weather).toBeNull();
    await both.command(CREW.supervisor, id, FLASH);
    await both.test.hand.pass(5_000);
    await both.command(CREW.cockpit, both.rehearsal, HOLD);
    const told = await both.test.services.store.read(both.rehearsal, 0, 100);
    expect(told.map((e) => e.type)).not.toContain("fieldKnown");
  });

  it("[RHS-4] ask for no currency, and renew none", async () => {
    const { directory } = both.test.services;
    await both.ask("POST", "/currencies", "di", FIRE);
    const claim = { type: "claimPost", post: "fireGuard" } as const;
    expect((await both.command(CREW.fireGuard, both.start, claim)).status).toBe("refused");
    expect((await both.command(CREW.fireGuard, both.rehearsal, claim)).status).toBe("accepted");
    const { posts } = await both.state(both.rehearsal);
    expect(posts.fireGuard).toMatchObject({ id: "bo", currentUntil: null });
    await both.test.services.currencies.closed(both.rehearsal);
    expect(await directory.currencies.lastStarts()).toEqual([]);
  });

  it("[RHS-4] count in no noise dose", async () => {
    await both.crewed(both.rehearsal);
    const dose = (await both.ask("GET", `/sessions/${both.rehearsal}/noise`, "di")).json();
    expect(dose.figures).toEqual([]);
    const real = (await both.ask("GET", `/sessions/${both.start}/noise`, "di")).json();
    expect(JSON.stringify(real)).not.toContain("bo");
  });

  it("[RHS-4] keep nobody from a real post, and give none to whoever holds one", async () => {
    const claim = { type: "claimPost", post: "cockpit" } as const;
    expect((await both.command(CREW.cockpit, both.rehearsal, claim)).status).toBe("accepted");
    expect((await both.command(CREW.cockpit, both.start, claim)).status).toBe("accepted");
    const again = await both.rehearse("fay");
    expect(await both.command(CREW.cockpit, again.id, claim)).toMatchObject({ status: "refused" });
  });

  it("[RHS-4] take no equipment of the register", async () => {
    const { directory } = both.test.services;
    const known = await directory.register.all("equipment");
    expect(known).toEqual([]);
    await both.crewed(both.rehearsal);
    const shown = { type: "showEquipment", label: "EXT-1" } as const;
    expect((await both.command(CREW.fireGuard, both.rehearsal, shown)).status).toBe("refused");
    expect((await both.state(both.rehearsal)).equipment).toBeUndefined();
  });

  it("[RHS-4] join no supervisor's other aircraft", async () => {
    await both.crewed(both.start);
    const claim = { type: "claimPost", post: "supervisor" } as const;
    await both.command({ ...CREW.supervisor, id: "fay" }, both.rehearsal, claim);
    await both.command({ ...CREW.supervisor, id: "fay" }, both.start, HOLD);
    for (const id of [both.start, both.rehearsal])
      expect((await both.state(id)).supervisesAlso).toBeUndefined();
  });

  it("[RHS-5] stand in lists of their own", async () => {
    const ids = async (path: string) =>
      (await both.ask("GET", path)).json().map((row: { id: string }) => row.id);
    expect(await ids("/sessions")).toEqual([both.start]);
    expect(await ids("/rehearsals")).toEqual([both.rehearsal]);
    await both.ask("DELETE", `/rehearsals/${both.rehearsal}`);
    const again = await both.rehearse("fay");
    expect(await ids("/rehearsals")).toEqual([again.id, both.rehearsal]);
  });

  it("[RHS-5] are counted apart by the metrics", async () => {
    await both.command(CREW.fireGuard, both.rehearsal, HOLD);
    expect(both.test.services.sessions.overview()).toEqual({ live: 1, holds: 0 });
  });

  it("[RHS-8] anybody takes any post of a rehearsal, and begins three at most", async () => {
    const ed = { id: "ed", name: "Ed", device: "ed-tablet", mayHold: [] };
    const claim = { type: "claimPost", post: "cockpit" } as const;
    expect((await both.command(ed, both.rehearsal, claim)).status).toBe("accepted");
    expect((await both.command(ed, both.start, claim)).status).toBe("refused");
    const own = [await both.rehearse("ed"), await both.rehearse("ed"), await both.rehearse("ed")];
    await expect(both.rehearse("ed")).rejects.toThrow("end one first");
    const end = (who: string, i: number) => both.ask("DELETE", `/rehearsals/${own[i]?.id}`, who);
    expect((await end("bo", 0)).statusCode).toBe(403);
    expect((await end("ed", 0)).statusCode).toBe(204);
    expect((await end("di", 1)).statusCode).toBe(204);
    expect((await end("di", 1)).statusCode).toBe(404);
    expect((await both.ask("DELETE", `/rehearsals/${both.start}`, "di")).statusCode).toBe(404);
    await both.rehearse("ed");
  });

  it("[RHS-6] name the rehearsal in every event's bytes", async () => {
    await both.crewed(both.rehearsal);
    const events = await both.test.services.store.read(both.rehearsal, 0, 100);
    expect(events.length).toBeGreaterThan(4);
    for (const { body } of events) expect(isRehearsalId(readSealed(body).event.session)).toBe(true);
    expect(startsIn(events.map(({ body }) => readSealed(body).event))).toEqual([]);
  });
});
