import { afterEach, describe, expect, it } from "vitest";
import { checkFile } from "../../server/evidence/check-file.ts";
import { checkPictures } from "../../server/evidence/check-pictures.ts";
import { personalDataOf } from "../../server/personal/personal-data.ts";
import { PICTURE_BYTES } from "../../server/pictures/limits.ts";
import { sha256OfBytes } from "../../server/sha256.ts";
import { readSealedRecord } from "../../shared/evidence/read.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import { BASELINE, fromTelephone, LOSSLESS, LOSSY, PNG, PROGRESSIVE, SECRET } from "../pictures/files.ts";
import { bearer, planned, signIn, type TestOptions, type TestServer, testServer } from "./test-server.ts";

const servers: TestServer[] = [];
afterEach(() => Promise.all(servers.splice(0).map((s) => s.close())));

let commands = 0;
const commandId = () => {
  commands += 1;
  return `00000000-0000-4000-8000-${String(commands).padStart(12, "0")}`;
};

/** A server whose aircraft has an open defect, and what its people ask of it. */
async function leaking(options: TestOptions = {}) {
  const test = await testServer(options);
  servers.push(test);
  const tokens: Record<string, string> = {};
  const signAllIn = async () => {
    for (const who of ["di", "ada", "bo"]) tokens[who] = await signIn(test.app, who);
  };
  await signAllIn();
  const at = "/api/aircraft/CH-TST";
  const headers = (who: string | null) => (who === null ? {} : bearer(tokens[who] ?? ""));
  const get = (who: string | null, url: string) =>
    test.app.inject({ url: `${at}${url}`, headers: headers(who) });
  const report = async (action: object, who = "ada") => {
    const payload = { commandId: commandId(), action };
    const reply = await test.app.inject({
      method: "POST",
      url: `${at}/reports`,
      headers: headers(who),
      payload,
    });
    return reply.json();
  };
  const write = async (words: string) => {
    await report({ type: "writeDefect", words, barsStart: false });
    return (await lives())[0].id as string;
  };
  const lives = async () => (await get("ada", "/defects")).json();
  const send = async (
    defect: string,
    file: Buffer,
    { who = "ada" as string | null, command = commandId(), type = "image/jpeg" } = {},
  ) => {
    const reply = await test.app.inject({
      method: "POST",
      url: `${at}/defects/${defect}/pictures?commandId=${command}`,
      headers: { ...headers(who), "content-type": type },
      payload: file,
    });
    const body = reply.json();
    return { status: reply.statusCode, body, kind: body.type?.split(":").at(-1), detail: body.detail };
  };
  const removal = (defect: string, sha256: string, who: string) =>
    test.app.inject({
      method: "POST",
      url: `${at}/defects/${defect}/pictures/${sha256}/removal`,
      headers: headers(who),
      payload: { commandId: commandId(), reason: "A face is in it" },
    });
  const facts = async () => {
    const { store } = test.services;
    const [row] = await store.records();
    return (await store.read(row?.id ?? "", 0, 100)).map(({ body }) => readSealedRecord(body).event.fact);
  };
  return { ...test, signAllIn, get, write, report, lives, send, removal, facts };
}

