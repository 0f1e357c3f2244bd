import { spawnSync } from "node:child_process";
import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { checkFile } from "../../server/evidence/check-file.ts";
import { printBrief } from "../../server/print/brief.ts";
import { printRecord } from "../../server/print/record.ts";
import { readSealed } from "../../shared/evidence/read.ts";
import { briefOf } from "../../shared/paper/brief.ts";
import { recordOf } from "../../shared/paper/record.ts";
import { rehearsalFault } from "../../shared/protocol/rehearsal.ts";
import { evolve } from "../../shared/session/evolve.ts";
import { LANGUAGES } from "../../shared/words/language.ts";
import { SPOKEN } from "../../shared/words/spoken.ts";
import { testServer } from "../http/test-server.ts";
import { testSigner } from "../http/test-signer.ts";
import { readPdf } from "../print/reader.ts";
import { given, START } from "../spec/given.ts";
import { Both } from "./world.ts";

const VERIFY = fileURLToPath(new URL("../proof/verify.py", import.meta.url));

let both: Both;
beforeAll(async () => {
  both = await new Both(await testServer()).begin();
  await both.crewed(both.rehearsal);
});
afterAll(() => both.test.close());

const exported = async (session: string, as: string) =>
  (await both.ask("GET", `/sessions/${session}/evidence?as=${as}`)).body;

function python(content: string, ...keys: string[]) {
  const file = join(mkdtempSync(join(tmpdir(), "rehearsal-")), "export");
  writeFileSync(file, content);
  return spawnSync("python3", [VERIFY, file, ...keys], { encoding: "utf8" });
}

const events = async (session: string) =>
  (await both.test.services.store.read(session, 0, 200)).map(({ body }) => readSealed(body).event);

describe("the evidence of a rehearsal", () => {
  it("[RHS-6] is named as one by both verifiers, in each form, and that of a start is not", async () => {
    for (const form of ["ndjson", "json"]) {
      const text = await exported(both.rehearsal, form);
      expect(checkFile(text)).toMatchObject({
        ok: true,
        says: expect.stringContaining("REHEARSAL: no aircraft"),
      });
      expect(python(text).stdout).toContain("REHEARSAL: no aircraft was started");
      const start = await exported(both.start, form);
      expect(checkFile(start).says).not.toContain("REHEARSAL");
      expect(python(start).stdout).not.toContain("REHEARSAL");
    }
    const keys = [testSigner.publicHex];
    const table = await exported(both.rehearsal, "csv");
    expect(table.startsWith('"REHEARSAL: no aircraft was started')).toBe(true);
    expect(checkFile(table, { keys })).toMatchObject({
      ok: true,
      says: expect.stringContaining("REHEARSAL"),
    });
    expect(checkFile(await exported(both.start, "csv"), { keys }).says).not.toContain("REHEARSAL");
  });

  it("[RHS-47] is named as taken back by both verifiers", async () => {
    const from = await both.rehearse("fay");
    const { id } = (await both.ask("POST", `/rehearsals/${from.id}/back`, "fay", { seq: 1 })).json();
    const text = await exported(id, "ndjson");
    expect(python(text).stdout).toContain(`Events 1 to 1 are retold from ${from.id}.`);
    expect(checkFile(text).says).toContain(`events 1 to 1 are retold from ${from.id}`);
  });

  it("[RHS-6] says so in every checkpoint", async () => {
    const manifest = JSON.parse((await exported(both.rehearsal, "ndjson")).split("\n")[0] ?? "");
    expect(manifest.checkpoints.length).toBeGreaterThan(0);
    for (const note of manifest.checkpoints) expect(note).toMatch(/^chockside\/session\/rehearsal-/);
  });

  it("[RHS-1] is not believed when its first event says one thing and its id or aircraft another", async () => {
    const [first] = await events(both.rehearsal);
    const [start] = await events(both.start);
    if (first?.fact.type !== "planned" || start?.fact.type !== "planned") throw new Error("no plans");
    const { rehearsal, ...unmarked } = first.fact;
    expect(rehearsal).toBeDefined();
    const forged = [
      { ...first, session: start.session },
      { ...first, fact: unmarked },
      { ...first, fact: { ...first.fact, aircraft: "CH-TST" } },
      { ...start, session: first.session },
      { ...start, fact: { ...start.fact, aircraft: first.fact.aircraft } },
      ...(rehearsal ? [{ ...start, fact: { ...start.fact, rehearsal } }] : []),
    ];
    expect(forged).toHaveLength(6);
    for (const event of forged) expect(() => evolve(null, event)).toThrow(/rehears/);
    expect(rehearsalFault(first.session, first.fact)).toBeNull();
    expect(rehearsalFault(start.session, start.fact)).toBeNull();
  });

  it("[RHS-6] a start holds no event that only a rehearsal has", () => {
    const story = given();
    const fact = { type: "rehearsed", said: { is: "fault", fault: "lightning" } } as const;
    const last = story.log.at(-1);
    if (!last) throw new Error("no plan");
    const event = { ...last, seq: last.seq + 1, actor: { kind: "system" } as const, fact };
    expect(() => evolve(story.state, event)).toThrow("only a rehearsal");
  });
});

describe("the papers of a rehearsal", () => {
  it("[RHS-30] print what they did in the record, and those of a start do not", async () => {
    for (const session of [both.rehearsal, both.start]) {
      const record = recordOf(await events(session), "00", SPOKEN.en);
      const { solid } = await readPdf(await printRecord(record, START, "short"));
      expect(solid.includes("Whattheydid"), session).toBe(session === both.rehearsal);
      expect(record.debrief === null).toBe(session === both.start);
    }
  });

  it("[RHS-7] say so at the head of every page, in each language, and those of a start do not", async () => {
    for (const language of LANGUAGES) {
      const say = SPOKEN[language];
      const word = { en: "REHEARSAL", es: "ENSAYO" }[language];
      for (const session of [both.rehearsal, both.start]) {
        const log = await events(session);
        const brief = await readPdf(await printBrief(briefOf(await both.state(session), [], say), START));
        const record = await readPdf(await printRecord(recordOf(log, "00", say), START, "full"));
        for (const { pages } of [brief, record]) {
          expect(pages.length).toBeGreaterThan(0);
          for (const page of pages)
            expect(page.includes(`${word}. `), page.slice(0, 80)).toBe(session === both.rehearsal);
        }
      }
    }
  });
});
