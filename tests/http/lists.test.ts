import { afterEach, beforeEach, expect, it } from "vitest";
import { currencySchema } from "../../shared/house/currency.ts";
import { phraseBook } from "../../shared/words/phraseBook.ts";
import { problemPhrases } from "../../web/words/es/problemPhrases.ts";
import { typeFaults } from "../../web/words/es/typeFaults.ts";
import { BOTTLE, CART, keptAs } from "../spec/equipped.ts";
import { bearer, PIN, planBody, signIn, type TestServer, testServer } from "./test-server.ts";

let test: TestServer;
const tokens: Record<string, string> = {};
beforeEach(async () => {
  test = await testServer();
  for (const who of ["di", "fay", "bo"]) tokens[who] = await signIn(test.app, who);
});
afterEach(() => test.close());

async function ask(who: string, method: "GET" | "POST" | "PUT", url: string, payload?: object) {
  const headers = bearer(tokens[who] ?? "");
  const reply = await test.app.inject({
    ...{ method, url: `/api${url}`, headers },
    ...(payload === undefined ? {} : { payload }),
  });
  const body = /json/.test(String(reply.headers["content-type"])) ? reply.json() : reply.body;
  return { status: reply.statusCode, body, kind: body.type?.split(":").at(-1), headers: reply.headers };
}

type Kind = "people" | "aircraft" | "equipment";
const save = async (kind: Kind): Promise<string> => (await ask("di", "GET", `/house/lists/${kind}`)).body;
const judge = (kind: Kind, csv: string, who = "di") =>
  ask(who, "POST", `/house/lists/${kind}/judgement`, { csv });

/** Judges a file and takes it in. */
async function take(kind: Kind, csv: string, more: object = {}) {
  const { tag } = (await judge(kind, csv)).body;
  return ask("di", "POST", `/house/lists/${kind}`, { csv, tag, ...more });
}
const csvOf = (...lines: string[]) => lines.map((l) => `${l}\r\n`).join("");

it("[HSE-21] each list goes out as a file and comes in again without a change, for supervisors alone", async () => {
  await ask("di", "POST", "/equipment", keptAs(CART));
  await ask("di", "POST", "/equipment", keptAs(BOTTLE));
  for (const kind of ["people", "aircraft", "equipment"] as const) {
    const reply = await ask("di", "GET", `/house/lists/${kind}`);
    expect(reply.headers["content-type"]).toMatch(/^text\/csv/);
    const judged = await judge(kind, reply.body);
    expect([judged.status, judged.body.faults]).toEqual([200, []]);
    expect(judged.body.rows.length).toBeGreaterThan(0);
    expect(judged.body.rows.filter((r: { is: string }) => r.is !== "same")).toEqual([]);
    expect((await ask("bo", "GET", `/house/lists/${kind}`)).kind).toBe("notQualified");
    expect((await judge(kind, reply.body, "bo")).kind).toBe("notQualified");
  }
});

it("[HSE-21] a file of equipment is judged line by line, changes nothing before it is taken, and then all of it", async () => {
  await ask("di", "POST", "/equipment", keptAs(CART));
  const file = csvOf(
    "label,kind,name,agent,chargeKg,weighedUntil,testedUntil,volts",
    "GPU-1,cart,South cart,,,,,28",
    'EXT-9,extinguisher,"Bottle, spare",CO2,6,2027-03-31,2027-03-31,',
  );
  const judged = await judge("equipment", file);
  expect(judged.body).toMatchObject({
    faults: [],
    rows: [
      { line: 2, id: "GPU-1", is: "changed", cells: [{ column: "name", after: "South cart" }] },
      { line: 3, id: "EXT-9", is: "added" },
    ],
  });
  expect((await ask("di", "GET", "/equipment")).body).toHaveLength(1);
  expect((await take("equipment", file)).status).toBe(200);
  const { body } = await ask("di", "GET", "/equipment");
  expect(body.map((p: { body: object }) => p.body)).toMatchObject([
    { id: "EXT-9", name: "Bottle, spare", chargeKg: 6, out: null },
    // Anything that the file does not name stays.
    { ...CART, name: "South cart" },
  ]);
  expect((await ask("di", "GET", "/equipment/GPU-1/changes")).body).toMatchObject([
    { revision: 2, by: "Di" },
    { revision: 1 },
  ]);
});

