import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { skeleton } from "../../server/auth/skeleton.ts";
import { linkOf } from "../../server/links.ts";
import { line } from "../../shared/protocol/text.ts";
import { bearer, PIN, planned, signIn } from "../http/test-server.ts";
import { HOLD, type LiveServer, liveServer, panelOf } from "../live/panel.ts";

describe("text", () => {
  it.each([
    ["Arabic letter mark", 0x61c],
    ["line separator", 0x2028],
    ["paragraph separator", 0x2029],
    ["Mongolian vowel separator", 0x180e],
    ["soft hyphen", 0xad],
    ["Hangul filler", 0x3164],
    ["halfwidth Hangul filler", 0xffa0],
    ["Hangul choseong filler", 0x115f],
    ["combining grapheme joiner", 0x34f],
    ["Khmer inherent vowel", 0x17b4],
    ["tag letter", 0xe0061],
    ["language tag", 0xe0001],
    ["variation selector", 0xfe0f],
    ["variation selector supplement", 0xe0100],
    ["musical beam", 0x1d173],
    ["zero width joiner", 0x200d],
    ["right-to-left override", 0x202e],
    ["right-to-left isolate", 0x2067],
    ["word joiner", 0x2060],
    ["byte order mark", 0xfeff],
    ["interlinear anchor", 0xfff9],
    ["empty Braille", 0x2800],
    ["null", 0],
    ["next line", 0x85],
  ])("[SEC-28] with a %s is refused, and says why", (_what, code) => {
    const read = line(80).safeParse(`Ada${String.fromCodePoint(code)}Mere`);
    expect(read.error?.issues[0]?.message).toBe("must not hold control or invisible characters");
  });

  it("[SEC-28] of people's languages is taken", () => {
    for (const text of [
      "José Núñez-O'Brien",
      "Łukasz Żółć",
      "Николай Ёлкин",
      "Γιώργος",
      "山田 太郎",
      "김민준",
      "محمد علي",
      "דוד",
    ])
      expect(line(80).parse(text)).toBe(text);
  });
});

describe("names", () => {
  it.each([
    ["Ivy Marsh", "ivy  marsh"],
    ["Ivy Marsh", "Іvу Маrѕh"],
    ["Ivy Marsh", "Ivy-Marsh"],
    ["Ivy Marsh", "Ívy Mársh"],
    ["Ivy Marsh", "Ｉｖｙ Marsh"],
    ["Bill Low", "BiII L0w"],
    ["Anna Corner", "Anna Comer"],
    ["Oleg", "Οlеg"],
    ["Will", "VVi11"],
  ])("[PRV-6] that look the same are the same: %s and %s", (one, other) => {
    expect(skeleton(one)).toBe(skeleton(other));
  });

  it("[PRV-6] that look different stay different", () => {
    const names = [
      "Ada Mere",
      "Ida Mere",
      "Bo Lund",
      "Cy Lund",
      "Di Fox",
      "Lucia",
      "Luda",
      "Marcia",
      "Mardia",
      "山田",
      "山本",
    ];
    expect(new Set(names.map(skeleton)).size).toBe(names.length);
  });
});

describe("an address of the database", () => {
  const open = ["PGHOST", "PGSSLMODE", "NODE_TLS_REJECT_UNAUTHORIZED"] as const;
  const before = Object.fromEntries(open.map((name) => [name, process.env[name]]));
  afterEach(() => {
    for (const name of open)
      if (before[name] === undefined) delete process.env[name];
      else process.env[name] = before[name];
  });

  it.each<[string, string, string]>([
    ["postgres://u:p@db.example/h?sslmode=verify-full", "checked", "db.example"],
    ["postgres://u:p@db.example/h?sslmode=verify-full&sslmode=disable", "open", "db.example"],
    ["postgres://u:p@db.example/h?sslmode=disable&sslmode=verify-full", "checked", "db.example"],
    ["postgres://u:p@db.example/h?sslmode=no-verify", "open", "db.example"],
    ["postgres://u:p@db.example/h?sslmode=require&uselibpqcompat=true", "open", "db.example"],
    ["postgres://u:p@db.example/h?ssl=true", "open", "db.example"],
    ["postgres://u:p@localhost/h", "here", "localhost"],
    ["postgres://u:p@localhost/h?host=db.example", "open", "db.example"],
    ["postgres://u:p@localhost/h?host=localhost&host=db.example", "open", "db.example"],
    ["postgres://u:p@db.example/h?host=/var/run/postgresql", "here", "/var/run/postgresql"],
    ["postgres://u:p@127.0.0.1.evil.example/h", "open", "127.0.0.1.evil.example"],
    ["postgres://[bad/h", "open", "an address that cannot be read"],
  ])("[SEC-18] is judged as the driver reads it: %s is %s", (address, is, host) => {
    expect(linkOf(address)).toEqual({ is, host });
  });

  it("[SEC-18] without a host uses the host of the environment", () => {
    expect(linkOf("postgres:///house").is).toBe("here");
    vi.stubEnv("PGHOST", "db.example");
    expect(linkOf("postgres:///house")).toEqual({ is: "open", host: "db.example" });
  });

  it("[SEC-18] is open when the process was told to check no certificate", () => {
    vi.stubEnv("NODE_TLS_REJECT_UNAUTHORIZED", "0");
    expect(linkOf("postgres://u:p@db.example/h?sslmode=verify-full").is).toBe("open");
    expect(linkOf("rediss://redis.example").is).toBe("open");
  });
});

describe("a device that is not enrolled", () => {
  let server: LiveServer;
  beforeEach(async () => {
    server = await liveServer();
  });
  afterEach(() => server.close());
  const enter = async (handle: string, id: string, pin = PIN, remoteAddress = "127.0.0.1") => {
    const payload = { handle, pin, device: { id, name: "T" } };
    return server.app.inject({ method: "POST", url: "/api/sign-in", remoteAddress, payload });
  };

  it("[SEC-27] is its person's while they are signed in: another neither takes it nor ends its sockets", async () => {
    const panel = await panelOf(server, "ada", "shared");
    const { id } = await planned(server.app, await signIn(server.app, "fay"));
    for (let n = 0; n < 15; n += 1) {
      const reply = await enter("bo", "shared");
      expect([reply.statusCode, reply.json().type]).toEqual([409, "urn:chockside:problem:deviceInUse"]);
    }
    // A wrong PIN reveals nothing about it.
    expect((await enter("cy", "shared", "000000")).statusCode).toBe(401);
    expect((await panel.command(id, HOLD)).status).toBe("accepted");
    expect((await enter("ada", "shared")).statusCode).toBe(200);
    panel.close();
  });

  it("[SEC-27] is free again once its person has signed out", async () => {
    const token = await signIn(server.app, "ada", "shared");
    await server.app.inject({ method: "POST", url: "/api/sign-out", headers: bearer(token) });
    expect((await enter("bo", "shared")).statusCode).toBe(200);
  });

  it("[SEC-27] [AUT-2] is not locked by wrong PINs entered elsewhere under its id", async () => {
    for (let n = 0; n < 10; n += 1) await enter(`nobody${n}`, "adas", "000000", "192.0.2.9");
    expect((await enter("ada", "adas")).statusCode).toBe(200);
    expect((await enter("bo", "adas", PIN, "192.0.2.9")).statusCode).toBe(429);
  });
});
