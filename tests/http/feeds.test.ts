import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { MOST_SAMPLES, sampleOf, sampleSchema, samplesIn } from "../../server/feeds/samples.ts";
import { sha256 } from "../../server/sha256.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import { Chance } from "../sim/chance.ts";
import { START } from "./hand-clock.ts";
import { bearer, planned, signIn, type TestServer, testServer } from "./test-server.ts";

let folder: string;
let test: TestServer;
let office: string;
let logger: string;
let session: string;

const CHANNELS = [1, 2, 3, 4].map((engine) => ({
  ...{ channel: "OILP", gauge: "oilPressure", engine, unit: "psi", quality: "1 psi, checked in May" },
}));

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "chockside samples "));
  test = await testServer({ samples: folder });
  office = await signIn(test.app, "di");
  const by = { id: "di", name: "Di", mayHold: ["supervisor" as const] };
  const scopes = [
    { is: "pushReadings" as const, aircraft: "CH-TST" },
    { is: "pushWeather" as const, place: "North ramp" },
  ];
  logger = (await test.services.accounts.add(by, { name: "Logger", until: "2026-06-09", scopes })).token;
  const put = await channels(CHANNELS, 0);
  if (put.statusCode !== 200) throw new Error(put.body);
  session = (await planned(test.app, await signIn(test.app, "fay"))).id;
});
afterEach(async () => {
  await test.close();
  rmSync(folder, { recursive: true, force: true });
});

const channels = (list: object[], revision: number, who = office) =>
  test.app.inject({
    method: "PUT",
    url: "/api/aircraft/CH-TST/channels",
    headers: { ...bearer(who), "if-match": `"${revision}"` },
    payload: { channels: list },
  });
const push = (payload: string, type = "application/x-ndjson", aircraft = "CH-TST") =>
  test.app.inject({
    method: "POST",
    url: `/api/feeds/${aircraft}`,
    headers: { ...bearer(logger), "content-type": type },
    payload,
  });
const sample = (engine: number, time: number, value: number) =>
  JSON.stringify({ channel: "OILP", engine, time, value, unit: "psi" });

let commands = 0;
async function act(action: Action, person = "fay") {
  const { sessions } = test.services;
  commands += 1;
  const id = `10000000-0000-4000-8000-${String(commands).padStart(12, "0")}`;
  const who = { id: person, name: person, device: `${person}-tablet`, mayHold: [] };
  return sessions.command(
    { ...who, mayHold: ["cockpit", "fireGuard", "groundPower", "supervisor"] },
    {
      ...{ v: 1, id, session, clientAt: 0, action },
    },
  );
}
/** Brings the session out of its brief. */
async function secured() {
  const four = ["cockpit", "fireGuard", "groundPower", "supervisor"] as const;
  const people = ["ada", "bo", "cy", "di"];
  for (const [i, post] of four.entries()) await act({ type: "claimPost", post }, people[i]);
  await act({ type: "advance", to: "brief" }, "di");
  for (const person of people) await act({ type: "confirmBrief" }, person);
  await act({ type: "advance", to: "secure" }, "di");
  expect(test.services.sessions.underWay("CH-TST")?.state.stage).toBe("secure");
}
const facts = async () => {
  const { body } = await test.app.inject({
    url: `/api/sessions/${session}/events?limit=1000`,
    headers: bearer(office),
  });
  const { events } = JSON.parse(body) as { events: { fact: Record<string, unknown> }[] };
  return events.map((e) => e.fact).filter((f) => f.type === "instrumentsRead" || f.type === "stationRead");
};

