import { execFile } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { describe, expect, it } from "vitest";
import { checkFile } from "../../server/evidence/check-file.ts";
import { noteTools } from "../../server/evidence/note-tools.ts";
import { expired, expiredSignIns } from "../../server/retention/expired.ts";
import { expiredPictures } from "../../server/retention/expired-pictures.ts";
import { remove, removePicture } from "../../server/retention/remove.ts";
import { keptUntil, PERIODS } from "../../server/retention/rule.ts";
import { MemoryEventStore } from "../../server/store/memory-events.ts";
import { openDatabase } from "../../server/store/open.ts";
import { openNote } from "../../shared/evidence/note.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import { START } from "../http/hand-clock.ts";
import { bearer, crewDirectory, planned, signIn, type TestServer, testServer } from "../http/test-server.ts";
import { testSigner } from "../http/test-signer.ts";
import { LOSSY, PNG } from "../pictures/files.ts";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const day = (text: string) => Date.parse(`${text}T00:00:00Z`);
let commands = 0;

/** Returns a session that was begun and abandoned, with these signals between. */
async function over({ services, app, hand }: TestServer, signals: Action[] = []): Promise<string> {
  // One minute apart, so that it is clear which is the newest.
  await hand.pass(60_000);
  const { id } = await planned(app, await signIn(app, "di"));
  const abandon = { type: "abandon", reason: "done" } as const;
  const claim = { type: "claimPost", post: "supervisor" } as const;
  for (const action of [claim, ...signals, abandon]) {
    commands += 1;
    const command = `00000000-0000-4000-8000-6${String(commands).padStart(11, "0")}`;
    const di = { id: "di", name: "Di", device: "di-tablet", mayHold: ["supervisor" as const] };
    const asked = { v: 1, id: command, session: id, clientAt: 5, action } as const;
    expect((await services.sessions.command(di, asked)).status).toBe("accepted");
  }
  return id;
}

const CUT: Action[] = [{ type: "send", kind: "cut", engine: 1, channel: "panel" }];
const exported = async ({ app }: TestServer, id: string) =>
  (await app.inject({ url: `/api/sessions/${id}/evidence`, headers: bearer(await signIn(app, "ed")) })).body;

describe("how long records are kept", () => {
  it.each([
    // 14 CFR 139.301(b)(1): training of 31 January 2024, 24 consecutive calendar months: through January 2026.
    ["2024-01-31", 24, "2026-02-01"],
    ["2026-06-01", 12, "2027-07-01"],
    ["2024-02-29", 12, "2025-03-01"],
    ["2026-12-31", 1, "2027-02-01"],
  ])("[OPS-8] what ended on %s is kept %i months, until %s", (end, months, until) => {
    expect(keptUntil(day(end), months)).toBe(day(until));
    expect(keptUntil(day(end) + 86_399_999, months)).toBe(day(until));
  });

  it("[OPS-8] has the periods of 14 CFR 139.301(b) unless set otherwise", () => {
    expect(PERIODS).toEqual({ sessions: 12, incidents: 12, people: 24, signIns: 12, pictures: 12 });
  });
});

describe("what is past its period", () => {
  it("[OPS-8] is what is over and old, never the newest of an aircraft, nor what goes on", async () => {
    const store = new MemoryEventStore();
    const directory = await crewDirectory();
    const test = await testServer({ store, directory });
    const plain = await over(test);
    const incident = await over(test, CUT);
    await over(test);
    await test.close();
    const [until, later] = [keptUntil(START, 12), keptUntil(START, 30)];
    const ids = async (now: number, periods = PERIODS) =>
      (await expired(store, directory, periods, now)).map((one) =>
        "session" in one ? [one.kept, one.session.id] : [one.kept, one.person.id],
      );
    expect(await ids(until - 1)).toEqual([]);
    expect(await ids(until)).toEqual([
      ["incidents", incident],
      ["sessions", plain],
    ]);
    expect(await ids(until, { ...PERIODS, incidents: 60 })).toEqual([["sessions", plain]]);
    // "gone" may not sign in any more; nobody else has expired, however long ago they were seen.
    expect(await ids(later, { ...PERIODS, sessions: 99, incidents: 99 })).toEqual([["people", "gone"]]);
  });
});

describe("sign-ins that are over", () => {
  it("[OPS-12] are past after their period, but the last of each person, and go without touching the rest", async () => {
    const directory = await crewDirectory();
    const store = new MemoryEventStore();
    const test = await testServer({ store, directory });
    const of = async (id: string) => (await directory.personal.signIns(id)).map((s) => s.id);
    await signIn(test.app, "ada");
    const out = await signIn(test.app, "ada");
    await test.app.inject({ method: "POST", url: "/api/sign-out", headers: bearer(out) });
    const old = await of("ada");
    await signIn(test.app, "bo");
    await test.hand.leap(40 * 24 * 3_600_000);
    await signIn(test.app, "ada");
    await test.close();
    const until = keptUntil(START + 12 * 3_600_000, PERIODS.signIns);
    expect(await expiredSignIns(directory, PERIODS.signIns, until - 1)).toEqual([]);
    const found = await expiredSignIns(directory, PERIODS.signIns, until);
    // Bo's record is as old, but it is the last that is known of him.
    expect(found.sort()).toEqual(old.sort());
    const gone = await expired(store, directory, PERIODS, keptUntil(START, 30));
    await directory.personal.forgetSignIns(found);
    expect([(await of("ada")).length, (await of("bo")).length]).toEqual([1, 1]);
    expect(await expired(store, directory, PERIODS, keptUntil(START, 30))).toEqual(gone);
  });
});

