import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { FirstRun } from "../../server/house/first-run.ts";
import { randomIds } from "../../server/ids.ts";
import { MemoryDirectory } from "../../server/store/memory-directory.ts";
import { houseSteps } from "../../shared/house/steps.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { TestDevice } from "./device-key.ts";
import { bearer, CHEAP, PIN, signIn, type TestServer, testServer } from "./test-server.ts";

const HOUR = 3_600_000;
const ENTRY = {
  house: "Northfield Flight",
  person: { handle: "ivy", name: "Ivy Marsh", mayHold: ["cockpit", "supervisor"], pin: "90210377" },
};

let test: TestServer;
let directory: MemoryDirectory;
beforeEach(async () => {
  directory = new MemoryDirectory();
  test = await testServer({ directory, devices: "enrolled" });
});
afterEach(() => test.close());

const problemOf = (reply: { json(): { type: string } }) => reply.json().type.split(":").at(-1);
const house = async () => (await test.app.inject({ url: "/api/house" })).json();
const begin = (device: TestDevice, payload: object = ENTRY) =>
  device.send(test.app, "POST", "/api/first-run", { payload });

async function firstDevice(): Promise<TestDevice> {
  const device = await TestDevice.make();
  await device.enrol(test.app, (await test.services.firstRun.code()).code);
  return device;
}

describe("the first run of an empty house", () => {
  it("[HSE-9] [HSE-10] leads from one code to a supervisor who is signed in, and then is over", async () => {
    expect(await house()).toEqual({ name: null, firstRun: true, pinLength: 6 });
    const device = await firstDevice();
    const made = await begin(device);
    expect([made.statusCode, made.json().handle]).toEqual([201, "ivy"]);
    const token = await device.signIn(test.app, "ivy", "90210377");
    expect(await house()).toEqual({ name: "Northfield Flight", firstRun: false, pinLength: 6 });
    const { body } = await device.send(test.app, "GET", "/api/house/steps", { token });
    expect(JSON.parse(body).filter((s: { done: boolean }) => s.done)).toMatchObject([
      { step: "supervisor" },
      { step: "device" },
    ]);
    const second = await begin(device, { ...ENTRY, person: { ...ENTRY.person, handle: "eve" } });
    expect([second.statusCode, problemOf(second)]).toEqual([409, "taken"]);
  });

  it("[HSE-9] gives a code that is good once, for 60 minutes, until the next start, and is stored as a hash", async () => {
    const { firstRun } = test.services;
    const [older, code] = [(await firstRun.code()).code, (await firstRun.code()).code];
    const device = await TestDevice.make();
    await expect(device.enrol(test.app, older)).rejects.toThrow("codeWrong");
    await device.enrol(test.app, code);
    await expect((await TestDevice.make()).enrol(test.app, code)).rejects.toThrow("codeWrong");
    const late = (await firstRun.code()).code;
    await test.hand.pass(HOUR);
    await expect((await TestDevice.make()).enrol(test.app, late)).rejects.toThrow("codeWrong");
    const kept: object[] = [];
    directory.devices.addCode = async (row) => void kept.push(row);
    const secret = (await firstRun.code()).code;
    expect(JSON.stringify(kept)).not.toContain(secret);
    expect(kept).toMatchObject([{ codeHash: expect.stringMatching(/^[0-9a-f]{64}$/) }]);
  });

  it("[HSE-10] is for a device that the console enrolled, and takes a supervisor alone", async () => {
    const stranger = await TestDevice.make();
    expect(problemOf(await begin(stranger))).toBe("notQualified");
    const bare = await test.app.inject({ method: "POST", url: "/api/first-run", payload: ENTRY });
    expect([bare.statusCode, problemOf(bare)]).toEqual([401, "proofNeeded"]);
    const device = await firstDevice();
    const cockpit = await begin(device, { ...ENTRY, person: { ...ENTRY.person, mayHold: ["cockpit"] } });
    expect([cockpit.statusCode, problemOf(cockpit)]).toEqual([403, "notQualified"]);
    expect((await begin(device, { ...ENTRY, person: { ...ENTRY.person, pin: "1234" } })).statusCode).toBe(
      400,
    );
    expect(await house()).toMatchObject({ firstRun: true });
    const [found] = await directory.devices.all();
    await directory.devices.revoke(found?.id ?? "", "console", 1);
    expect(problemOf(await begin(device))).toBe("notQualified");
  });

  it("[HSE-10] stopped between any two of its writes, is taken up again and done once", async () => {
    // Each write of the store is refused in turn, as if the process had ended before it.
    for (let writes = 0; ; writes += 1) {
      const { app, services } = test;
      const device = await TestDevice.make();
      await device.enrol(app, (await services.firstRun.code()).code);
      let left = writes;
      const { addPeople } = directory;
      const append = directory.register.append.bind(directory.register);
      const orEnd = () => {
        if (left === 0) throw new Error("the process ended");
        left -= 1;
      };
      directory.register.append = async (entries) => {
        orEnd();
        return append(entries);
      };
      directory.addPeople = async (people) => {
        orEnd();
        return addPeople.call(directory, people);
      };
      const reply = await begin(device);
      directory.register.append = append;
      directory.addPeople = addPeople;
      if (reply.statusCode === 201) {
        expect(writes).toBe(2);
        break;
      }
      expect(reply.statusCode).toBe(500);
      expect(await house()).toMatchObject({ firstRun: true, name: writes === 0 ? null : ENTRY.house });
      expect(await directory.people()).toEqual([]);
    }
    expect((await directory.people()).map((p) => p.handle)).toEqual(["ivy"]);
  });

  it("[HSE-9] is never open with the demo on, nor where a supervisor may sign in", async () => {
    const deps = { clock: test.hand.clock, ids: randomIds, pinCost: CHEAP };
    const open = (demo: boolean) => new FirstRun({ ...deps, directory, demo }).isOpen();
    expect([await open(true), await open(false)]).toEqual([false, true]);
    const person = { handle: "x", pinHash: "h", createdAt: 1 };
    const di = { ...person, id: "di", name: "Di", mayHold: [...POSTS], active: true, demo: true };
    await directory.addPeople([di]);
    expect(await open(false)).toBe(true);
    await directory.addPeople([{ ...di, id: "ed", handle: "y", name: "Ed", demo: false, active: false }]);
    expect(await open(false)).toBe(true);
    await directory.setActive("ed", true);
    expect(await open(false)).toBe(false);
  });
});

