import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { CAUTION } from "../../server/evidence/caution.ts";
import { checkFile } from "../../server/evidence/check-file.ts";
import { cell } from "../../server/evidence/csv.ts";
import { historyExport } from "../../server/evidence/history-export.ts";
import { manifestSchema, verify } from "../../shared/evidence/verify.ts";
import { sha256 } from "../spec/given.ts";
import { bearer, planned, signIn, type TestServer, testServer } from "./test-server.ts";
import { testSigner } from "./test-signer.ts";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
/** Time for processes to start on a busy machine, milliseconds. */
const PROCESSES = 120_000;
const NOTE = `=HYPERLINK("http://evil.example","click")`;

let test: TestServer;
let token: string;
let session: string;
/** Number of the session's events. */
let count: number;

beforeEach(async () => {
  test = await testServer();
  token = await signIn(test.app, "di");
  session = (await planned(test.app, token, { place: "+1 stand, <b>north</b>" })).id;
  const di = { id: "di", name: "Di", device: "di-tablet", mayHold: ["supervisor" as const] };
  for (const [n, note] of [NOTE, `@SUM("a",1)`, "-2+3", 'quoted "so", and so'].entries())
    await test.services.sessions.command(di, {
      v: 1,
      id: `00000000-0000-4000-8000-00000000000${n}`,
      session,
      clientAt: 5,
      action: { type: "send", kind: "hold", channel: "panel", note },
    });
  count = (await test.services.store.read(session, 0, 100)).length;
});
afterEach(() => test.close());

const take = async (as: string) => {
  const reply = await test.app.inject({
    url: `/api/sessions/${session}/evidence?as=${as}`,
    headers: bearer(token),
  });
  expect(reply.statusCode).toBe(200);
  return reply;
};

describe("evidence as NDJSON", () => {
  it("[EVD-1] is a manifest and the exact stored lines, and verifies", async () => {
    const reply = await take("ndjson");
    expect(reply.headers["content-type"]).toMatch(/^application\/x-ndjson/);
    expect(reply.headers["content-disposition"]).toMatch(
      /^attachment; filename="chockside-CH-TST-2026-06-01-[A-Z0-9]{6}\.ndjson"$/,
    );
    const [first = "", ...lines] = reply.body.trimEnd().split("\n");
    expect(JSON.parse(lines.pop() ?? "")).toEqual({ end: expect.stringContaining("chockside/export\n") });
    const manifest = manifestSchema.parse(JSON.parse(first));
    expect(manifest).toMatchObject({ session, aircraft: "CH-TST", events: count, caution: CAUTION });
    const stored = await test.services.store.read(session, 0, 100);
    expect(lines).toEqual(stored.map((e) => e.body));
    expect(verify(lines, manifest, sha256)).toMatchObject({ ok: true, events: count });
  });

  it("[TYP-38] names the seal of the type's version, and the verifier says which one it was", async () => {
    const [stored] = await test.services.directory.storedTypes();
    const note = stored?.seal?.note ?? "";
    expect(note).not.toBe("");
    const says = checkFile((await take("ndjson")).body).says;
    expect(says).toContain(`planned on version 1 of four, whose seal has the SHA-256 ${sha256(note)}`);
  });

  it("[EVD-1] is what comes when no form is named; another form than the three is refused", async () => {
    const url = `/api/sessions/${session}/evidence`;
    const plain = await test.app.inject({ url, headers: bearer(token) });
    expect(plain.body).toBe((await take("ndjson")).body);
    expect((await test.app.inject({ url: `${url}?as=xml`, headers: bearer(token) })).statusCode).toBe(400);
  });

  it("[EVD-1] holds a long record whole, page after page", async () => {
    const di = { id: "di", name: "Di", device: "di-tablet", mayHold: ["supervisor" as const] };
    await Promise.all(
      Array.from({ length: 1_200 }, (_, n) =>
        test.services.sessions.command(di, {
          v: 1,
          id: `00000000-0000-4000-8000-1${String(n).padStart(11, "0")}`,
          session,
          clientAt: 5,
          action: { type: "confirmBrief" },
        }),
      ),
    );
    const all = (await test.services.store.read(session, 0, 5_000)).length;
    expect(all).toBeGreaterThan(count + 1_199);
    expect(checkFile((await take("ndjson")).body)).toMatchObject({
      ok: true,
      says: expect.stringContaining(`WHOLE ${all} events`),
    });
  });
});