describe("pictures of defects", () => {
  it("[DEF-12] go after their period from the closing, with a signed note, and so do bytes that no record names", async () => {
    const store = new MemoryEventStore();
    const directory = await crewDirectory();
    const test = await testServer({ store, directory });
    const headers = bearer(await signIn(test.app, "di"));
    const post = (url: string, payload: object | Buffer, type = "application/json") =>
      test.app.inject({
        ...{ method: "POST", url: `/api/aircraft/CH-TST${url}`, payload },
        headers: { ...headers, "content-type": type },
      });
    const command = (n: number) => `00000000-0000-4000-8000-90000000000${n}`;
    const report = (n: number, action: object) => post("/reports", { commandId: command(n), action });
    const sent: string[] = [];
    for (const [n, file] of [PNG, LOSSY].entries()) {
      await report(n, { type: "writeDefect", words: `Leak ${n}`, barsStart: false });
      const [life] = (await test.app.inject({ url: "/api/aircraft/CH-TST/defects", headers })).json();
      const reply = await post(`/defects/${life.id}/pictures?commandId=${command(n + 2)}`, file, "image/png");
      sent.push(reply.json().sha256);
    }
    await report(5, { type: "end", no: 1, reason: "Tightened" });
    const { pictures } = directory;
    const [first, second] = await pictures.rows();
    const stray = { ...(await pictures.picture(first as never)), no: 7 } as never;
    await pictures.keep(stray);
    const now = keptUntil(START, PERIODS.pictures);
    const past = async (at: number) =>
      (await expiredPictures(store, pictures, PERIODS.pictures, at)).map(({ no, until }) => [no, until]);
    expect(await past(START)).toEqual([]);
    expect(await past(now - 1)).toEqual([[7, null]]);
    // The second one's defect is open.
    expect((await past(now)).sort()).toEqual([
      [1, now],
      [7, null],
    ]);
    const deps = { store, directory, signer: testSigner, periods: PERIODS };
    for (const one of await expiredPictures(store, pictures, PERIODS.pictures, now))
      await removePicture(deps, one, now);
    expect(await pictures.rows()).toEqual([second]);
    const [removal, ...more] = await store.removals();
    expect(more).toEqual([]);
    const note = openNote(removal?.note ?? "", [testSigner.publicKey], noteTools);
    expect(note?.split("\n").slice(0, 3)).toEqual([
      "chockside/removal",
      `picture ${sent[0]}`,
      "aircraft CH-TST",
    ]);
    const [, closed] = (await test.app.inject({ url: "/api/aircraft/CH-TST/defects", headers })).json();
    expect(closed.pictures).toMatchObject([{ sha256: sent[0], removed: null, kept: false }]);
    const gone = await test.app.inject({
      url: `/api/aircraft/CH-TST/defects/${closed.id}/pictures/${sent[0]}`,
      headers,
    });
    expect(gone.statusCode).toBe(404);
    await test.close();
  });
});

describe("removing it", () => {
  it("[OPS-9] leaves a signed record of each, and everything else whole", async () => {
    const store = new MemoryEventStore();
    const directory = await crewDirectory();
    const first = await testServer({ store, directory });
    const [old, newest] = [await over(first), await over(first)];
    const kept = await exported(first, old);
    const before = await exported(first, newest);
    await first.close();
    const now = keptUntil(START, 24);
    const deps = { store, directory, signer: testSigner, periods: PERIODS };
    const found = await expired(store, directory, PERIODS, now);
    for (const one of found) await remove(deps, one, now);

    const [session, person, ...more] = await store.removals();
    expect(more).toEqual([]);
    const { head, events } = JSON.parse(kept.split("\n")[0] ?? "");
    const text = openNote(session?.note ?? "", [testSigner.publicKey], noteTools);
    expect(text?.split("\n")).toEqual([
      "chockside/removal",
      `session ${old}`,
      "aircraft CH-TST",
      `events ${events}`,
      `head ${head}`,
      "ended 2026-06-01T09:01:00.000Z",
      "kept 12 months as sessions, to 2027-07-01T00:00:00.000Z",
      "time 2028-07-01T00:00:00.000Z",
      "",
    ]);
    expect(openNote(person?.note ?? "", [testSigner.publicKey], noteTools)).toContain(
      "person gone\nkept 24 ",
    );
    expect(await directory.person("gone")).toBeNull();
    expect(await expired(store, directory, PERIODS, now)).toEqual([]);

    const second = await testServer({ store, directory, hand: first.hand });
    expect(await exported(second, newest)).toBe(before);
    expect([checkFile(before).ok, checkFile(kept).ok]).toEqual([true, true]);
    const gone = await second.app.inject({
      url: `/api/sessions/${old}`,
      headers: bearer(await signIn(second.app, "ed")),
    });
    expect(gone.statusCode).toBe(404);
    await second.close();
  });

  it("[OPS-8] is done by a command that says what it did", async () => {
    const folder = mkdtempSync(join(tmpdir(), "chockside-retention-"));
    const file = join(folder, "chockside.db");
    openDatabase(file, 1).close();
    const retention = async (...verb: string[]) =>
      (
        await promisify(execFile)(process.execPath, ["--import", "tsx", "server/retention-cli.ts", ...verb], {
          cwd: ROOT,
          env: { ...process.env, CHOCKSIDE_DATA: file, DATABASE_URL: "" },
        })
      ).stdout;
    expect(await retention()).toBe("0 past their retention period\n");
    expect(await retention("remove")).toBe("0 removed\n");
    await expect(retention("everything")).rejects.toThrow("usage: npm run retention");
    rmSync(folder, { recursive: true });
  });
});
