import { execFile } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import { openDatabase } from "../../server/store/open.ts";
import { PrismaDirectory } from "../../server/store/prisma-directory.ts";
import { SqliteEventStore } from "../../server/store/sqlite-events.ts";
import { addAircraft, crewDirectory, planned, signIn, testServer } from "../http/test-server.ts";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));

it("[PRV-3, PRV-5] npm run people gives a person's data and takes them out of the database's very files", async () => {
  const folder = mkdtempSync(join(tmpdir(), "chockside-erase-"));
  const file = join(folder, "chockside.db");
  const store = new SqliteEventStore(openDatabase(file, 1));
  const directory = await PrismaDirectory.open(file);
  const like = await (await crewDirectory()).personByHandle("di");
  if (!like) throw new Error("no di");
  const name = "Perpetua Quillfeather";
  await directory.addPeople([{ ...like, id: "p1", handle: "perpetua", name }]);
  const [type] = await (await crewDirectory()).types();
  const version = await (await crewDirectory()).type(type?.id ?? "", type?.version ?? 0);
  if (!version) throw new Error("no type");
  await directory.addTypes([version.type], 1);
  await addAircraft(directory, {
    id: "CH-TST",
    name: "Test bird",
    typeId: version.type.id,
    typeVersion: version.type.version,
  });
  const test = await testServer({ store, directory });
  const { id } = await planned(test.app, await signIn(test.app, "perpetua"));
  const person = { id: "p1", name, device: "perpetua-tablet", mayHold: ["supervisor" as const] };
  const actions = [
    { type: "claimPost", post: "supervisor" },
    { type: "abandon", reason: "rain" },
  ] as const;
  for (const [n, action] of actions.entries()) {
    const command = {
      v: 1,
      id: `00000000-0000-4000-8000-50000000000${n}`,
      session: id,
      clientAt: 5,
    } as const;
    const result = await test.services.sessions.command(person, { ...command, action });
    expect(result.status).toBe("accepted");
  }
  await test.close();
  await store.close();
  await directory.close();
  const inFiles = () =>
    readdirSync(folder).filter((f) => readFileSync(join(folder, f)).includes("Quillfeather"));
  expect(inFiles()).toContain("chockside.db");

  const all = JSON.parse(await people(file, "export", "perpetua"));
  expect(all).toMatchObject({ person: { name }, names: [name], sessions: [{ session: id, closed: true }] });
  expect(await people(file, "erase", "Perpetua")).toMatch(/^perpetua was erased\. Earlier backups .*\n$/);
  expect(inFiles()).toEqual([]);
  await expect(people(file, "export", "perpetua")).rejects.toThrow("nobody with the handle perpetua");
  rmSync(folder, { recursive: true });
}, 120_000);

it("[PRV-6] npm run people adds nobody of a name that somebody who may sign in bears", async () => {
  const folder = mkdtempSync(join(tmpdir(), "chockside-namesake-"));
  const file = join(folder, "chockside.db");
  openDatabase(file, 1).close();
  const directory = await PrismaDirectory.open(file);
  const like = await (await crewDirectory()).personByHandle("di");
  if (!like) throw new Error("no di");
  await directory.addPeople([like]);
  const add = (handle: string, name: string) => people(file, handle, name, "supervisor");
  await expect(add("dilys", like.name)).rejects.toThrow(
    "di is called Di, which looks like Di: add what tells them apart",
  );
  await directory.setActive(like.id, false);
  await directory.close();
  expect(await add("dilys", like.name)).toContain("Di may sign in as dilys");
  rmSync(folder, { recursive: true });
}, 120_000);

function people(file: string, ...entry: string[]): Promise<string> {
  return new Promise((resolve, reject) => {
    const child = execFile(
      process.execPath,
      ["--import", "tsx", "server/people-cli.ts", ...entry],
      { cwd: ROOT, env: { ...process.env, CHOCKSIDE_DATA: file, DATABASE_URL: "" } },
      (error, stdout, stderr) => (error ? reject(new Error(stderr)) : resolve(stdout)),
    );
    child.stdin?.end("90210377\n");
  });
}