describe("evidence as JSON", () => {
  it("[EVD-1, EVD-2] is one document with the manifest and the same events", async () => {
    const reply = await take("json");
    const { manifest, events } = reply.json();
    expect(manifest.caution).toBe(CAUTION);
    const stored = await test.services.store.read(session, 0, 100);
    expect(events).toEqual(stored.map((e) => JSON.parse(e.body)));
    for (const { body } of stored) expect(reply.body).toContain(body);
  });
});

describe("evidence as CSV", () => {
  it("[EVD-2] opens with the caution, and every record has as many cells", async () => {
    const rows = readCsv((await take("csv")).body);
    expect(rows[0]?.[0]).toBe(CAUTION);
    expect(rows[1]?.slice(0, 4)).toEqual(["seq", "time", "who", "post"]);
    expect(new Set(rows.map((r) => r.length)).size).toBe(1);
    expect(rows.pop()?.[0]).toContain("chockside/export");
    expect(rows.slice(2).map((r) => r[0])).toEqual(Array.from({ length: count }, (_, i) => String(i + 1)));
    expect(rows[3]?.slice(1, 8)).toEqual([
      "2026-06-01T09:00:00.000Z",
      "Di",
      "observer",
      "di-tablet",
      "sent",
      "hold",
      "",
    ]);
  });

  it("[EVD-3] runs nothing in a spreadsheet: no cell of text begins like a formula", async () => {
    const { body } = await take("csv");
    const rows = readCsv(body);
    for (const row of rows) for (const text of row) expect(text).not.toMatch(/^[=+\-@\t\r]/);
    const notes = rows.filter((r) => r[5] === "sent").map((r) => r[14]);
    expect(notes).toEqual([`'${NOTE}`, `'@SUM("a",1)`, "'-2+3", 'quoted "so", and so']);
  });

  it.each([
    ["=1+1", "'=1+1"],
    ["+1", "'+1"],
    ["-1", "'-1"],
    ["@x", "'@x"],
    ["\tx", "'\tx"],
    ["\rx", `"'\rx"`],
    ["a,b", '"a,b"'],
    ['say "no"', '"say ""no"""'],
    ["a=b", "a=b"],
    [-5, "-5"],
    [null, ""],
    [undefined, ""],
  ])("[EVD-3] writes %j as %j", (value, text) => {
    expect(cell(value)).toBe(text);
  });
});