it("[HSE-11] the steps of a house follow from what is there, in the order in which they are done", () => {
  const nobody = { cockpit: 0, fireGuard: 0, groundPower: 0, supervisor: 0 };
  const empty = { devices: 0, mayHold: nobody, approved: 0, drafts: 0, plannable: 0, sessions: 0 };
  expect(houseSteps(empty).map((s) => [s.step, s.done])).toEqual([
    ["supervisor", false],
    ["device", false],
    ["people", false],
    ["type", false],
    ["aircraft", false],
    ["plan", false],
  ]);
  const people = (mayHold: typeof nobody) =>
    houseSteps({ ...empty, mayHold }).find((s) => s.step === "people");
  expect(people({ ...nobody, supervisor: 1 })).toEqual({
    ...{ step: "people", done: false, second: true, draft: false },
    lacks: ["cockpit", "fireGuard", "groundPower"],
  });
  const everyPost = { cockpit: 1, fireGuard: 1, groundPower: 1, supervisor: 1 };
  expect(people(everyPost)).toMatchObject({ done: false, lacks: [], second: true });
  expect(people({ ...everyPost, supervisor: 2 })).toMatchObject({ done: true, second: false });
  const whole = { ...empty, mayHold: { ...everyPost, supervisor: 2 }, devices: 1, approved: 1 };
  expect(houseSteps({ ...whole, plannable: 1, sessions: 1 }).every((s) => s.done)).toBe(true);
  expect(houseSteps({ ...empty, drafts: 1 }).find((s) => s.step === "type")).toMatchObject({ draft: true });
});

describe("people", () => {
  let crew: TestServer;
  let di: string;
  beforeEach(async () => {
    crew = await testServer();
    di = await signIn(crew.app, "di");
  });
  afterEach(() => crew.close());
  const send = (method: "POST" | "PUT", url: string, payload: object, token = di) =>
    crew.app.inject({ method, url: `/api/people${url}`, headers: bearer(token), payload });
  const to = { name: "Bo", mayHold: ["fireGuard"] };

  it("[HSE-12] are added by a supervisor with a first PIN, under a handle and name of their own", async () => {
    const ivy = { ...ENTRY.person, mayHold: ["groundPower"] };
    expect((await send("POST", "", ivy)).statusCode).toBe(201);
    const payload = { handle: "ivy", pin: ivy.pin, device: { id: "t", name: "T" } };
    expect((await crew.app.inject({ method: "POST", url: "/api/sign-in", payload })).statusCode).toBe(200);
    expect(problemOf(await send("POST", "", { ...ivy, name: "Another" }))).toBe("taken");
    const alike = await send("POST", "", { ...ivy, handle: "other", name: "IVY MARSH" });
    expect([alike.statusCode, problemOf(alike)]).toEqual([409, "taken"]);
    expect((await send("POST", "", { ...ivy, handle: "weak", name: "Weak", pin: "123456" })).statusCode).toBe(
      400,
    );
  });

  it("[HSE-12] are changed by another person, and sign in again once they lost a post", async () => {
    const bo = await signIn(crew.app, "bo");
    const me = () => crew.app.inject({ url: "/api/me", headers: bearer(bo) });
    const more = { name: "Bo Reed", mayHold: ["fireGuard", "groundPower"] };
    expect((await send("PUT", "/bo", more)).statusCode).toBe(204);
    expect((await me()).statusCode).toBe(200);
    await crew.hand.pass(6_000);
    expect((await me()).json().person).toMatchObject({ name: "Bo Reed", mayHold: more.mayHold });
    expect((await send("PUT", "/bo", { ...to, mayHold: [] })).statusCode).toBe(204);
    expect((await me()).statusCode).toBe(401);
    expect(problemOf(await send("PUT", "/bo", { ...to, name: "Cy" }))).toBe("taken");
    expect(problemOf(await send("PUT", "/none", to))).toBe("notFound");
  });

  it("[HSE-12] change their own name alone", async () => {
    const own = { name: "Diana", mayHold: ["supervisor"] };
    expect((await send("PUT", "/di", own)).statusCode).toBe(204);
    expect(problemOf(await send("PUT", "/di", { ...own, mayHold: [...POSTS] }))).toBe("ownWork");
  });

  it("[HSE-12] lose the post they hold only on purpose, with the supervisor's PIN", async () => {
    const { sessions } = crew.services;
    sessions.postsHeld = async (is) =>
      is({ id: "bo", device: "t" }) ? [{ post: "fireGuard", aircraft: "CH-TST" }] : [];
    const less = { ...to, mayHold: [] };
    expect(problemOf(await send("PUT", "/bo", less))).toBe("onDuty");
    expect(problemOf(await send("PUT", "/bo", { ...less, confirm: true, pin: "999999" }))).toBe("wrongPin");
    expect((await send("PUT", "/bo", { ...to, mayHold: ["fireGuard", "cockpit"] })).statusCode).toBe(204);
    expect((await send("PUT", "/bo", { ...less, confirm: true, pin: PIN })).statusCode).toBe(204);
  });
});