describe("a picture of a defect", () => {
  it("[DEF-8] [DEF-9] [DEF-10] is kept without position and owner, and the evidence names the bytes that are served", async () => {
    const { write, send, get, lives, facts } = await leaking();
    const defect = await write("Oil leak");
    const sent = await send(defect, fromTelephone(BASELINE), { who: "bo", type: "text/html" });
    expect(sent.status).toBe(201);
    const { sha256 } = sent.body;
    const served = await get("di", `/defects/${defect}/pictures/${sha256}`);
    expect(served.statusCode).toBe(200);
    expect(served.rawPayload.toString("latin1")).not.toContain(SECRET);
    expect(sha256OfBytes(served.rawPayload)).toBe(sha256);
    expect(sent.body).toEqual({
      ...{ sha256, media: "image/jpeg", width: 16, height: 12 },
      length: served.rawPayload.length,
    });
    expect(served.headers).toMatchObject({
      "content-type": "image/jpeg",
      "x-content-type-options": "nosniff",
      "content-security-policy": "default-src 'none'; sandbox",
      "cache-control": "private, no-store",
      "content-disposition": `inline; filename="${sha256}.jpg"`,
    });
    expect((await facts()).at(-1)).toMatchObject({
      ...{ type: "pictured", picture: sent.body, person: "bo" },
      by: { name: expect.stringMatching(/^person:/) },
    });
    const [life] = await lives();
    expect(life.pictures).toMatchObject([{ ...sent.body, name: "Bo", removed: null, kept: true }]);
    for (const url of [`/defects/${defect}/pictures/${sha256}`, "/pictures"])
      expect((await get(null, url)).statusCode).toBe(401);
    expect((await send(defect, PNG, { who: null })).status).toBe(401);
  });

  it("[DEF-8] follows a report that was made in a start, and a report never waits for it", async () => {
    const { app, services, send, lives } = await leaking();
    const token = await signIn(app, "ada", "panel");
    const { id } = await planned(app, token);
    const person = { id: "ada", name: "Ada", device: "panel", mayHold: ["cockpit" as const] };
    const give = (action: Action) =>
      services.sessions.command(person, { v: 1, id: commandId(), session: id, clientAt: 5, action });
    await give({ type: "claimPost", post: "cockpit" });
    await give({ type: "writeDefect", words: "Loose cowling", barsStart: false });
    const [life] = await lives();
    expect(life).toMatchObject({ words: "Loose cowling", written: { session: id }, pictures: [] });
    expect((await send(life.id, LOSSY)).body).toMatchObject({ media: "image/webp" });
    expect((await lives())[0].pictures).toHaveLength(1);
  });

  it("[DEF-8] is added once, by the same bytes as by the same command, and to an open defect alone", async () => {
    const { write, send, lives, report, facts } = await leaking();
    const defect = await write("Oil leak");
    const command = commandId();
    for (const file of [PNG, PNG]) expect((await send(defect, file, { command })).status).toBe(201);
    expect((await send(defect, PNG, { who: "bo" })).status).toBe(201);
    expect((await lives())[0].pictures).toHaveLength(1);
    expect((await facts()).filter((f) => f.type === "pictured")).toHaveLength(1);
    expect((await send("none", PNG)).kind).toBe("notFound");
    await report({ type: "end", no: (await lives())[0].no, reason: "Tightened" }, "di");
    const late = await send(defect, PROGRESSIVE);
    expect([late.status, late.kind]).toEqual([404, "notFound"]);
    expect((await lives())[0].pictures).toHaveLength(1);
  });

  it("[DEF-9] that is none, is too large or is sent without a command gets a clear problem, and nothing is kept", async () => {
    const { write, send, lives, facts, services } = await leaking();
    const defect = await write("Oil leak");
    const before = await facts();
    const html = await send(defect, Buffer.from("<script>alert(1)</script>"));
    expect([html.status, html.kind]).toEqual([422, "faultyEntry"]);
    expect(html.detail).toBe("The file is no picture in JPEG, PNG or WebP: send one of these");
    expect((await send(defect, Buffer.from("{}"), { type: "application/json" })).kind).toBe("faultyEntry");
    expect((await send(defect, BASELINE.subarray(0, 200))).detail).toContain("cut off");
    const large = Buffer.concat([BASELINE, Buffer.alloc(50_000_000)]);
    expect(large.length).toBeGreaterThan(PICTURE_BYTES);
    expect([(await send(defect, large)).status, (await send(defect, large)).kind]).toEqual([413, "tooLarge"]);
    expect((await send(defect, PNG, { command: "mine" })).status).toBe(400);
    expect(await facts()).toEqual(before);
    expect((await lives())[0].pictures).toEqual([]);
    expect(await services.directory.pictures.rows()).toEqual([]);
  });

  it("[DEF-11] is refused beyond what a defect, a person in a day and the house may have", async () => {
    const { write, send, hand, signAllIn } = await leaking({ pictures: { perDefect: 2, perPersonADay: 3 } });
    const [one, two] = [await write("Oil leak"), await write("Loose cowling")];
    expect((await send(one, PNG)).status).toBe(201);
    expect((await send(one, LOSSY)).status).toBe(201);
    const full = await send(one, BASELINE);
    expect([full.status, full.kind]).toEqual([409, "noRoom"]);
    expect(full.detail).toContain("The defect has as many pictures");
    expect((await send(two, PNG)).status).toBe(201);
    expect((await send(two, LOSSY)).detail).toContain("in a day");
    expect((await send(two, LOSSY, { who: "bo" })).status).toBe(201);
    // What is there already is no addition.
    expect((await send(one, PNG)).status).toBe(201);
    await hand.leap(24 * 3_600_000 + 1);
    await signAllIn();
    expect((await send(two, LOSSLESS)).detail).toContain("The defect has");
    const three = await write("Flat tyre");
    expect((await send(three, LOSSLESS)).status).toBe(201);
    const small = await leaking({ pictures: { megabytes: 0.0001 } });
    const refused = await small.send(await small.write("Oil leak"), PNG);
    expect([refused.status, refused.detail]).toEqual([409, expect.stringContaining("The house keeps")]);
  });

  it("[DEF-12] is removed by a supervisor for a reason; the evidence keeps its digest", async () => {
    const { write, send, get, lives, removal, facts, services } = await leaking();
    const defect = await write("Oil leak");
    const { sha256 } = (await send(defect, PNG)).body;
    expect((await removal(defect, sha256, "ada")).json().type).toContain("notQualified");
    expect((await removal(defect, sha256, "di")).json()).toEqual({ removed: true });
    expect((await removal(defect, sha256, "di")).statusCode).toBe(404);
    expect((await get("di", `/defects/${defect}/pictures/${sha256}`)).statusCode).toBe(404);
    expect(await services.directory.pictures.rows()).toEqual([]);
    expect((await lives())[0].pictures).toMatchObject([
      { sha256, kept: false, removed: { name: "Di", reason: "A face is in it" } },
    ]);
    expect((await facts()).at(-1)).toMatchObject({ type: "pictureRemoved", sha256, person: "di" });
    // It can be sent again.
    expect((await send(defect, PNG)).status).toBe(201);
    expect((await lives())[0].pictures).toMatchObject([{ sha256, kept: true, removed: null }]);
  });

  it("[DEF-13] the aircraft's history names it; it verifies without the pictures, and tells those at hand", async () => {
    const { write, send, get } = await leaking();
    const defect = await write("Oil leak");
    const first = (await send(defect, PNG)).body.sha256 as string;
    const second = (await send(defect, BASELINE)).body.sha256 as string;
    const history = (await get("di", "/evidence")).body;
    expect(checkFile(history).ok).toBe(true);
    for (const sha256 of [first, second]) expect(history).toContain(`"sha256":"${sha256}"`);
    const files = unpacked((await get("di", "/pictures")).rawPayload);
    expect([...files.keys()]).toEqual([`${first}.png`, `${second}.jpg`]);
    expect(checkPictures(history, files)).toEqual({
      ok: true,
      says: ["2 pictures named, 2 at hand and whole"],
    });
    files.delete(`${first}.png`);
    expect(checkPictures(history, files)).toEqual({
      ok: true,
      says: ["2 pictures named, 1 at hand and whole", `not at hand: ${first}`],
    });
    files.set(`${second}.jpg`, PROGRESSIVE);
    files.set("other.jpg", LOSSY);
    expect(checkPictures(history, files)).toEqual({
      ok: false,
      says: [
        "2 pictures named, 0 at hand and whole",
        `not at hand: ${first}`,
        `BAD ${second}.jpg: its bytes are not those that the record names`,
        "not named: other.jpg",
      ],
    });
  });

  it("[DEF-10] whose stored bytes are damaged is not served", async () => {
    const { write, send, get, services } = await leaking();
    const defect = await write("Oil leak");
    const { sha256 } = (await send(defect, PNG)).body;
    const { pictures } = services.directory;
    const [row] = await pictures.rows();
    const kept = await pictures.picture(row as never);
    await pictures.forget(row as never);
    await pictures.keep({ ...(kept as NonNullable<typeof kept>), bytes: LOSSY });
    expect((await get("di", `/defects/${defect}/pictures/${sha256}`)).statusCode).toBe(503);
  });

  it("[DEF-12] is among the data about the person who sent it", async () => {
    const { write, send, services } = await leaking();
    const { sha256 } = (await send(await write("Oil leak"), PNG, { who: "bo" })).body;
    const { store, directory } = services;
    const of = async (id: string) => {
      const person = await directory.person(id);
      return (await personalDataOf(store, directory, person as NonNullable<typeof person>)).pictures;
    };
    expect(await of("bo")).toMatchObject([{ sha256, media: "image/png" }]);
    expect(await of("ada")).toEqual([]);
  });
});

/** Returns the files of an archive by name, read by the offsets of POSIX.1-2017, pax, "ustar Interchange Format". */
function unpacked(tar: Buffer): Map<string, Buffer> {
  const files = new Map<string, Buffer>();
  const word = (at: number, length: number) => tar.toString("latin1", at, at + length).split("\0")[0] ?? "";
  for (let at = 0; tar[at] !== 0; ) {
    const head = Buffer.from(tar.subarray(at, at + 512)).fill(" ", 148, 156);
    expect(Number.parseInt(word(at + 148, 8), 8)).toBe(head.reduce((sum, b) => sum + b, 0));
    expect(word(at + 257, 6)).toBe("ustar");
    const size = Number.parseInt(word(at + 124, 12), 8);
    files.set(word(at, 100), tar.subarray(at + 512, at + 512 + size));
    at += 512 + 512 * Math.ceil(size / 512);
  }
  return files;
}
