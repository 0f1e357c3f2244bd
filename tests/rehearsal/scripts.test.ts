import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { SCRIPTS } from "../../server/rehearsals/scripts.ts";
import type { RehearsalScript } from "../../shared/rehearsal/script.ts";
import { scriptFaults } from "../../shared/rehearsal/scriptFaults.ts";
import {
  NEW_FAULT,
  newScript,
  SCRIPT_FIELDS,
  scriptOf,
  textOfScript,
} from "../../web/pages/rehearsal/scriptEntry.ts";
import { scripts as english } from "../../web/words/en/scripts.ts";
import { scripts as spanish } from "../../web/words/es/scripts.ts";
import { testServer } from "../http/test-server.ts";
import { script } from "./theatre.ts";
import { Both } from "./world.ts";

const OURS = script({
  id: "ours",
  title: { en: "Ours", es: "El nuestro" },
  faults: [{ fault: "lightning", which: 1, after: "begun", seconds: 1, chance: 1 }],
});

describe("scripts of the house", () => {
  let both: Both;
  beforeEach(async () => {
    both = await new Both(await testServer()).begin();
  });
  afterEach(() => both.test.close());

  const url = "/rehearsals/house-scripts";
  const put = async (body: object, revision: number, id = "ours", who = "di") =>
    both.test.app.inject({
      ...{ method: "PUT", url: `/api${url}/${id}`, payload: body },
      headers: { authorization: `Bearer ${await both.token(who)}`, "if-match": `"${revision}"` },
    });
  const usable = async () =>
    ((await both.ask("GET", "/rehearsals/scripts", "ed")).json() as RehearsalScript[]).map(({ id }) => id);
  const begin = (which: unknown) =>
    both.ask("POST", "/rehearsals", "fay", { aircraft: "CH-TST", script: which, seed: 7, post: null });

  it("[RHS-51] are kept by a supervisor, begun with by everybody, changed as they were read, and taken out of use", async () => {
    expect((await both.ask("POST", url, "ada", OURS)).statusCode).toBe(403);
    expect((await both.ask("POST", url, "di", OURS)).statusCode).toBe(201);
    expect((await both.ask("POST", url, "di", OURS)).statusCode).toBe(409);
    expect((await both.ask("POST", url, "di", { ...OURS, id: "fireDay" })).statusCode).toBe(409);
    expect((await usable()).at(-1)).toBe("ours");
    const reply = await begin("ours");
    expect(reply.statusCode).toBe(201);
    const state = await both.state(reply.json().id);
    expect(state.rehearsal?.script).toBe("ours");
    const body = { script: { ...OURS, airC: 4 }, retired: false };
    expect((await put(body, 2)).statusCode).toBe(412);
    expect((await put(body, 1, "ours", "bo")).statusCode).toBe(403);
    expect((await put({ ...body, script: { ...OURS, id: "theirs" } }, 1)).statusCode).toBe(422);
    expect((await put(body, 1)).statusCode).toBe(200);
    const [kept] = (await both.ask("GET", url, "ed")).json();
    expect(kept).toMatchObject({ revision: 2, by: "Di", body: { script: { airC: 4 } } });
    expect((await put({ ...body, retired: true }, 2)).statusCode).toBe(200);
    expect(await usable()).toEqual(SCRIPTS.map(({ id }) => id));
    expect((await begin("ours")).statusCode).toBe(422);
    expect((await put(body, 3)).statusCode).toBe(200);
    expect((await usable()).at(-1)).toBe("ours");
  });

  it("[RHS-51] go to another house through their file unchanged", async () => {
    await both.ask("POST", url, "di", OURS);
    const found = (await both.ask("GET", "/rehearsals/scripts", "ed")).json() as RehearsalScript[];
    const file = JSON.stringify(found.find(({ id }) => id === "ours"));
    const elsewhere = await new Both(await testServer()).begin();
    try {
      expect((await elsewhere.ask("POST", url, "di", JSON.parse(file))).statusCode).toBe(201);
      const there = (await elsewhere.ask("GET", "/rehearsals/scripts", "ed")).json() as RehearsalScript[];
      expect(there.find(({ id }) => id === "ours")).toEqual(OURS);
    } finally {
      await elsewhere.test.close();
    }
  });

  it("[RHS-52] are refused for what cannot be meant, kept or begun with", async () => {
    const [fault] = OURS.faults;
    const twice = { ...OURS, faults: [fault, fault] };
    const reply = await both.ask("POST", url, "di", twice);
    expect(reply.statusCode).toBe(422);
    expect(reply.json().errors).toEqual([
      { path: "faults.1.fault", message: expect.stringContaining("same") },
    ]);
    expect((await begin(twice)).statusCode).toBe(422);
  });
});

describe("the editor of scripts", () => {
  it("[RHS-52] gives back every script it is given", () => {
    const harder = script({
      slower: 2.5,
      faults: [
        { fault: "guardLost", which: 3, after: "caught", seconds: 0.5, chance: 0.125, post: "supervisor" },
        { fault: "cartSags", which: 1, after: "powerOn", seconds: 90, chance: 0.3 },
      ],
    });
    for (const one of [...SCRIPTS, OURS, harder])
      expect(scriptOf(textOfScript(one))).toEqual({ script: one });
  });

  it("[RHS-52] says of each field that does not fit which it is, and of which fault", () => {
    const blank = newScript("x");
    expect(scriptOf(blank)).toEqual({
      troubles: [
        { is: { field: "title" }, no: null },
        { is: { field: "about" }, no: null },
      ],
    });
    const words = { en: "A", es: "B" };
    const good = { ...blank, title: words, about: words };
    expect(scriptOf(good)).toMatchObject({ script: { faults: [] } });
    const typed = (more: object) => {
      const read = scriptOf({ ...good, faults: [NEW_FAULT, { ...NEW_FAULT, seconds: "9", ...more }] });
      return "troubles" in read ? read.troubles : read.script.faults[1];
    };
    expect(typed({ chance: "12,5" })).toMatchObject({ chance: 0.125 });
    expect(typed({ seconds: "" })).toEqual([{ is: { field: "seconds" }, no: 2 }]);
    expect(typed({ which: "9" })).toEqual([{ is: { field: "which" }, no: 2 }]);
    expect(typed({ chance: "101" })).toEqual([{ is: { field: "chance" }, no: 2 }]);
    expect(typed({ chance: "0" })).toEqual([{ is: { wrong: "never" }, no: 2 }]);
    expect(typed({ seconds: NEW_FAULT.seconds })).toEqual([{ is: { wrong: "twice" }, no: 2 }]);
    // A post that was chosen before the fault was changed to one that befalls none.
    expect(typed({ post: "cockpit" })).not.toHaveProperty("post");
    expect(scriptOf({ ...good, airC: "60" })).toEqual({ troubles: [{ is: { field: "airC" }, no: null }] });
    expect(scriptOf({ ...good, slower: "x" })).toEqual({ troubles: [{ is: { field: "slower" }, no: null }] });
    expect(scriptFaults(script({ faults: [{ ...OURS.faults[0], post: "cockpit" } as never] }))).toEqual([
      { path: "faults.0.post", is: "needsNoPost" },
    ]);
    for (const words of [english, spanish])
      for (const field of SCRIPT_FIELDS) expect(words.fits[field].length).toBeGreaterThan(10);
  });
});