it("[HSE-21] a file with a fault is refused with line and column, and nothing of it is taken in", async () => {
  await ask("di", "POST", "/equipment", keptAs(CART));
  const file = csvOf(
    "label,kind,name,volts,peakA,out",
    "CHK-7,chocks,Chocks,,,",
    "GPU-1,cart,North cart,soon,1,broken: bent",
    "CHK-8,chocks,Chocks,28,,",
    "GPU-1x!,chocks,Chocks,,,",
  );
  const { body } = await judge("equipment", file);
  expect(body.faults.map((f: { line: number; column: string }) => [f.line, f.column])).toEqual([
    [3, "out"],
    [3, "volts"],
    [4, "volts"],
    [5, "label"],
  ]);
  const taken = await ask("di", "POST", "/house/lists/equipment", { csv: file, tag: body.tag });
  expect([taken.status, taken.kind, taken.body.errors[0].path]).toEqual([422, "faultyEntry", "line 3, out"]);
  expect((await ask("di", "GET", "/equipment")).body).toHaveLength(1);
});

it("[HSE-21] [LNG-7] every fault of a file has words in both languages", async () => {
  const told = phraseBook([...typeFaults, ...problemPhrases]);
  const faulty = {
    equipment: [
      "label,kind,name,volts,peakA,continuousA,size,metres,testedUntil,out",
      "GPU-1,cart,,soon,1,5,99,900,31.12.2027,",
      "CHK 8,chocks,Chocks,28,,,,,,broken",
      "EXT-2,sofa,Sofa,,,,,,,",
    ],
    aircraft: ["registration,name,type,engine9", "a b,,none,x"],
    people: ["handle,name,posts,pin", "hal,,navigator,123456", "hal,Hal,,", ","],
  } as const;
  const more = {
    aircraft: csvOf("registration,name,type,version,engine1,engine1Hours,retired", "a b,,four,x,E-1,-5,yes"),
    people: csvOf(
      "handle,name,posts,pin,signIn",
      "hal,Hal,navigator,123456,blocked",
      "di,Di,cockpit,730182,",
    ),
    equipment: 'label,kind\r\n"A-1,chocks\r\n',
  };
  for (const kind of ["people", "aircraft", "equipment"] as const)
    for (const csv of [csvOf(...faulty[kind]), more[kind]]) {
      const { faults } = (await judge(kind, csv)).body;
      expect(faults.length).toBeGreaterThan(0);
      for (const { message } of faults)
        expect(told(message).some((p) => p.asWritten) ? message : "", kind).toBe("");
    }
});

it("[HSE-21] a file is taken in only while the house is as it was looked at", async () => {
  const file = csvOf("label,kind,name", "CHK-7,chocks,Chocks");
  const { tag } = (await judge("equipment", file)).body;
  expect((await ask("di", "POST", "/house/lists/equipment", { csv: file, tag })).status).toBe(200);
  const again = await ask("di", "POST", "/house/lists/equipment", { csv: file, tag });
  expect([again.status, again.kind]).toEqual([412, "stale"]);
});