describe("a feed", () => {
  it("[INT-17] records the last value and the extremes of each gauge a second, and keeps the samples with their digest", async () => {
    await secured();
    const lines: string[] = [];
    for (let ms = 0; ms < 1_000; ms += 50)
      for (const engine of [1, 2]) lines.push(sample(engine, START + ms, 60 + engine + (ms === 500 ? 9 : 0)));
    lines.push(sample(1, START + 1_000, 60));
    const reply = (await push(lines.join("\n"))).json();
    expect(reply).toEqual({ session, taken: 41, refused: 0, faults: [] });
    const [first, ...more] = await facts();
    expect(more).toEqual([]);
    expect(first).toMatchObject({ name: "Logger", from: START, to: START + 950 });
    expect(first?.readings).toEqual([
      { gauge: "oilPressure", engine: 1, value: 61, least: 61, most: 70, unit: "psi" },
      { gauge: "oilPressure", engine: 2, value: 62, least: 62, most: 71, unit: "psi" },
    ]);
    const kept = readFileSync(join(folder, `${session}.ndjson`), "utf8");
    expect(kept.trim().split("\n")).toEqual(lines.slice(0, 40));
    expect(first?.raw).toEqual({ sha256: sha256(kept), samples: 40 });
    // The last sample waits for its second to end, and no longer.
    await test.hand.pass(1_000);
    // Its sample is written to a file before, which takes as long as the disk does.
    const second = async () => (await facts())[1];
    await expect
      .poll(second, { timeout: 60_000 })
      .toMatchObject({ from: START + 1_000, readings: [{ value: 60 }] });
  });

  it("[INT-17] records a gauge that crosses a mark at once, and at most four times a second", async () => {
    await secured();
    // The test type's oil gauge has no mark; its bus gauge gets none either, so a marked one is made here.
    const { Windows } = await import("../../server/feeds/windows.ts");
    const windows = new Windows();
    const map = { channel: "OILP", gauge: "oilPressure", engine: 1, unit: "psi" as const, quality: null };
    const take = (ms: number, value: number) =>
      windows.take(
        { channel: "OILP", engine: 1, time: START + ms, value, unit: "psi" },
        { ok: true, map, key: "oilPressure 1", band: value < 25 ? "belowMin" : "normal" },
      );
    expect(take(0, 60)).toEqual([]);
    expect(take(50, 24)).toMatchObject([{ to: START + 50, readings: [{ value: 24, least: 24, most: 60 }] }]);
    const ended = [];
    for (let n = 0; n < 18; n += 1) ended.push(...(take(100 + n * 50, n % 2 ? 24 : 60) ?? []));
    expect(ended).toHaveLength(3);
    expect(take(100, 60)).toBeNull();
  });

  it("[INT-43] judges a change of the channels at once, and one that another server made within two seconds", async () => {
    await secured();
    const pushed = async (at: number) => (await push(sample(1, START + at, 61))).json().taken;
    expect(await pushed(0)).toBe(1);
    const register = test.services.directory.register;
    const [now] = await register.history("channels", "CH-TST", 1);
    if (!now) throw new Error("no channels");
    // As another server does, past this one.
    await register.append([{ ...now, revision: now.revision + 1, body: { ...now.body, channels: [] } }]);
    await test.hand.pass(1_999);
    expect(await pushed(1_999)).toBe(1);
    await test.hand.pass(1);
    expect(await pushed(2_000)).toBe(0);
    const headers = { ...bearer(await signIn(test.app, "di")), "if-match": `"${now.revision + 1}"` };
    const url = "/api/aircraft/CH-TST/channels";
    const { channels } = now.body;
    expect((await test.app.inject({ method: "PUT", url, headers, payload: { channels } })).statusCode).toBe(
      200,
    );
    expect(await pushed(2_001)).toBe(1);
  });

  it("[INT-43] takes what the schema of a sample takes, and nothing else, by whichever way", () => {
    const good = { channel: "OILP", engine: 1, time: START, value: 60.5, unit: "psi" };
    expect(sampleOf(good)).toEqual(good);
    const odd = [
      undefined,
      null,
      0,
      -0,
      1,
      8,
      9,
      1.5,
      Number.NaN,
      Infinity,
      1e300,
      "",
      "psi",
      " OILP ",
      "x".repeat(21),
      [],
      {},
      true,
    ];
    const times = [
      START,
      START + 0.5,
      946_684_800_000,
      946_684_799_999,
      4_102_444_800_001,
      "2026-06-01T09:00:00Z",
      "9",
    ];
    const any = (...more: unknown[]) => fc.constantFrom(...odd, ...more);
    const value = fc.record(
      {
        channel: any("OILP", "T1\u0000"),
        engine: any(),
        time: any(...times),
        value: any(3),
        unit: any("°C"),
        more: any(),
      },
      { requiredKeys: [] },
    );
    // A good one with some of its parts exchanged, left out or added.
    const mostly = fc
      .tuple(value, fc.subarray([...Object.keys(good), "more"], { maxLength: 2 }))
      .map(([other, keys]) =>
        keys.reduce<Record<string, unknown>>((made, key) => {
          const { [key]: _, ...rest } = made;
          return key in other ? { ...rest, [key]: other[key as keyof typeof other] } : rest;
        }, good),
      );
    let taken = 0;
    fc.assert(
      fc.property(fc.oneof(mostly, value, any()), (given) => {
        const schema = sampleSchema.safeParse(structuredClone(given));
        const by = sampleOf(structuredClone(given));
        if (by) taken += 1;
        expect(by).toEqual(schema.success ? schema.data : null);
      }),
      { numRuns: 3_000, seed: 1 },
    );
    expect(taken).toBeGreaterThan(300);
  });

  it("[INT-18] leaves out each line with a fault and names it, and takes the others", async () => {
    await secured();
    const body = [
      sample(1, START, 61),
      "{",
      sample(9, START, 61),
      sample(2, START - 5_000, 61),
      sample(3, START, 900),
      JSON.stringify({ channel: "OILP", engine: 1, time: START, value: 61, unit: "bar" }),
      '{"channel":"OILP","engine":1,"time":"2026-06-01T11:00:00.001+02:00","value":62,"unit":"psi"}',
      // Late, and in time all the same.
      sample(1, START - 10, 61),
      // Sent again: it was taken already.
      sample(1, START, 61),
    ].join("\r\n");
    expect((await push(body)).json()).toEqual({
      ...{ session, taken: 3, refused: 6 },
      faults: [
        { line: 2, fault: "malformed" },
        { line: 3, fault: "malformed" },
        { line: 4, fault: "stale" },
        { line: 5, fault: "outOfScale" },
        { line: 6, fault: "wrongUnit" },
        { line: 9, fault: "takenAlready" },
      ],
    });
    const csv = `channel,engine,time,value,unit\nOILP,1,${START + 20},63,psi\nOILP,1,0x10,63,psi\nOILP,,,,\n`;
    expect((await push(csv, "text/csv")).json()).toMatchObject({ taken: 1, refused: 2 });
  });

  it("[INT-18] refuses a body that is too long, of another form or about another aircraft, and takes none before the brief is left", async () => {
    expect((await push(sample(1, START, 60))).json()).toEqual({
      ...{ session: null, taken: 0, refused: 1, faults: [] },
    });
    const kind = (reply: { json(): { type: string } }) => reply.json().type.split(":").at(-1);
    expect(kind(await push("x".repeat(600_000)))).toBe("tooLarge");
    expect(kind(await push(`${"\n".repeat(MOST_SAMPLES + 10)}`))).toBe("malformed");
    expect(kind(await push("time,value\n", "text/csv"))).toBe("malformed");
    expect(kind(await push("<x/>", "text/xml"))).toBe("wrongMediaType");
    expect(kind(await push("", "application/x-ndjson", "CH-OTH"))).toBe("outOfScope");
    expect(kind(await channels(CHANNELS, 1, await signIn(test.app, "ada")))).toBe("notQualified");
    expect(kind(await channels(CHANNELS, 0))).toBe("stale");
    expect(kind(await channels([{ ...CHANNELS[0], gauge: "none" }], 1))).toBe("faultyEntry");
  });

  it("[INT-19] hostile samples crash nothing, move nothing and are never recorded (seed 20261)", async () => {
    const chance = new Chance(20_261);
    await secured();
    const before = test.services.sessions.underWay("CH-TST")?.state;
    const wild = [
      NaN,
      Infinity,
      -1e308,
      1e308,
      "1e999",
      null,
      [],
      {},
      "__proto__",
      "=1+1",
      "\u0000",
      -0,
      2 ** 53,
      "",
    ];
    const any = () => wild[chance.below(wild.length)];
    const keys = ["channel", "engine", "time", "value", "unit", "__proto__", "constructor", "extra"];
    for (let round = 0; round < 20; round += 1) {
      const lines = Array.from({ length: 100 }, () => {
        const good: Record<string, unknown> = {
          channel: "OILP",
          engine: 1,
          time: START,
          value: 60,
          unit: "psi",
        };
        for (let n = 0; n <= chance.below(3); n += 1) {
          const key = keys[chance.below(keys.length)] ?? "extra";
          Object.defineProperty(good, key, { value: any(), enumerable: true, configurable: true });
        }
        const text = JSON.stringify(good);
        return chance.is(0.3) ? text.slice(0, chance.below(text.length)) : text;
      });
      const reply = await push(lines.join("\n"));
      expect(reply.statusCode).toBe(200);
      // A change that left the sample as it was, or set it to a value on the scale, is a good sample.
      for (const { sample: read } of samplesIn(lines.join("\n"), "ndjson") ?? [])
        if (read) expect(Object.keys(read).sort()).toEqual(["channel", "engine", "time", "unit", "value"]);
    }
    await test.hand.pass(2_000);
    const after = test.services.sessions.underWay("CH-TST")?.state;
    expect([after?.stage, after?.engines, after?.holds]).toEqual([
      before?.stage,
      before?.engines,
      before?.holds,
    ]);
    for (const fact of await facts())
      for (const read of (fact.readings as { value: number }[]) ?? [])
        expect(read.value >= 0 && read.value <= 200).toBe(true);
    expect(({} as Record<string, unknown>).extra).toBeUndefined();
  });
});

describe("a station", () => {
  it("[INT-16] tells every open session of its field, and no other field", async () => {
    const metar = "METAR XXNF 010850Z 27008KT 9999 FEW030 18/11 Q1016";
    const send = (payload: object) =>
      test.app.inject({ method: "POST", url: "/api/weather", headers: bearer(logger), payload });
    expect((await send({ place: "North ramp", metar })).json()).toEqual({ sessions: 1 });
    expect((await send({ place: "North ramp", metar })).json()).toEqual({ sessions: 0 });
    expect((await send({ place: "South ramp", metar })).json().type).toContain("outOfScope");
    expect((await send({ place: "North ramp", metar: "HELLO" })).json().type).toContain("faultyEntry");
    expect(await facts()).toMatchObject([{ type: "stationRead", metar, name: "Logger" }]);
  });
});