describe("npm run verify", () => {
  let folder: string;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), "chockside-verify-"));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  /** Runs the `verify` script of package.json with these arguments. */
  const script = (...args: string[]) => {
    const { scripts } = JSON.parse(readFileSync(join(ROOT, "package.json"), "utf8"));
    const [program, ...own] = String(scripts.verify).split(" ");
    expect(program).toBe("node");
    return spawnSync(process.execPath, [...own, ...args], { cwd: ROOT, encoding: "utf8" });
  };
  const run = (text: string) => {
    const file = join(folder, "record.ndjson");
    writeFileSync(file, text);
    return script(file);
  };

  it(
    "[EVD-4] [EVD-6] says WHOLE and ends with 3, says OK with a key, or names the first bad line and ends with 1",
    async () => {
      const { body } = await take("ndjson");
      const good = run(body);
      expect(good.status).toBe(3);
      expect(good.stdout).toContain(`WHOLE ${count} events`);
      const vouched = script(join(folder, "record.ndjson"), "--key", testSigner.publicHex);
      expect([vouched.status, vouched.stdout.slice(0, 3)]).toEqual([0, "OK "]);
      expect(good.stdout).toContain(JSON.parse(body.split("\n")[0] ?? "").head);
      // Line 3 of the file is event 2: one digit of its panel's time is changed.
      const lines = body.split("\n");
      lines[2] = (lines[2] ?? "").replace(/"clientAt":5/, '"clientAt":6');
      const bad = run(lines.join("\n"));
      expect(bad.status).toBe(1);
      expect(bad.stdout).toMatch(/^BAD line 3: /);
    },
    PROCESSES,
  );

  it(
    "[EVD-4] ends with 2 when there is nothing to check",
    () => {
      expect(script(join(folder, "none"))).toMatchObject({
        status: 2,
        stderr: expect.stringContaining("cannot be read"),
      });
      expect(script()).toMatchObject({ status: 2, stderr: expect.stringContaining("usage: npm run verify") });
    },
    PROCESSES,
  );

  it("[EVD-4] finds the tail cut off", async () => {
    const lines = (await take("ndjson")).body.trimEnd().split("\n");
    const { ok, says } = checkFile(lines.slice(0, -2).join("\n"));
    expect([ok, says]).toEqual([false, expect.stringMatching(new RegExp(`^BAD line ${count + 1}: `))]);
  });

  it.each<[string, (lines: string[]) => string[], number]>([
    ["the manifest gone", (l) => l.slice(1), 1],
    ["an event left out", (l) => [...l.slice(0, 2), ...l.slice(3)], 3],
    ["two events exchanged", (l) => [l[0], l[1], l[3], l[2], ...l.slice(4)] as string[], 3],
    ["an event twice", (l) => [...l.slice(0, 3), l[2], ...l.slice(3)] as string[], 4],
    ["another aircraft in the manifest", (l) => [(l[0] ?? "").replace("CH-TST", "CH-TSU"), ...l.slice(1)], 1],
    ["something that is no JSON", (l) => [...l.slice(0, 4), "{", ...l.slice(5)], 5],
  ])("[EVD-4] finds %s", async (_what, spoil, line) => {
    const lines = (await take("ndjson")).body.trimEnd().split("\n");
    const { ok, says } = checkFile(`${spoil(lines).join("\n")}\n`);
    expect(ok).toBe(false);
    expect(says).toMatch(new RegExp(`^BAD line ${line}: `));
  });
});

/** Reads CSV by RFC 4180, independently of the program. */
function readCsv(text: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let field = "";
  let quoted = false;
  for (let i = 0; i < text.length; i += 1) {
    const c = text[i];
    if (quoted) {
      if (c === '"' && text[i + 1] === '"') {
        field += '"';
        i += 1;
      } else if (c === '"') quoted = false;
      else field += c;
    } else if (c === '"') quoted = true;
    else if (c === ",") {
      row.push(field);
      field = "";
    } else if (c === "\r" && text[i + 1] === "\n") {
      rows.push([...row, field]);
      row = [];
      field = "";
      i += 1;
    } else field += c;
  }
  return rows;
}

describe("an aircraft's whole history", () => {
  const ask = (id: string) =>
    test.app.inject({ url: `/api/aircraft/${id}/evidence`, headers: bearer(token) });

  it("[HIS-38] is one file of its own record and its sessions, which verifies", async () => {
    const reply = await ask("CH-TST");
    expect(reply.headers["content-disposition"]).toMatch(
      /^attachment; filename="chockside-CH-TST-history-2026-06-01\.ndjson"$/,
    );
    const { records } = JSON.parse(reply.body.split("\n")[0] ?? "");
    expect(records.map((r: { session: string }) => r.session)).toEqual([
      expect.stringMatching(/^record-/),
      session,
    ]);
    expect(checkFile(reply.body, { keys: [testSigner.publicHex] })).toMatchObject({
      ok: true,
      vouched: true,
      says: expect.stringContaining("the aircraft's own record"),
    });
    const none = await ask("CH-NONE");
    expect([none.statusCode, none.json().type]).toEqual([404, expect.stringMatching(/notFound$/)]);
  });

  it("[HIS-38] ends a session that goes on where it stood when the export began", async () => {
    const { store, notary, names, sessions } = test.services;
    const parts = historyExport({ store, notary, names }, "CH-TST", 0);
    let text = (await parts.next()).value ?? "";
    const di = { id: "di", name: "Di", device: "di-tablet", mayHold: ["supervisor" as const] };
    await sessions.command(di, {
      ...{ v: 1, id: "00000000-0000-4000-8000-0000000000aa", session, clientAt: 5 },
      action: { type: "send", kind: "hold", channel: "panel" },
    });
    for await (const part of parts) text += part;
    expect((await store.session(session))?.headSeq).toBeGreaterThan(count);
    expect(checkFile(text)).toMatchObject({ ok: true, says: expect.stringContaining(`${count} events of`) });
  });
});