it("[HSE-21] a list of aircraft keeps the rules of the register: approved version, serials once, hours that do not fall", async () => {
  const file = csvOf(
    "registration,name,type,engine1,engine1Hours",
    "CH-TST,Test bird,test-four,E-1,100.5",
    "CH-TWO,Second,test-four,E-2,",
  );
  const [, head = "", first = ""] = /^(.*)\r\n(.*)\r\n/.exec(await save("aircraft")) ?? [];
  const type = first.split(",")[head.split(",").indexOf("type")] ?? "";
  const ours = file.replaceAll("test-four", type);
  expect((await take("aircraft", ours)).status).toBe(200);
  const { body } = await ask("di", "GET", "/aircraft/CH-TWO");
  expect(body).toMatchObject({
    typeVersion: 1,
    fitted: [{ n: 1, engine: { serial: "E-2", hours: null } }],
  });
  const wrong = csvOf(
    "registration,name,type,version,retired,engine1,engine1Hours",
    `CH-TST,Test bird,${type},1,,E-1,99`,
    `CH-TWO,Second,${type},7,yes,E-1,`,
    "CH-BAD,Third,no-type,,,,",
  );
  const judged = await judge("aircraft", wrong);
  expect(judged.body.faults.map((f: { line: number; column: string }) => [f.line, f.column]).sort()).toEqual(
    [
      [2, "engine1"],
      [2, "engine1Hours"],
      [3, "retired"],
      [3, "version"],
      [4, "type"],
    ].sort(),
  );
});

it("[HSE-21] a list of people adds them with a first PIN, changes posts and days, and never one's own", async () => {
  const kind = currencySchema.parse({
    ...{ id: "fireTraining", name: "Fire training", recencyDays: null, retired: false },
    needs: { cockpit: null, fireGuard: "warns", groundPower: null, supervisor: null },
  });
  expect((await ask("di", "POST", "/currencies", kind)).status).toBe(201);
  const file = csvOf(
    "handle,name,posts,pin,until:fireTraining",
    "gil,Gil Hext,fireGuard groundPower,730182,2027-03-31",
    "bo,Bo,fireGuard,,2027-01-31",
  );
  expect((await take("people", file)).status).toBe(200);
  expect((await ask("di", "GET", "/people/dates")).body).toMatchObject({
    bo: { fireTraining: "2027-01-31" },
  });
  expect((await save("people")).includes("730182")).toBe(false);
  const device = { id: "gil-tablet", name: "Tablet" };
  const signedIn = await test.app.inject({
    ...{ method: "POST", url: "/api/sign-in", payload: { handle: "gil", pin: "730182", device } },
  });
  expect(signedIn.statusCode).toBe(200);

  expect((await judge("people", csvOf("handle,name,posts,pin", "ivo,Ivo,cockpit,"))).body.faults).toEqual([
    { line: 2, column: "pin", message: "is needed: a new person signs in with it the first time" },
  ]);
  const wrong = csvOf(
    "handle,name,posts,pin,signIn,until:fireTraining",
    "di,Di,cockpit supervisor,,,",
    "hal,Gil Hext,cockpit,123456,,soon",
    "bo,Bo,navigator,730182,blocked,",
  );
  const { body } = await judge("people", wrong);
  expect(body.faults.map((f: { line: number; column: string }) => [f.line, f.column]).sort()).toEqual(
    [
      [2, "posts"],
      [3, "pin"],
      [3, "until:fireTraining"],
      [4, "pin"],
      [4, "posts"],
      [4, "signIn"],
    ].sort(),
  );
  const alike = await judge("people", csvOf("handle,name,posts,pin", "hal,Gil Hext,cockpit,730182"));
  expect(alike.body.faults).toMatchObject([{ line: 2, column: "name" }]);
});

it("[HSE-21] [HSE-12] who would lose a post while holding one is cut off by a list only with the supervisor's PIN", async () => {
  const planned = await ask("di", "POST", "/sessions", planBody());
  const { id } = planned.body;
  const bo = { id: "bo", name: "Bo", device: "bo-tablet", mayHold: ["fireGuard" as const] };
  const claimed = await test.services.sessions.command(bo, {
    ...{ v: 1, id: "00000000-0000-4000-8000-0000000f0001", session: id, clientAt: 1 },
    action: { type: "claimPost", post: "fireGuard" },
  });
  expect(claimed.status).toBe("accepted");
  const file = csvOf("handle,name,posts", "bo,Bo,");
  expect((await take("people", file)).kind).toBe("onDuty");
  expect((await ask("bo", "GET", "/me")).status).toBe(200);
  expect((await take("people", file, { confirm: true, pin: PIN })).status).toBe(200);
  expect((await ask("bo", "GET", "/me")).status).toBe(401);
});
